#include "driver/mend_file.h"

#include <algorithm>
#include <memory>
#include <set>
#include <tuple>

#include "base/fixes.h"
#include "driver/check_file.h"
#include "files/memory_files.h"
#include "input/yaml_value.h"

namespace sheaf {

namespace {

constexpr int kMostRounds = 10;
// A round that brings an error tries its fixes one by one, so many at most.
constexpr std::size_t kMostMends = 50;

// The file with other bytes than the disk has, and what there is to say of it.
// The messages point into the workspace's texts.
class Trial {
 public:
  Trial(const Files& files, const FilePath& shipped,
        const LessonRequest& request, const std::string& path,
        const std::string& bytes)
      : path_(path), files_(&files), workspace_(files_, shipped) {
    files_.put(path, bytes);
    checked_ = check_file(workspace_, request, path);
  }

  // The certain fixes of this file, each once.
  std::vector<Fix> certain() const {
    std::vector<Fix> fixes;
    std::set<std::tuple<std::uint32_t, std::uint32_t, std::string>> seen;
    for (const Diagnostic* d : checked_.diagnostics.sorted()) {
      for (const Fix& fix : d->fixes) {
        if (!fix.certain || fix.span.file->name() != path_) continue;
        if (seen.insert({fix.span.begin, fix.span.end, fix.replacement})
                .second) {
          fixes.push_back(fix);
        }
      }
    }
    return fixes;
  }

  const Diagnostics& messages() const { return checked_.diagnostics; }

 private:
  std::string path_;
  MemoryFiles files_;
  Workspace workspace_;
  CheckedFile checked_;
};

int line_of(const Span& span) {
  return span.is_whole() ? 0 : span.file->place_of(span.begin).line;
}

bool has_good_form(const std::string& text) {
  const SourceFile file({}, text);
  Diagnostics unheard;
  read_yaml(file, unheard);
  return !unheard.has_errors();
}

// The lines whose errors fixes may have brought: what is wrong behind other
// spaces was wrong before, unless the spaces themselves are.
std::set<int> changed_lines(const std::vector<Fix>& fixes,
                            const std::string& mended) {
  const auto blank = [](std::string_view text) {
    return std::ranges::all_of(text, [](char c) { return c == ' '; });
  };
  const bool good_form = has_good_form(mended);
  std::set<int> lines;
  for (const Fix& fix : fixes) {
    const bool spaces = !fix.replacement.empty() && blank(fix.replacement) &&
                        fix.span.text().size() <= fix.replacement.size();
    if (!spaces || !good_form) lines.insert(line_of(fix.span));
  }
  return lines;
}

// The first error that mends brought; empty where they brought none.
std::string new_error(const Diagnostics& before, const Diagnostics& after,
                      const std::set<int>& changed, const std::string& path) {
  const auto was_there = [&](const Diagnostic& error) {
    return std::ranges::any_of(before.sorted(), [&](const Diagnostic* d) {
      return d->severity == Severity::error && d->name == error.name &&
             d->text == error.text;
    });
  };
  for (const Diagnostic* d : after.sorted()) {
    if (d->severity != Severity::error || was_there(*d)) continue;
    const auto here = [&](const Span& span) {
      return span && span.file->name() == path &&
             (span.is_whole() || changed.contains(line_of(span)));
    };
    const bool by_remark = std::ranges::any_of(
        d->remarks, [&](const Remark& remark) { return here(remark.span); });
    if (here(d->unshown ? d->unshown : d->span) || by_remark ||
        !before.has_errors())
      return d->text;
  }
  return {};
}

class Mender {
 public:
  Mender(const Files& files, const FilePath& shipped,
         const LessonRequest& request, const std::string& path)
      : files_(files), shipped_(shipped), request_(request), path_(path) {
    result_.before = files.read(path, kLargest);
    const bool marked = result_.before.starts_with(kByteOrderMark);
    head_ = marked ? kByteOrderMark : "";
    text_ = result_.before.substr(head_.size());
  }

  MendedFile mend() {
    now_ = trial(text_);
    for (int round = 0; round < kMostRounds; ++round) {
      if (!do_round()) break;
    }
    std::ranges::stable_sort(result_.done, {}, &MendedFile::Mend::line);
    std::ranges::stable_sort(result_.left, {}, &MendedFile::Mend::line);
    result_.after = head_ + text_;
    return std::move(result_);
  }

 private:
  static constexpr std::size_t kLargest = std::size_t{1} << 22U;
  static constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

  std::unique_ptr<Trial> trial(const std::string& text) const {
    return std::make_unique<Trial>(files_, shipped_, request_, path_,
                                   head_ + text);
  }

  bool do_round() {
    std::vector<Fix> fixes = now_->certain();
    std::erase_if(fixes, [&](const Fix& fix) { return was_refused(fix); });
    if (fixes.empty()) return false;
    if (put_in(fixes)) return true;
    std::vector<Fix> good;
    for (std::size_t i = 0; i < fixes.size() && i < kMostMends; ++i) {
      const MendedText mended = with_fixes(text_, {fixes[i]});
      const auto then = trial(mended.text);
      const std::string error =
          new_error(now_->messages(), then->messages(),
                    changed_lines({fixes[i]}, mended.text), path_);
      if (error.empty()) {
        good.push_back(fixes[i]);
      } else {
        result_.left.push_back({line_of(fixes[i].span), fixes[i].label, error});
      }
    }
    // Each by itself does no harm; if all of them do, one is enough for now.
    return !good.empty() && (put_in(good) || put_in({good.front()}));
  }

  // Puts in what does not overlap; false where that brings an error.
  bool put_in(const std::vector<Fix>& fixes) {
    MendedText mended = with_fixes(text_, fixes);
    auto then = trial(mended.text);
    if (!new_error(now_->messages(), then->messages(),
                   changed_lines(mended.put_in, mended.text), path_)
             .empty()) {
      return false;
    }
    for (const Fix& fix : mended.put_in) {
      result_.done.push_back({line_of(fix.span), fix.label, {}});
    }
    text_ = std::move(mended.text);
    now_ = std::move(then);
    return true;
  }

  bool was_refused(const Fix& fix) const {
    return std::ranges::any_of(result_.left, [&](const MendedFile::Mend& mend) {
      return mend.line == line_of(fix.span) && mend.label == fix.label;
    });
  }

  const Files& files_;
  const FilePath& shipped_;
  const LessonRequest& request_;
  const std::string& path_;
  std::string head_;  // a byte order mark, if the file has one
  std::string text_;
  std::unique_ptr<Trial> now_;
  MendedFile result_;
};

}  // namespace

MendedFile mend_file(const Files& files, const FilePath& shipped,
                     const LessonRequest& request, const std::string& path) {
  return Mender(files, shipped, request, path).mend();
}

}  // namespace sheaf
