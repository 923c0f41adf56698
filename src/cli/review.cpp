// `sheaf review`: what each learner should come back to in a week, and the
// files that print it: a class file with review words, a check of old patterns.

#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <set>

#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/requests.h"
#include "cli/review_files.h"
#include "cli/text_table.h"
#include "cli/verbs.h"
#include "driver/check_lessons.h"
#include "driver/marking_desk.h"
#include "driver/own_files.h"
#include "driver/planning_ground.h"
#include "driver/probes_to_come.h"
#include "driver/set_words.h"
#include "driver/taught_sets.h"
#include "files/disk_files.h"
#include "marking/calendar.h"
#include "marking/review_plan.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

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
  std::vector<TaughtSet> sets = {};
  std::deque<BlockList> not_chosen = {};  // for each set
  std::vector<SetWords> words = {};

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
    fmt::print(
        stderr,
        "sheaf review: {} has no school in the week of {} (`no-school`); "
        "the first day after it is {}\n",
        printable(line.marking.class_file), line.marking.date,
        date_text(school));
  }
  print_left_out(records, *week);
  // A plan for a week knows only what was before it.
  std::erase_if(records,
                [&](const MarkedRecord& m) { return m.session.date >= *week; });
  Ground ground{in_week(*pupils, *week)};
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
  const ProbesToCome probes(desk, workspace, ground.here, home, records,
                            line.allowed_folders);
  for (const TaughtSet& set : ground.sets) {
    BlockList& list =
        ground.not_chosen.emplace_back(own_block_list(workspace, "", home));
    for (const std::string& word : probes.words(set.codes)) list.add_word(word);
    ground.words.emplace_back(desk.phonics(), set, list);
  }
  const PatternCatalogue& catalogue = desk.phonics().patterns();
  const std::vector<TaughtLesson> lessons = desk.taught_lessons(records);
  const Sessions sessions = sessions_of(records);
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
  const std::vector<LearnerReview> reviews = plan_review(
      learners, sessions, lessons, catalogue, words, *week, spacing);
  const std::vector<CheckLesson> checks =
      check_lessons(ground.sets, ground.words, learners, catalogue, *week,
                    {.first_after_days = rules.secure_later_days}, kByReview);
  ReviewFiles files(line, ground.here, *week);
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
