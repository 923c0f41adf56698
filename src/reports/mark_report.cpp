#include "reports/mark_report.h"

#include <algorithm>
#include <functional>

#include <fmt/format.h>

#include "layout/heard_text.h"
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

// One column of scores: its head and what it says of a learner.
struct ScoreColumn {
  Table::Column head;
  std::function<std::string(const Score&)> text;
};

constexpr Length kScoreWidth = 27_mm;
constexpr std::size_t kScoresAcross = 6;  // beside the learner, on A4
constexpr std::size_t kPatternsBesideCauses = 2;

std::vector<ScoreColumn> score_columns(const SessionScores& scores,
                                       std::span<const PatternId> patterns,
                                       const PatternCatalogue& catalogue) {
  std::vector<ScoreColumn> columns;
  // Counts from a journal say nothing about words.
  if (scores.group.words.of > 0) {
    columns.push_back({{.title = "Words",
                        .share = 0,
                        .fixed = kScoreWidth,
                        .none = "no words"},
                       [](const Score& s) { return shown(s.words); }});
    columns.push_back({{.title = "Letter pairs",
                        .share = 0,
                        .fixed = kScoreWidth,
                        .none = "none"},
                       [](const Score& s) {
                         return s.sequences.possible == 0
                                    ? std::string("–")
                                    : fmt::format("{} of {}",
                                                  s.sequences.correct,
                                                  s.sequences.possible);
                       }});
  }
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    columns.push_back({{.title = column_title(catalogue[patterns[i]]),
                        .share = 0,
                        .fixed = kScoreWidth,
                        .none = "not asked"},
                       [i](const Score& s) {
                         return i < s.patterns.size()
                                    ? shown(s.patterns[i].share)
                                    : std::string("–");
                       }});
  }
  return columns;
}

void add_score_table(Composer& c, const SessionScores& scores,
                     std::span<const ScoreColumn> columns) {
  std::vector<Table::Column> heads = {
      {.title = "Learner", .share = 0, .fixed = 18_mm}};
  for (const ScoreColumn& column : columns) heads.push_back(column.head);
  Table table(c, heads);
  const auto add = [&](const std::string& name, const Score& score) {
    const TextStyle text = c.style().teacher_text();
    std::vector<Table::Cell> row = {{{name, text}}};
    if (score.absent) {
      row.push_back({{"absent", text}});  // takes all columns
    } else {
      for (const ScoreColumn& column : columns) {
        row.push_back(with_counts(text, column.text(score)));
      }
    }
    table.add_row(row, true);
  };
  for (const Score& score : scores.learners) add(score.code.text(), score);
  if (scores.learners.size() > 1) add("Group", scores.group);
}

void add_scores(Composer& c, const SessionScores& scores,
                std::span<const PatternId> patterns,
                const PatternCatalogue& catalogue) {
  std::vector<ScoreColumn> columns = score_columns(scores, patterns, catalogue);
  const ScoreColumn causes = {
      {"Causes", 1}, [](const Score& s) { return causes_text(s.causes, 3); }};
  const bool any_causes = !causes_text(scores.group.causes).empty();
  const bool words = scores.group.words.of > 0;
  if (any_causes && patterns.size() <= kPatternsBesideCauses) {
    columns.push_back(causes);
    add_score_table(c, scores, columns);
  } else {
    const std::span<const ScoreColumn> all = columns;
    for (std::size_t at = 0; at < all.size(); at += kScoresAcross) {
      if (at > 0) add_report_heading(c, "More patterns");
      add_score_table(
          c, scores, all.subspan(at, std::min(kScoresAcross, all.size() - at)));
    }
    if (any_causes) {
      add_report_heading(c, "Causes");
      add_score_table(c, scores, std::span(&causes, 1));
    }
  }
  if (!words) return;
  add_paragraph(
      c, c.style().teacher_text(),
      "Letter pairs are correct letter sequences: neighbouring letters that "
      "are as they should be, including the blanks at both ends.",
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
    add_paragraph(c, with_counts(c.style().teacher_text(), text),
                  {.space_before = 1_mm});
  }
}

// A row of what was written: whose, for which word, and what is to be said.
struct Miss {
  const LearnerCode* learner;
  std::string target;   // empty: no word that was dictated
  std::string written;  // empty: nothing
  std::string faults;
};

void add_miss_table(Composer& c, const std::vector<Miss>& misses) {
  Table table(c, {{.title = "Learner", .share = 0, .fixed = 20_mm},
                  {.title = "Word",
                   .share = 0,
                   .fixed = 32_mm,
                   .none = "no word dictated"},
                  {.title = "Written",
                   .share = 0,
                   .fixed = 32_mm,
                   .none = "nothing written"},
                  {"Graphemes", 1}});
  const TextStyle text = c.style().teacher_text();
  for (const Miss& miss : misses) {
    const TextPiece none{"–", text};
    const TextPiece written{.text = miss.written,
                            .style = text,
                            .heard = heard_spelling(miss.written)};
    table.add_row({{{miss.learner->text(), text}},
                   {miss.target.empty() ? none : TextPiece{miss.target, text}},
                   {miss.written.empty() ? none : written},
                   {{miss.faults, text}}},
                  true);
  }
}

// What went wrong, and apart from it what follows how the learners speak: a
// word with both stands in both, each with its own.
void add_misses(Composer& c, const SessionResult& session) {
  std::vector<Miss> wrong, speech;
  for (const LearnerResult& learner : session.learners) {
    for (const SessionWord& word : learner.words) {
      if (word.right()) continue;
      const MarkedAttempt& a = word.attempt;
      const std::string written = a.blank ? std::string() : a.written;
      const bool apart =
          word.kind == MarkedWord::Kind::matched && !a.blank && has_speech(a);
      const std::string faults =
          apart ? faults_text(without_speech(a)) : faults_text(word.kind, a);
      if (!apart || !faults.empty()) {
        wrong.push_back({&learner.code, a.target, written, faults});
      }
      if (apart) {
        speech.push_back({&learner.code, a.target, written,
                          faults_text(with_speech_alone(a))});
      }
    }
    for (const ExtraWord& extra : learner.extra_words) {
      wrong.push_back(
          {&learner.code, "", extra.written, std::string(kNotDictatedWord)});
    }
  }
  if (!wrong.empty()) {
    add_report_heading(c, "What went wrong, and what may lie behind it");
    add_miss_table(c, wrong);
  }
  if (speech.empty()) return;
  add_report_heading(c, "What follows how they speak");
  add_miss_table(c, speech);
  add_paragraph(c, c.style().teacher_text(),
                "These are counted apart. The ear is no help with them: say "
                "what the word means, or how it is built.",
                {.space_before = 2_mm});
}

}  // namespace

void add_mark_report(const ReportMaker& maker, const SessionResult& session,
                     std::span<const PatternId> patterns,
                     const PatternCatalogue& catalogue, std::string code) {
  const SessionScores scores = score_session(session, patterns, catalogue);
  const std::string_view kind = kind_words(session.kind);
  std::string bookmark = "Marked: ";
  bookmark += session.lesson.empty()
                  ? std::string(kind)
                  : fmt::format("{}, {}", session.lesson, kind);
  bookmark += ", " + code;
  add_report(maker,
             {.heading = fmt::format("Marked: {}", kind),
              .title = session.lesson,
              .code = std::move(code),
              .bookmark = std::move(bookmark)},
             [&](Composer& c) {
               add_scores(c, scores, patterns, catalogue);
               if (!session.placement && !patterns.empty()) {
                 add_advice(c, scores, catalogue);
               }
               add_misses(c, session);
             });
}

}  // namespace sheaf
