#include "cli/review_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/utf8.h"
#include "cli/new_file.h"
#include "cli/shell_words.h"
#include "driver/own_files.h"
#include "files/disk_files.h"
#include "files/output_files.h"
#include "input/class_text.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

constexpr std::size_t kReviewWords = 6;  // for one learner's week

bool is_same_folder(const FilePath& a, const FilePath& b) {
  const auto whole = [](const FilePath& folder) {
    return disk()
        .absolute(folder.empty() ? FilePath(".") : folder)
        .lexically_normal();
  };
  return whole(a / ".") == whole(b / ".");
}

void add_allowed(const FilePath& folder, std::vector<std::string>& words) {
  words.insert(
      words.end(),
      {"--allow", as_argument(folder.empty() ? "." : folder.string())});
}

// A line that says how to go on; nothing where no shell would take it.
void print_command(std::string_view what, const std::string& command) {
  if (!command.empty()) fmt::print("  {}:\n    {}\n", what, command);
}

// The learners who write a check, each with the one that is theirs. What the
// pages look like is kept; what they practise this week is not.
ClassFile class_of_checks(const ClassFile& pupils,
                          const std::vector<CheckLesson>& checks) {
  ClassFile own = pupils;
  own.settings = {};
  own.learners.clear();
  for (GroupEntry& group : own.groups) group.settings = {};
  for (const LearnerEntry& learner : pupils.learners) {
    const auto check = std::ranges::find_if(checks, [&](const CheckLesson& c) {
      return std::ranges::find(c.codes, learner.code.value) != c.codes.end();
    });
    if (check == checks.end()) continue;
    const LearnerSettings settings = settings_for(pupils, learner);
    LearnerEntry entry = learner;
    entry.settings = {};
    entry.settings.lesson.value = check->name + ".yaml";
    entry.settings.line_size = settings.line_size;
    entry.settings.spacing = settings.spacing;
    entry.settings.picture_names = settings.picture_names;
    own.learners.push_back(std::move(entry));
  }
  return own;
}

}  // namespace

std::string ReviewCommands::build_class(const FilePath& plan) const {
  std::vector<std::string> words = {line_.program, "build", "--class",
                                    as_argument(plan.string())};
  const FilePath home = FilePath(line_.marking.class_file).parent_path();
  if (!is_same_folder(home, folder_)) add_allowed(home, words);
  for (const std::string& other : line_.allowed_folders)
    add_allowed(other, words);
  return shell_command(words);
}

std::string ReviewCommands::build_lesson(const FilePath& lesson) const {
  return shell_command({line_.program, "build", as_argument(lesson.string())});
}

std::string ReviewCommands::record(const FilePath& lesson,
                                   const FilePath& pupils) const {
  const FilePath records = line_.marking.records;
  const FilePath above =
      disk().absolute(records).lexically_normal().parent_path();
  for (const FilePath& file : {lesson, pupils}) {
    const FilePath near =
        disk().absolute(file).lexically_normal().lexically_relative(above);
    if (near.empty() || *near.begin() == "..") return {};
  }
  return shell_command({line_.program, "record", as_argument(lesson.string()),
                        "--class", as_argument(pupils.string()), "--records",
                        as_argument(records.string()), "--kind", "retention",
                        "--date", date_text(last_day_)});
}

ReviewFiles::ReviewFiles(const CommandLine& line, const ClassFile& pupils,
                         const Date& week)
    : line_(line),
      pupils_(pupils),
      class_path_(line.marking.class_file),
      folder_(line.marking.out.empty() ? class_path_.parent_path()
                                       : FilePath(line.marking.out)),
      commands_(line, folder_, week) {
  // A name with a line break in it would end the remark.
  class_name_ = class_path_.filename().string();
  if (printable(class_name_) != class_name_) class_name_ = "the class file";
}

void ReviewFiles::write(const std::vector<LearnerReview>& reviews,
                        const std::vector<CheckLesson>& checks) {
  for (const LearnerReview& review : reviews) {
    if (!review.items.empty()) {
      words_[review.code] = review.words(kReviewWords);
    }
  }
  const auto files = disk().write();
  const auto add = [&](const FilePath& path, const std::string& text,
                       std::string_view kind) {
    files->add(path, with_modeline(text, kind, path), own_form(OwnKind::review),
               kPacketWayOut);
  };
  add(plan(), about("with review words") + class_text(pupils_, words_),
      "class");
  for (const CheckLesson& check : checks) {
    add(path_of(check), check.text, "lesson");
  }
  if (have_class(checks)) {
    add(class_of_checks_path(),
        about("for its checks") +
            class_text(class_of_checks(pupils_, checks), {}),
        "class");
  }
  files->finish();
}

void ReviewFiles::print_what_to_do(const std::vector<CheckLesson>& checks,
                                   const PatternCatalogue& catalogue) const {
  fmt::print("\n{}: review words for {}\n", printable(plan().string()),
             counted(static_cast<int>(words_.size()), "learner", "learners"));
  // Where a learner has no lesson in the class file, the week's is given.
  const bool all_have_lessons =
      std::ranges::all_of(pupils_.learners, [&](const LearnerEntry& learner) {
        return settings_for(pupils_, learner).lesson.given();
      });
  if (all_have_lessons) {
    print_command("to print the packets", commands_.build_class(plan()));
  } else {
    fmt::print(
        "  some learners have no lesson in {}; write `lesson:` there, for "
        "each group or\n  for the class, and ask for the plan again, or put "
        "the lesson's file after `build`\n  in this: {}\n",
        class_name_, commands_.build_class(plan()));
  }
  if (checks.empty()) {
    fmt::print(
        "no check of old patterns: nothing was taught long enough ago, "
        "or too few words fit\n");
    return;
  }
  for (const CheckLesson& check : checks) print_check(check, catalogue);
  if (have_class(checks)) {
    print_command("to print all checks",
                  commands_.build_class(class_of_checks_path()));
  }
  if (!have_class(checks)) {
    print_command("to print it",
                  commands_.build_lesson(path_of(checks.front())));
  }
  const FilePath pupils =
      have_class(checks) ? class_of_checks_path() : class_path_;
  bool first = true;
  for (const CheckLesson& check : checks) {
    const std::string command = commands_.record(path_of(check), pupils);
    if (command.empty()) continue;
    if (std::exchange(first, false)) {
      fmt::print("  to record {}, with the day on which it was written:\n",
                 checks.size() == 1 ? "it" : "each");
    }
    fmt::print("    {}\n", command);
  }
}

void ReviewFiles::print_check(const CheckLesson& check,
                              const PatternCatalogue& catalogue) const {
  std::string names, without;
  for (const PatternId id : check.patterns) {
    names += fmt::format("{}{}", names.empty() ? "" : ", ", catalogue[id].id);
  }
  for (const PatternId id : check.without_words) {
    without +=
        fmt::format("{}{}", without.empty() ? "" : ", ", catalogue[id].id);
  }
  fmt::print("{}: a check of {}, for {}\n", printable(path_of(check).string()),
             names, codes_text(check.codes));
  if (!without.empty()) {
    fmt::print("  no words are left to check {} with\n", without);
  }
}

// Where everyone writes one check, the lesson alone will do.
bool ReviewFiles::have_class(const std::vector<CheckLesson>& checks) const {
  return checks.size() > 1 ||
         (checks.size() == 1 &&
          checks.front().codes.size() < pupils_.learners.size());
}

std::string ReviewFiles::about(std::string_view what) const {
  return fmt::format(
      "# {} {} for the week of {}. {}, and\n# anew each time: make your "
      "changes in {}.\n",
      class_name_, what, line_.marking.date, kByReview, class_name_);
}

FilePath ReviewFiles::path_of(const CheckLesson& check) const {
  return folder_ / (check.name + ".yaml");
}

FilePath ReviewFiles::plan() const {
  return folder_ / fmt::format("{}-{}.yaml", class_path_.stem().string(),
                               line_.marking.date);
}

FilePath ReviewFiles::class_of_checks_path() const {
  return folder_ / fmt::format("{}-checks-{}.yaml", class_path_.stem().string(),
                               line_.marking.date);
}

}  // namespace sheaf
