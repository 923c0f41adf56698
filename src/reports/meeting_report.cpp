#include "reports/meeting_report.h"

#include <fmt/format.h>

#include <array>

#include "layout/table.h"
#include "layout/text_block.h"
#include "marking/error_examples.h"
#include "marking/likely_range.h"
#include "reports/progress_states.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kMeetingText = 12_pt;
constexpr std::size_t kMostCauses = 5;
constexpr std::size_t kExamples = 3;

std::string_view state_in_words(ProgressState state) {
  switch (state) {
    case ProgressState::practising:
      return "Being practised:";
    case ProgressState::go_on:
      return "Goes well, not secure yet:";
    case ProgressState::secure:
      return "Secure:";
    case ProgressState::check_again:
      break;
  }
  return "Was secure, to be checked again:";
}

// In words that need no training; the causes are those of `cause_words`.
std::string_view plain_cause(Cause cause) {
  constexpr std::array<std::string_view, kCauseCount> kWords = {
      "",
      "The right sound, another spelling of it",
      "The right sound, in a spelling not used there",
      "Letters that say this sound only elsewhere",
      "The vowel beside it would be read differently",
      "A sound close to it",
      "Another sound, or none",
      "As the learner says it",
      "An ending written as it sounds",
      "One letter or two",
      "The e before an ending",
      "y or i before an ending",
      "A letter turned round",
      "Letters left out",
      "A beat without a vowel letter",
      "Letters in another order",
      "A letter too many"};
  return kWords[static_cast<std::size_t>(cause)];
}

// Rows where they have room; in a year, paragraphs.
void add_state_table(Composer& c, const LearnerProgress& learner,
                     const PatternCatalogue& catalogue) {
  const TextStyle text = c.style().teacher_text();
  Table table(c, {{.title = "Pattern", .share = 3},
                  {.title = "Status", .share = 3},
                  {.title = "Right", .share = 2},
                  {.title = "Likely", .share = 2},
                  {.title = "Last seen", .share = 2}});
  for (const PatternProgress& p : learner.patterns) {
    table.add_row(
        {{{column_title(catalogue[p.pattern]), text}},
         {{std::string(state_name(p.state)), text}},
         with_counts(text, fmt::format("{}/{}", p.window.right, p.window.of)),
         {{.text = likely_short(p.window),
           .style = text,
           .heard = likely_text(p.window)}},
         {{short_date(p.last), text}}},
        true);
  }
}

void add_state_lines(Composer& c, const LearnerProgress& learner,
                     const PatternCatalogue& catalogue) {
  for (const ProgressState state :
       {ProgressState::secure, ProgressState::go_on, ProgressState::practising,
        ProgressState::check_again}) {
    add_states_in_brief(c, state_in_words(state), patterns_of(learner, state),
                        catalogue);
  }
}

std::string examples_text(const CauseExamples& cause) {
  std::string text;
  for (const ErrorExample& example : cause.examples) {
    // Day and month stay on one line.
    std::string date = short_date(example.date);
    date.replace(date.find(' '), 1, "\u00A0");
    text += fmt::format("{}{} for {} ({})", text.empty() ? "" : "; ",
                        example.written, example.target, date);
  }
  return text;
}

void add_causes(Composer& c, const LearnerProgress& learner,
                const Sessions& sessions) {
  add_report_heading(c, "What went wrong, and how");
  std::vector<CauseExamples> causes =
      error_examples(sessions, learner.code, kExamples);
  if (causes.empty()) {
    add_paragraph(c, c.style().teacher_text(),
                  "No errors are written down for these words.");
    return;
  }
  int rest = 0;
  while (causes.size() > kMostCauses) {
    rest += causes.back().count;
    causes.pop_back();
  }
  Table table(c, {{.title = "What it was", .share = 4},
                  {.title = "Times", .share = 0, .fixed = 20_mm},
                  {.title = "Written, the latest first", .share = 5}});
  for (const CauseExamples& cause : causes) {
    table.add_text_row({std::string(plain_cause(cause.cause)),
                        fmt::format("{}", cause.count), examples_text(cause)},
                       true);
  }
  if (rest > 0) {
    add_paragraph(c, c.style().teacher_text(),
                  fmt::format("In other ways: {}.", rest),
                  {.space_before = 1_mm});
  }
}

// What the probes say, without the commands that the teacher's page names.
void add_growth_in_words(Composer& c, const Growth& growth) {
  if (growth.points.empty()) return;
  add_report_heading(c, "Growth, in short lists that are alike");
  const SequencePoint& first = growth.points.front();
  const SequencePoint& last = growth.points.back();
  std::string text = fmt::format(
      "{} lists: {} of {} words right on {}, {} on {}.", growth.points.size(),
      first.words.right, first.words.of, short_date(first.date),
      last.words.right, short_date(last.date));
  if (growth.trend) text += " " + trend_text(growth);
  const bool decided = growth.decision == GrowthDecision::below ||
                       growth.decision == GrowthDecision::above ||
                       growth.decision == GrowthDecision::mixed;
  if (decided) text += " " + decision_text(growth);
  add_paragraph(c, c.style().teacher_text(), text);
}

}  // namespace

void add_meeting_report(const ReportMaker& maker,
                        const LearnerProgress& learner, const Growth& growth,
                        const Sessions& sessions,
                        const ProgressGround& ground) {
  const ReportHead head{.heading = learner.code.text(),
                        .title = "For a meeting",
                        .code = last_day_text(std::span(&learner, 1)),
                        .bookmark = "Meeting about " + learner.code.text(),
                        .caution = kPageCaution,
                        .text_size = kMeetingText,
                        .for_teacher = false};
  const auto compose_with = [&](bool rows) {
    return [&, rows](Composer& c) {
      if (rows) {
        add_state_table(c, learner, ground.catalogue);
      } else {
        add_state_lines(c, learner, ground.catalogue);
      }
      add_causes(c, learner, sessions);
      add_growth_in_words(c, growth);
      add_rules(c, ground.rules);
    };
  };
  add_report(maker, head,
             compose_with(fits_one_page(maker, head, compose_with(true))));
}

}  // namespace sheaf
