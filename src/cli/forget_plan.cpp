#include "cli/forget_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/error.h"
#include "base/utf8.h"
#include "cli/forget_files.h"
#include "driver/made_from.h"
#include "driver/pdf_titles.h"
#include "files/disk_files.h"
#include "input/learner_cuts.h"
#include "input/named_code.h"
#include "input/without_learner.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

using Place = ForgetFile::Place;

constexpr std::size_t kLargestFile = std::size_t{4} << 20U;
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

// Lines one behind the other, without the blanks between.
std::string in_one_line(std::string_view text) {
  std::string line;
  bool blank = false;
  for (const char c : text) {
    if (c == ' ' || c == '\n' || c == '\r' || c == '\t') {
      blank = !line.empty();
      continue;
    }
    if (blank) line += ' ';
    blank = false;
    line += c;
  }
  return line;
}

class Planner {
 public:
  Planner(const CommandLine& line, std::deque<SourceFile>& sources,
          Diagnostics& diagnostics)
      : line_(line),
        code_(LearnerCode::read(line.arguments.front()).value()),
        sources_(sources),
        diagnostics_(diagnostics),
        ground_(forget_ground(line)) {}

  ForgetPlan run() {
    for (const FilePath& folder : ground_.folders) look_at_folder(folder);
    for (const ForgetFile& file : ground_.files) {
      looked_at_.insert(file.real);
      if (file.is_yaml()) {
        look_at_yaml(file);
      } else {
        look_at_other(file);
      }
    }
    for (const ForgetGround::FolderLink& link : ground_.folder_links) {
      leave(fmt::format(
          "{}: a link to the folder {}, which was not searched; `--{} {}` "
          "searches it",
          link.path.string(), link.real.string(),
          link.place == Place::out ? "out" : "records", link.real.string()));
    }
    settle_class_pages();
    std::ranges::sort(plan_.deletions, {}, &ForgetPlan::Deletion::path);
    find_other_names();
    find_empty_folders();
    find_classes();
    return std::move(plan_);
  }

 private:
  void leave(const std::string& text) { plan_.left.push_back({text, text}); }

  bool is_code(const FilePath& name) const {
    return is_same_code(name.string(), code_);
  }

  // In the folder of packets, whether a folder or the file bears the code.
  bool is_in_learners_place(const ForgetFile& file) const {
    if (file.place != Place::out) return false;
    const FilePath below =
        file.path.lexically_relative(FilePath(line_.out).lexically_normal());
    return is_code(below.stem()) ||
           std::ranges::any_of(below.parent_path(), [&](const FilePath& part) {
             return is_code(part);
           });
  }

  void look_at_folder(const FilePath& folder) {
    if (is_code(folder.filename())) learner_folders_.push_back(folder);
    if (names_code(folder.filename().string(), code_)) {
      named_folders_.push_back(folder);
    }
  }

  void leave_foreign(const ForgetFile& file) {
    leave(fmt::format("{}: Sheaf did not make it, so it stays",
                      file.path.string()));
  }

  void look_at_name(const ForgetFile& file) {
    if (!names_code(file.path.filename().string(), code_)) return;
    leave(fmt::format("{}: its name has the code", file.path.string()));
  }

  // ---- files of a teacher's ----

  void look_at_yaml(const ForgetFile& file) {
    std::string bytes = disk().read(file.source(), kLargestFile);
    const SourceFile& source = sources_.emplace_back(file.path.string(), bytes);
    const auto without = without_learner(source, code_, diagnostics_);
    if (!without) return;
    if (without->nothing_left) {
      take_all(file, bytes, *without);
      return;
    }
    if (is_in_learners_place(file) &&
        !is_own_text(OwnKind::review, source.text())) {
      leave_foreign(file);
    } else {
      look_at_name(file);
    }
    for (const WithoutLearner::Named& named : without->still_named) {
      constexpr std::string_view kText =
          "{}:{}: has the code in a remark, a "
          "note or a name";
      plan_.left.push_back({fmt::format(kText, source.name(), named.before),
                            fmt::format(kText, source.name(), named.after)});
    }
    if (without->more_named > 0) {
      leave(fmt::format(
          "{}: {} the code", source.name(),
          counted(without->more_named, "more line has", "more lines have")));
    }
    for (const std::string& name : without->classes) {
      class_names_.emplace(file.path.parent_path(), name);
    }
    if (without->removed.empty()) return;
    ForgetPlan::Change change{file.source(), {}, without->text, {}};
    if (bytes.starts_with(kByteOrderMark)) {
      change.after.insert(0, kByteOrderMark);
    }
    change.before = std::move(bytes);
    if (file.is_link) {
      change.lines.push_back(
          fmt::format("{} is a link: {} is changed, and the link stays",
                      file.path.string(), file.real.string()));
    }
    for (const Span& span : without->removed) {
      change.lines.push_back(fmt::format("{}:{}: {}", source.name(),
                                         source.place_of(span.begin).line,
                                         printable(in_one_line(span.text()))));
    }
    plan_.changes.push_back(std::move(change));
  }

  // A plan that Sheaf wrote may go as a whole; what a teacher wrote may not.
  void take_all(const ForgetFile& file, const std::string& bytes,
                const WithoutLearner& without) {
    if (!file.is_link && is_own_text(OwnKind::review, bytes)) {
      plan_.deletions.push_back({file.path, OwnKind::review, bytes});
    } else {
      report_nothing_left(without, diagnostics_);
    }
  }

  // ---- what Sheaf made, and all else ----

  void look_at_other(const ForgetFile& file) {
    const auto pdf = own_pdf(disk(), file.real);
    if (file.is_link && is_in_learners_place(file)) {
      leave_foreign(file);
      return;
    }
    if (pdf) {
      look_at_pdf(file, *pdf);
      return;
    }
    if (is_in_learners_place(file)) {
      leave_foreign(file);
      return;
    }
    look_at_name(file);
    look_at_text(file);
  }

  void look_at_pdf(const ForgetFile& file, const OwnPdf& pdf) {
    const PdfAbout about = about_pdf(pdf.title);
    const bool is_out = file.place == Place::out && !file.is_link;
    const bool names_learner = std::ranges::any_of(
        about.learners,
        [&](const std::string& code) { return is_same_code(code, code_); });
    if (names_learner && !is_out) {
      leave(fmt::format("{}: the learner's pages", file.path.string()));
    } else if (names_learner || (is_in_learners_place(file) &&
                                 about.kind != PdfAbout::Kind::lesson)) {
      delete_own(file.path, OwnKind::pdf);
    } else if (about.kind == PdfAbout::Kind::class_job) {
      if (is_out) {
        class_pages_.push_back(file.path);
      } else {
        leave_class_pages(file.path);
      }
    } else if (about.kind == PdfAbout::Kind::report) {
      leave(
          fmt::format("{}: made from records, and may show the code; make it "
                      "again",
                      file.path.string()));
    } else if (pdf.title.empty() && is_out &&
               file.path.filename() == "packets.pdf") {
      class_pages_.push_back(file.path);
    } else {
      look_at_name(file);
    }
  }

  void leave_class_pages(const FilePath& path) {
    leave(fmt::format("{}: pages of a whole class, and may show the code",
                      path.string()));
  }

  void look_at_text(const ForgetFile& file) {
    std::string text;
    try {
      text = disk().read(file.source(), kLargestFile);
    } catch (const MachineError& fault) {
      leave(fault.what());
      return;
    }
    if (text.find('\0') != std::string::npos) return;
    if (text.size() > kLargestFile) {
      leave(fmt::format("{}: longer than {} MB, so it was not searched",
                        file.path.string(), kLargestFile >> 20U));
      return;
    }
    if (file.place == Place::out && !file.is_link &&
        is_own_text(OwnKind::dependencies, text) && names_code(text, code_)) {
      listed_.insert(file.path.parent_path());
      delete_own(file.path, OwnKind::dependencies);
      return;
    }
    const SourceFile source(file.path.string(), std::move(text));
    const int last = source.place_of(source.text().size()).line;
    int first = 0, more = 0;
    for (int number = 1; number <= last; ++number) {
      if (!names_code(source.line(number), code_)) continue;
      if (first == 0) {
        first = number;
      } else {
        ++more;
      }
    }
    if (first == 0) return;
    leave(more == 0
              ? fmt::format("{}:{}: has the code", source.name(), first)
              : fmt::format("{}:{}: has the code, and so {} {}", source.name(),
                            first, more == 1 ? "does" : "do",
                            counted(more, "more line", "more lines")));
  }

  void delete_own(const FilePath& path, OwnKind kind) {
    plan_.deletions.push_back({path, kind, {}});
  }

  // What pages were made from goes with them; it names files, which may have
  // the code.
  void delete_made_from(const FilePath& folder) {
    const FilePath path = folder / kMadeFromFile;
    const bool known =
        std::ranges::find(plan_.deletions, path, &ForgetPlan::Deletion::path) !=
        plan_.deletions.end();
    if (!known && is_own(OwnKind::made_from, disk(), path)) {
      delete_own(path, OwnKind::made_from);
    }
  }

  // The pages of a whole class lie beside the learner's folder, or a dependency
  // file beside them tells.
  void settle_class_pages() {
    for (const FilePath& folder : learner_folders_) {
      listed_.insert(folder.parent_path());
    }
    for (const ForgetPlan::Deletion& one : plan_.deletions) {
      if (is_code(one.path.stem())) listed_.insert(one.path.parent_path());
    }
    for (const FilePath& path : class_pages_) {
      if (listed_.contains(path.parent_path())) {
        delete_own(path, OwnKind::pdf);
        delete_made_from(path.parent_path());
      } else {
        leave_class_pages(path);
      }
    }
  }

  void find_other_names() {
    std::vector<FilePath> changed;
    for (const auto& change : plan_.changes) changed.push_back(change.path);
    for (const FilePath& path : with_names_elsewhere(ground_, changed)) {
      leave(
          fmt::format("{}: the file has another name elsewhere, under which "
                      "it stays as it is",
                      path.string()));
    }
  }

  void find_empty_folders() {
    std::set<FilePath> gone;
    for (const ForgetPlan::Deletion& one : plan_.deletions) {
      gone.insert(one.path);
    }
    // Folders come before what is in them.
    for (auto folder = ground_.folders.rbegin();
         folder != ground_.folders.rend(); ++folder) {
      const bool is_learners =
          std::ranges::any_of(learner_folders_, [&](const FilePath& own) {
            const FilePath below = folder->lexically_relative(own);
            return !below.empty() && *below.begin() != "..";
          });
      if (!is_learners || !is_below_out(*folder)) continue;
      const bool empty =
          std::ranges::all_of(disk().list(*folder), [&](const FilePath& path) {
            return gone.contains(path.lexically_normal());
          });
      if (!empty) continue;
      gone.insert(*folder);
      plan_.empty_folders.push_back(*folder);
    }
    for (const FilePath& folder : named_folders_) {
      if (gone.contains(folder)) continue;
      leave(fmt::format("{}: the folder's name has the code", folder.string()));
    }
  }

  bool is_below_out(const FilePath& path) const {
    const FilePath below =
        path.lexically_relative(FilePath(line_.out).lexically_normal());
    return !below.empty() && *below.begin() != "..";
  }

  // The classes that the records name, where nobody asked to look into them.
  void find_classes() {
    std::set<FilePath> told;
    for (const auto& [folder, name] : class_names_) {
      const FilePath base = folder.empty() ? FilePath(".") : folder;
      for (const FilePath& place :
           {base, base / "..", base / ".." / "lessons"}) {
        const FilePath path = (place / name).lexically_normal();
        const auto real = disk().real(path);
        if (!real || !disk().is_file(*real)) continue;
        if (!looked_at_.contains(*real) && told.insert(*real).second &&
            has_learner(*real)) {
          leave(
              fmt::format("{}: the class of these records still has the "
                          "learner; add `--class {}`",
                          path.string(), path.string()));
        }
        break;
      }
    }
  }

  bool has_learner(const FilePath& path) {
    const SourceFile file(path.string(), disk().read(path, kLargestFile));
    Diagnostics unheard;
    const auto without = without_learner(file, code_, unheard);
    // What cannot be read may have the learner.
    return !without || without->nothing_left || !without->removed.empty();
  }

  const CommandLine& line_;
  LearnerCode code_;
  std::deque<SourceFile>& sources_;
  Diagnostics& diagnostics_;
  ForgetGround ground_;
  ForgetPlan plan_;
  std::vector<FilePath> learner_folders_, named_folders_, class_pages_;
  // Folders in which pages of a class are, that has the learner.
  std::set<FilePath> listed_;
  std::set<FilePath> looked_at_;
  std::set<std::pair<FilePath, std::string>> class_names_;
};

}  // namespace

ForgetPlan plan_forgetting(const CommandLine& line,
                           std::deque<SourceFile>& sources,
                           Diagnostics& diagnostics) {
  return Planner(line, sources, diagnostics).run();
}

}  // namespace sheaf
