// `sheaf progress`: what each learner has, over the weeks.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/options.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/progress_table.h"
#include "cli/report_pages.h"
#include "cli/requests.h"
#include "cli/text_table.h"
#include "cli/verbs.h"
#include "driver/marking_desk.h"
#include "files/disk_files.h"
#include "marking/growth.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

// The probes in a line, then what they say.
void print_growth(const Growth& growth) {
  if (growth.points.empty()) return;
  std::string line;
  for (const SequencePoint& point : growth.points) {
    line += fmt::format("{}{} {} and {}", line.empty() ? "" : ", ",
                        date_text(point.date), point.words.right,
                        point.sequences.correct);
  }
  fmt::print("  probes, words of {} and letter sequences of {}: {}\n",
             growth.words(), growth.sequences(), line);
  if (growth.left_out > 0) {
    fmt::print("  {} left out: of another length, or not whole\n",
               growth.left_out);
  }
  fmt::print("  {} {}\n", decision_text(growth), trend_text(growth));
}

void print_learner(const LearnerProgress& learner, const Growth& growth,
                   const std::vector<MarkedRecord>& records,
                   const PatternCatalogue& catalogue) {
  TextTable table({"pattern", "taught", "status", "all since taught",
                   "new words", "writing", "based on"});
  const auto shown = [](const Share& share) {
    return share.of == 0 ? std::string("-") : share.text();
  };
  for (const PatternProgress& p : learner.patterns) {
    table.add({column_title(catalogue[p.pattern]), date_text(p.taught),
               std::string(state_name(p.state)), p.all.text(),
               shown(p.new_words), shown(p.writing), p.why});
  }
  fmt::print("{}\n{}", learner.code.text(),
             learner.patterns.empty() ? "" : table.text());
  const std::string before = known_before_text(learner, catalogue);
  if (!before.empty()) fmt::print("  {}: {}\n", kKnownBefore, before);
  std::string line;
  for (const SequencePoint& point : learner.sequences) {
    if (point.kind == Record::Kind::probe) continue;
    line += fmt::format("{}{} {} of {}", line.empty() ? "" : ", ",
                        date_text(point.date), point.sequences.correct,
                        point.sequences.possible);
  }
  if (!line.empty()) fmt::print("  letter sequences: {}\n", line);
  print_growth(growth);
  const std::string speech = follows_speech_text(records, learner.code);
  if (!speech.empty()) fmt::print("  {}\n", speech);
  fmt::print("\n");
}

// The rules as they are set, so that a status can be looked up.
void print_rules(const ProgressRules& rules) {
  for (const RuleText& rule : rule_texts(rules)) {
    fmt::print("{}: {}\n", rule.name, rule.text);
  }
  fmt::print("\n");
}

// The latest day of all, whoever was in class.
Date last_day_of(const std::vector<MarkedRecord>& records) {
  Date last;
  for (const MarkedRecord& marked : records) {
    last = std::max(last, marked.session.date);
  }
  return last;
}

}  // namespace

int run_progress(const CommandLine& line) {
  if (line.json && line.marking.csv) {
    fmt::print(stderr, "sheaf progress: give --csv or --json, not both\n");
    return kWrongCommandLine;
  }
  ProgressRules rules;
  if (const std::string fault = read_rules(line.marking.rules, rules);
      !fault.empty()) {
    fmt::print(stderr, "sheaf: {}\n", fault);
    return kWrongCommandLine;
  }
  const auto rate = read_number(line.marking.rate);
  if (!rate || *rate < 0 || *rate > 20) {
    fmt::print(stderr,
               "sheaf: --rate needs a number from 0 to 20, as in `--rate "
               "1.5`\n");
    return kWrongCommandLine;
  }
  std::optional<Date> as_of = read_date(line.marking.date);
  if (!as_of && !line.marking.date.empty()) {
    fmt::print(stderr,
               "sheaf progress: {} is not a date; write it like 2026-03-12\n",
               sheaf::quoted(line.marking.date));
    return kWrongCommandLine;
  }
  GoalWish goal{.date = read_date(line.marking.goal_date),
                .level = std::nullopt,
                .rate_hundredths = static_cast<int>(std::lround(*rate * 100))};
  if (!goal.date && !line.marking.goal_date.empty()) {
    fmt::print(stderr,
               "sheaf progress: {} is not a date; write it like 2026-06-12\n",
               sheaf::quoted(line.marking.goal_date));
    return kWrongCommandLine;
  }
  if (line.marking.goal > 0) goal.level = line.marking.goal;
  const auto reader = read_reader(line.marking.reader);
  if (!reader) {
    fmt::print(
        stderr,
        "sheaf progress: --for needs `teacher`, `home` or `meeting`, not "
        "{}\n",
        sheaf::quoted(line.marking.reader));
    return kWrongCommandLine;
  }
  if (*reader != ProgressReader::teacher && line.marking.pdf.empty()) {
    fmt::print(stderr,
               "sheaf progress: --for {0} makes pages; name their file, as in "
               "`--for {0} --pdf pages.pdf`\n",
               line.marking.reader);
    return kWrongCommandLine;
  }
  Workspace workspace(disk(), shipped_folder());
  std::vector<std::string> faults;
  MarkingDesk desk(workspace, marking_request(line), faults);
  if (!print_faults(faults)) return kWrongCommandLine;
  if (!line.marking.pdf.empty()) check_report_file(line);
  Diagnostics diagnostics;
  std::vector<MarkedRecord> records = desk.mark(line.arguments, diagnostics);
  print(diagnostics);
  if (diagnostics.has_errors()) return kFaultsInFiles;
  const std::vector<TaughtLesson> lessons = desk.taught_lessons(records);
  if (!as_of) as_of = last_day_of(records);
  std::erase_if(records, [&](const MarkedRecord& marked) {
    return marked.session.date > *as_of;
  });
  if (records.empty() && !line.marking.date.empty()) {
    fmt::print(stderr, "sheaf: no record is of {} or earlier\n",
               date_text(*as_of));
    return kDone;
  }
  std::vector<Date> days;
  for (const MarkedRecord& marked : records) {
    if (!marked.session.learners.empty()) days.push_back(marked.session.date);
  }
  const std::vector<LearnerCode> asked = codes_given(line.marking.learners);
  if (!know_learners(records, asked, line.verb)) return kWrongCommandLine;
  keep_learners(records, asked);
  if (!keep_marked(records)) {
    print_nobody_marked();
    return kDone;
  }
  const std::vector<LearnerProgress> learners = class_progress(
      sessions_of(records), lessons, desk.phonics().patterns(), rules, as_of);
  if (!line.marking.pdf.empty()) {
    write_progress_pages(
        workspace, line,
        {records, learners, rules, std::move(days), goal, *reader});
  }
  const PatternCatalogue& catalogue = desk.phonics().patterns();
  if (line.json) {
    fmt::print("{}\n", progress_json(learners, records, catalogue, *as_of));
    return kDone;
  }
  if (line.marking.csv) {
    fmt::print("{}", progress_csv(learners, catalogue));
    return kDone;
  }
  for (const LearnerProgress& learner : learners) {
    print_learner(learner,
                  growth_of(learner, goal_for(learner.code, goal, records)),
                  records, catalogue);
  }
  print_rules(rules);
  fmt::print("{}\n", kScoreCaution);
  return kDone;
}

}  // namespace sheaf
