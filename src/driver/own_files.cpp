#include "driver/own_files.h"

#include <algorithm>
#include <string>

#include "base/utf8.h"
#include "planning/block_list.h"
#include "preview/own_png.h"

namespace sheaf {

namespace {

constexpr std::size_t kLargestText = std::size_t{4} << 20U;

// The line that a text begins with is taken off it.
std::string_view take_line(std::string_view& text) {
  const std::size_t end = std::min(text.find('\n'), text.size());
  std::string_view line = text.substr(0, end);
  text.remove_prefix(std::min(end + 1, text.size()));
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

// Where the next name in a line for make ends: at a blank without a backslash.
std::size_t end_of_name(std::string_view line) {
  std::size_t at = 0;
  while (at < line.size() && line[at] != ' ') {
    at += line[at] == '\\' ? 2 : 1;
  }
  return std::min(at, line.size());
}

// A name in a line for make without its marks, which differ between targets and
// sources.
std::string unmarked(std::string_view name) {
  std::string result;
  for (const char c : name) {
    if (c != '\\') result += c;
  }
  return result;
}

// Targets, a colon that stands alone and the sources in one line, then a line
// for each source, in the same order, and nothing else.
bool is_dependencies(std::string_view text) {
  std::string_view first = take_line(text);
  int targets = 0;
  while (!first.starts_with(':')) {
    const std::size_t end = end_of_name(first);
    if (end == 0 || end == first.size()) return false;
    first.remove_prefix(end + 1);
    ++targets;
  }
  first.remove_prefix(1);
  while (first.starts_with(' ')) {
    first.remove_prefix(1);
    const std::size_t end = end_of_name(first);
    const std::string_view line = take_line(text);
    if (end == 0 || !line.ends_with(':') ||
        unmarked(line.substr(0, line.size() - 1)) !=
            unmarked(first.substr(0, end))) {
      return false;
    }
    first.remove_prefix(end);
  }
  return targets > 0 && first.empty() && text.empty();
}

bool is_by_review(std::string_view text) {
  while (text.starts_with('#')) {
    if (take_line(text).find(kByReview) != std::string_view::npos) return true;
  }
  return false;
}

bool is_blocked_words(std::string_view text) {
  if (text.starts_with(kBlockedHead)) return true;
  if (find_bad_utf8(text)) return false;
  while (!text.empty()) {
    if (!BlockList::reads(take_line(text))) return false;
  }
  return true;
}

}  // namespace

bool is_own_text(OwnKind kind, std::string_view text) {
  switch (kind) {
    case OwnKind::dependencies:
      return is_dependencies(text);
    case OwnKind::review:
      return is_by_review(text);
    case OwnKind::made_from:
      return true;
    case OwnKind::blocked_words:
      return is_blocked_words(text);
    case OwnKind::pdf:
    case OwnKind::preview:
      break;
  }
  return false;
}

namespace {

std::optional<OwnPdf> own_pdf(const OpenFile& file) {
  return read_own_pdf(file.size(), [&](std::uint64_t begin, std::size_t most) {
    return file.read(begin, most);
  });
}

template <OwnKind kind>
bool is_of(const OpenFile& file) {
  return is_own(kind, file);
}

}  // namespace

bool is_own(OwnKind kind, const OpenFile& file) {
  if (kind == OwnKind::pdf) return own_pdf(file).has_value();
  if (kind == OwnKind::preview) {
    return is_own_png(file.size(), [&](std::uint64_t begin, std::size_t most) {
      return file.read(begin, most);
    });
  }
  return file.size() <= kLargestText &&
         is_own_text(kind, file.read(0, kLargestText));
}

bool is_own(OwnKind kind, const Files& files, const FilePath& path) {
  const auto file = files.open(path);
  return file && is_own(kind, *file);
}

std::optional<OwnPdf> own_pdf(const Files& files, const FilePath& path) {
  const auto file = files.open(path);
  return file ? own_pdf(*file) : std::nullopt;
}

const OwnForm& own_form(OwnKind kind) {
  static constexpr OwnForm kPdf = {.is_own = is_of<OwnKind::pdf>,
                                   .why_not = "not a PDF as Sheaf made it",
                                   .can_be_made_again = true};
  static constexpr OwnForm kPreview = {
      .is_own = is_of<OwnKind::preview>,
      .why_not = "not a picture of pages as Sheaf made it",
      .can_be_made_again = true};
  static constexpr OwnForm kDependencies = {
      .is_own = is_of<OwnKind::dependencies>,
      .why_not = "not a dependency file that Sheaf made",
      .can_be_made_again = true};
  static constexpr OwnForm kReview = {
      .is_own = is_of<OwnKind::review>,
      .why_not = "not a file that `sheaf review` wrote"};
  static constexpr OwnForm kMadeFrom = {
      .is_own = is_of<OwnKind::made_from>,
      .why_not = "not a record of `sheaf build`",
      .can_be_made_again = true};
  static constexpr OwnForm kBlockedWords = {
      .is_own = is_of<OwnKind::blocked_words>,
      .why_not = "not a list of words that are not to be suggested"};
  switch (kind) {
    case OwnKind::pdf:
      return kPdf;
    case OwnKind::preview:
      return kPreview;
    case OwnKind::dependencies:
      return kDependencies;
    case OwnKind::review:
      return kReview;
    case OwnKind::made_from:
      return kMadeFrom;
    case OwnKind::blocked_words:
      break;
  }
  return kBlockedWords;
}

}  // namespace sheaf
