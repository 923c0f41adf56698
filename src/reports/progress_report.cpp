#include "reports/progress_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "layout/text_block.h"
#include "reports/growth_plot.h"
#include "reports/progress_states.h"
#include "reports/progress_table.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kPageText = 12_pt;

// How much of a learner's page is said at length: the first of these that takes
// one page is printed.
struct Detail {
  bool secure_rows = true;  ///< else in a paragraph
  bool go_on_rows = true;
  bool needed = true;  ///< else only what looks known by heart
  bool before = true;
};
constexpr std::array kDetails = {
    Detail{},
    Detail{.needed = false},
    Detail{.secure_rows = false},
    Detail{.secure_rows = false, .needed = false},
    Detail{.secure_rows = false, .go_on_rows = false, .needed = false},
    Detail{.secure_rows = false,
           .go_on_rows = false,
           .needed = false,
           .before = false},
};

void compose_learner(Composer& c, const LearnerProgress& learner,
                     const Growth& growth, const ProgressGround& ground,
                     const SchoolWeeks& weeks, const Detail& detail,
                     std::string_view speech) {
  const PatternCatalogue& catalogue = ground.catalogue;
  PatternList rows, needed;
  for (const PatternProgress& p : learner.patterns) {
    const bool secure = p.state == ProgressState::secure;
    if (secure && !detail.secure_rows) continue;
    if (p.state == ProgressState::go_on && !detail.go_on_rows) continue;
    rows.push_back(&p);
    if (!secure) needed.push_back(&p);
  }
  if (!detail.secure_rows) {
    add_states_in_brief(c, "Secure, with the day last seen:",
                        patterns_of(learner, ProgressState::secure), catalogue);
  }
  if (!detail.go_on_rows) {
    add_states_in_brief(c, "Go on, with the day last seen:",
                        patterns_of(learner, ProgressState::go_on), catalogue);
  }
  add_progress_table(c, learner, rows, catalogue, weeks);
  add_needed(c, needed, detail.needed, catalogue);
  if (detail.before) add_known_before(c, learner, catalogue);
  if (!speech.empty()) add_speech(c, speech);
  add_rules(c, ground.rules);
  add_growth(c, growth);
}

Date last_day(const LearnerProgress& learner) {
  Date last;
  for (const SequencePoint& p : learner.sequences)
    last = std::max(last, p.date);
  for (const PatternProgress& pattern : learner.patterns) {
    last = std::max(last, pattern.last);
  }
  return last;
}

}  // namespace

std::string last_day_text(std::span<const LearnerProgress> learners) {
  Date last;
  for (const LearnerProgress& learner : learners) {
    last = std::max(last, last_day(learner));
  }
  return date_text(last);
}

void add_learner_report(const ReportMaker& maker,
                        const LearnerProgress& learner, const Growth& growth,
                        const ProgressGround& ground, std::string_view speech) {
  const SchoolWeeks weeks(ground.days);
  const ReportHead head{.heading = learner.code.text(),
                        .title = "Progress",
                        .code = last_day_text(std::span(&learner, 1)),
                        .bookmark = "Progress of " + learner.code.text(),
                        .caution = kPageCaution,
                        .text_size = kPageText};
  const auto compose_with = [&](const Detail& detail) {
    return [&](Composer& c) {
      compose_learner(c, learner, growth, ground, weeks, detail, speech);
    };
  };
  const Detail* detail = kDetails.data();
  while (detail != &kDetails.back() &&
         !fits_one_page(maker, head, compose_with(*detail))) {
    ++detail;
  }
  add_report(maker, head, compose_with(*detail));
}

}  // namespace sheaf
