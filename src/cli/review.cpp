// `sheaf review`: what each learner should come back to in a week, and the
// files that print it: a class file with review words, a check of old patterns.

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/new_file.h"
#include "cli/requests.h"
#include "cli/shell_words.h"
#include "cli/text_table.h"
#include "cli/verbs.h"
#include "driver/check_lessons.h"
#include "driver/marking_desk.h"
#include "driver/own_files.h"
#include "driver/planning_ground.h"
#include "driver/set_words.h"
#include "driver/taught_sets.h"
#include "files/disk_files.h"
#include "files/output_files.h"
#include "input/class_text.h"
#include "marking/calendar.h"
#include "marking/review_plan.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

constexpr std::size_t kReviewWords = 6;  // for one learner's week

// The class without those who left before the week or come after it.
ClassFile in_week(const ClassFile& pupils, const Date& week) {
  const int monday = day_number(week);
  ClassFile here = pupils;
  std::erase_if(here.learners, [&](const LearnerEntry& learner) {
    return (learner.from && day_number(learner.from->value) >= monday + 7) ||
           (learner.until && day_number(learner.until->value) < monday);
  });
  return here;
}

void print_plan(const std::vector<LearnerReview>& reviews,
                const PatternCatalogue& catalogue, const GroupOf& group_of) {
  TextTable table({"learner", "pattern", "why", "", "words"});
  for (const LearnerReview& review : reviews) {
    std::string code = review.code.text();
    for (const ReviewItem& item : review.items) {
      std::string words;
      for (const std::string& word : item.words) {
        words += (words.empty() ? "" : " ") + word;
      }
      table.add({code, std::string(catalogue[item.pattern].id),
                 std::string(reason_name(item.reason)), item.why, words});
      code.clear();
    }
    if (review.items.empty()) table.add({code, "-", "nothing is due"});
  }
  fmt::print("{}\n", table.text());
  for (const ReviewGroup& group : group_by_need(reviews, group_of)) {
    fmt::print("  {} {}: {}\n",
               group.codes.size() == 1 ? "alone, for" : "together, for",
               catalogue[group.pattern].name, codes_text(group.codes));
  }
}

// Who has to come with a file, as lines of commands that can be copied.
class Commands {
 public:
  Commands(const CommandLine& line, FilePath folder)
      : line_(line), folder_(std::move(folder)) {}

  /// Prints the packets of a class file that stands in the folder of the plan.
  /// What it names stands beside the teacher's own class file.
  std::string build_class(const FilePath& plan) const {
    std::vector<std::string> words = {line_.program, "build", "--class",
                                      as_argument(plan.string())};
    const FilePath home = FilePath(line_.marking.class_file).parent_path();
    if (!is_same_folder(home, folder_)) allow(home, words);
    for (const std::string& other : line_.allowed_folders) allow(other, words);
    return shell_command(words);
  }
  std::string build_lesson(const FilePath& lesson) const {
    return shell_command(
        {line_.program, "build", as_argument(lesson.string())});
  }
  /// The form for a check; empty where its record could not name it.
  std::string record(const FilePath& lesson, const FilePath& pupils) const {
    const FilePath records = line_.marking.records;
    const FilePath above =
        disk().absolute(records).lexically_normal().parent_path();
    for (const FilePath& file : {lesson, pupils}) {
      const FilePath near =
          disk().absolute(file).lexically_normal().lexically_relative(above);
      if (near.empty() || *near.begin() == "..") return {};
    }
    return shell_command({line_.program, "record",
                          as_argument(lesson.string()), "--class",
                          as_argument(pupils.string()), "--records",
                          as_argument(records.string()), "--kind",
                          "retention"});
  }

 private:
  static bool is_same_folder(const FilePath& a, const FilePath& b) {
    const auto whole = [](const FilePath& folder) {
      return disk()
          .absolute(folder.empty() ? FilePath(".") : folder)
          .lexically_normal();
    };
    return whole(a / ".") == whole(b / ".");
  }
  static void allow(const FilePath& folder, std::vector<std::string>& words) {
    words.insert(words.end(),
                 {"--allow", as_argument(folder.empty() ? "." : folder.string())});
  }

  const CommandLine& line_;
  FilePath folder_;
};

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

// The files of a plan, all written or none.
class PlanFiles {
 public:
  PlanFiles(const CommandLine& line, const ClassFile& pupils)
      : line_(line),
        pupils_(pupils),
        class_path_(line.marking.class_file),
        folder_(line.marking.out.empty() ? class_path_.parent_path()
                                         : FilePath(line.marking.out)),
        commands_(line, folder_) {
    // A name with a line break in it would end the remark.
    class_name_ = class_path_.filename().string();
    if (printable(class_name_) != class_name_) class_name_ = "the class file";
  }

  void write(const std::vector<LearnerReview>& reviews,
             const std::vector<CheckLesson>& checks) {
    for (const LearnerReview& review : reviews) {
      if (!review.items.empty()) {
        words_[review.code] = review.words(kReviewWords);
      }
    }
    const auto files = disk().write();
    const auto add = [&](const FilePath& path, const std::string& text,
                         std::string_view kind) {
      files->add(path, with_modeline(text, kind, path),
                 own_form(OwnKind::review), kPacketWayOut);
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

  void print_what_to_do(const std::vector<CheckLesson>& checks,
                        const PatternCatalogue& catalogue) const {
    fmt::print("\n{}: review words for {} learners\n",
               printable(plan().string()), words_.size());
    // Where a learner has no lesson in the class file, the week's is given.
    const bool all_have_lessons = std::ranges::all_of(
        pupils_.learners, [&](const LearnerEntry& learner) {
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
    for (const CheckLesson& check : checks) {
      if (!have_class(checks)) {
        print_command("to print it", commands_.build_lesson(path_of(check)));
      }
      print_command("to record it",
                    commands_.record(path_of(check),
                                     have_class(checks) ? class_of_checks_path()
                                                        : class_path_));
    }
  }

 private:
  void print_check(const CheckLesson& check,
                   const PatternCatalogue& catalogue) const {
    std::string names, without;
    for (const PatternId id : check.patterns) {
      names += fmt::format("{}{}", names.empty() ? "" : ", ", catalogue[id].id);
    }
    for (const PatternId id : check.without_words) {
      without +=
          fmt::format("{}{}", without.empty() ? "" : ", ", catalogue[id].id);
    }
    fmt::print("{}: a check of {}, for {}\n",
               printable(path_of(check).string()), names,
               codes_text(check.codes));
    if (!without.empty()) {
      fmt::print("  no words are left to check {} with\n", without);
    }
  }

  // Where everyone writes one check, the lesson alone will do.
  bool have_class(const std::vector<CheckLesson>& checks) const {
    return checks.size() > 1 ||
           (checks.size() == 1 &&
            checks.front().codes.size() < pupils_.learners.size());
  }
  std::string about(std::string_view what) const {
    return fmt::format(
        "# {} {} for the week of {}. {}, and\n# anew each time: make your "
        "changes in {}.\n",
        class_name_, what, line_.marking.date, kByReview, class_name_);
  }
  FilePath path_of(const CheckLesson& check) const {
    return folder_ / (check.name + ".yaml");
  }
  FilePath plan() const {
    return folder_ / fmt::format("{}-{}.yaml", class_path_.stem().string(),
                                 line_.marking.date);
  }
  FilePath class_of_checks_path() const {
    return folder_ / fmt::format("{}-checks-{}.yaml",
                                 class_path_.stem().string(),
                                 line_.marking.date);
  }

  const CommandLine& line_;
  const ClassFile& pupils_;
  FilePath class_path_, folder_;
  Commands commands_;
  std::string class_name_;
  std::map<LearnerCode, std::vector<std::string>> words_;
};

// Records that a plan for a week cannot know of, if there are any.
void print_left_out(const std::vector<MarkedRecord>& records,
                    const Date& week) {
  std::set<Date> days;
  for (const MarkedRecord& marked : records) {
    if (marked.session.date >= week) days.insert(marked.session.date);
  }
  if (days.empty()) return;
  std::string text;
  for (const Date& day : days) {
    text += (text.empty() ? "" : ", ") + date_text(day);
  }
  fmt::print("Not counted, since they are of this week or later: {}.\n", text);
}

// What the plan is about: learners of the week, and what is known of them.
struct Ground {
  ClassFile here;
  std::vector<TaughtSet> sets;
  std::vector<SetWords> words;

  /// The set of a learner of the class.
  std::size_t set_of(const LearnerCode& code) const {
    const auto set = std::ranges::find_if(
        sets, [&](const TaughtSet& one) { return one.has(code); });
    return static_cast<std::size_t>(set - sets.begin());
  }
};

}  // namespace

int run_review(const CommandLine& line) {
  ProgressRules rules;
  if (const std::string fault = read_rules(line.marking.rules, rules);
      !fault.empty()) {
    fmt::print(stderr, "sheaf: {}\n", fault);
    return kWrongCommandLine;
  }
  const auto week = read_date(line.marking.date);
  if (!week) {
    fmt::print(stderr,
               "sheaf review: {} is not a date; write it like 2026-03-12\n",
               sheaf::quoted(line.marking.date));
    return kWrongCommandLine;
  }
  Workspace workspace(disk(), shipped_folder());
  std::vector<std::string> faults;
  MarkingDesk desk(workspace, marking_request(line), faults);
  if (!print_faults(faults)) return kWrongCommandLine;
  Diagnostics diagnostics;
  const ClassFile* pupils =
      desk.class_file(line.marking.class_file, diagnostics);
  std::vector<MarkedRecord> records =
      desk.mark({line.marking.records}, diagnostics);
  print(diagnostics);
  if (diagnostics.has_errors() || pupils == nullptr) return kFaultsInFiles;
  const Date school = first_school_day(pupils->no_school, *week);
  if (school != *week) {
    fmt::print(stderr,
               "sheaf review: {} has no school in the week of {} (`no-school`); "
               "the first day after it is {}\n",
               printable(line.marking.class_file), line.marking.date,
               date_text(school));
  }
  print_left_out(records, *week);
  // A plan for a week knows only what was before it.
  std::erase_if(records,
                [&](const MarkedRecord& m) { return m.session.date >= *week; });
  Ground ground{in_week(*pupils, *week), {}, {}};
  if (ground.here.learners.empty()) {
    fmt::print(stderr,
               "sheaf review: `from` and `until` in {} leave nobody in the "
               "class in the week of {}\n",
               printable(line.marking.class_file), line.marking.date);
    return kFaultsInFiles;
  }
  keep_learners(records, codes_of(ground.here));
  const FilePath home = FilePath(line.marking.class_file).parent_path();
  ground.sets = taught_sets(desk, workspace, ground.here, home, records,
                            line.allowed_folders);
  const BlockList own_list = own_block_list(workspace, "", home);
  for (const TaughtSet& set : ground.sets) {
    ground.words.emplace_back(desk.phonics(), set, own_list);
  }
  const PatternCatalogue& catalogue = desk.phonics().patterns();
  const std::vector<TaughtLesson> lessons = desk.taught_lessons(records);
  const std::vector<SessionResult> sessions = sessions_of(records);
  const std::vector<LearnerProgress> learners =
      class_progress(sessions, lessons, catalogue, rules, *week);
  ReviewRules spacing;
  if (!ground.here.review_weeks.empty()) {
    spacing.weeks = ground.here.review_weeks;
  }
  spacing.no_school = ground.here.no_school;
  const ReviewWords words = {
      .fresh =
          [&](const LearnerCode& code, PatternId pattern) {
            return ground.words[ground.set_of(code)].fresh(pattern);
          },
      .may_be_asked =
          [&](const LearnerCode& code, const std::string& word) {
            return ground.words[ground.set_of(code)].may_be_asked(word);
          }};
  const std::vector<LearnerReview> reviews =
      plan_review(learners, sessions, lessons, catalogue, words, *week, spacing);
  const std::vector<CheckLesson> checks =
      check_lessons(ground.sets, ground.words, learners, catalogue, *week,
                    {.first_after_days = rules.secure_later_days}, kByReview);
  PlanFiles files(line, ground.here);
  // Nothing is printed of a plan whose files could not be written.
  files.write(reviews, checks);
  print_plan(reviews, catalogue, [&](const LearnerCode& code) {
    return ground.sets[ground.set_of(code)].group;
  });
  files.print_what_to_do(checks, catalogue);
  fmt::print("{}\n", kScoreCaution);
  return kDone;
}

}  // namespace sheaf
