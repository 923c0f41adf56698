#include "reports/mark_report.h"

#include <fmt/format.h>

#include "layout/table.h"
#include "layout/text_block.h"
#include "marking/advice.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

using namespace literals;

std::string shown(const Share& share) {
  return share.of == 0 ? std::string("–") : share.text();
}

void add_scores(Composer& c, const SessionScores& scores,
                std::span<const PatternId> patterns,
                const PatternCatalogue& catalogue) {
  std::vector<Table::Column> columns = {
      {"Learner", 0, 18_mm}, {"Words", 0, 27_mm}, {"Letter pairs", 0, 25_mm}};
  for (const PatternId pattern : patterns) {
    columns.push_back({std::string(catalogue[pattern].id), 0, 27_mm});
  }
  columns.push_back({"Causes", 1});
  Table table(c, columns);
  const auto add = [&](const std::string& name, const Score& score) {
    std::vector<std::string> row = {name};
    if (score.absent) {
      row.emplace_back("absent");
      row.resize(columns.size());
    } else {
      row.push_back(shown(score.words));
      row.push_back(score.sequences.possible == 0
                        ? "–"
                        : fmt::format("{} of {}", score.sequences.correct,
                                      score.sequences.possible));
      for (const PatternScore& p : score.patterns)
        row.push_back(shown(p.share));
      row.push_back(causes_text(score.causes, 3));
    }
    table.add_text_row(row, true);
  };
  for (const Score& score : scores.learners) add(score.code, score);
  if (scores.learners.size() > 1) add("Group", scores.group);
  add_paragraph(c, c.style().teacher_text(),
                "Letter pairs are correct letter sequences: neighbouring "
                "letters that stand as they should, the blanks at both ends "
                "counted in.",
                {.space_before = 2_mm});
}

void add_advice(Composer& c, const SessionScores& scores,
                const PatternCatalogue& catalogue) {
  add_report_heading(c, "What comes next");
  for (const Advice& advice : advise(scores)) {
    std::string text = fmt::format("{}: {}. {}", catalogue[advice.pattern].name,
                                   step_name(advice.step), advice.why);
    const std::string codes = not_yet_text(advice, scores);
    text += codes.empty() ? "." : fmt::format(". Not there yet: {}.", codes);
    add_paragraph(c, c.style().teacher_text(), text, {.space_before = 1_mm});
  }
}

void add_misses(Composer& c, const SessionResult& session) {
  bool any = false;
  for (const LearnerResult& learner : session.learners) {
    for (const SessionWord& word : learner.words) any = any || !word.right();
  }
  if (!any) return;
  add_report_heading(c, "What went wrong, and what may lie behind it");
  Table table(c, {{"Learner", 0, 20_mm},
                  {"Word", 0, 32_mm},
                  {"Written", 0, 32_mm},
                  {"Graphemes", 1}});
  for (const LearnerResult& learner : session.learners) {
    for (const SessionWord& word : learner.words) {
      if (word.right()) continue;
      const MarkedAttempt& a = word.attempt;
      table.add_text_row(
          {learner.code, a.target, a.blank ? "–" : a.written,
           word.kind == MarkedWord::Kind::missing ? "word missing"
                                                  : faults_text(a)},
          true);
    }
  }
}

}  // namespace

void add_mark_report(const ReportMaker& maker, const SessionResult& session,
                     std::span<const PatternId> patterns,
                     const PatternCatalogue& catalogue, std::string code) {
  const SessionScores scores = score_session(session, patterns, catalogue);
  std::string heading = fmt::format("Marked: {}", kind_words(session.kind));
  add_report(maker, std::move(heading), session.lesson, std::move(code),
             [&](Composer& c) {
               add_scores(c, scores, patterns, catalogue);
               add_advice(c, scores, catalogue);
               add_misses(c, session);
             });
}

}  // namespace sheaf
