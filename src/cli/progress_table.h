#pragma once

#include <span>
#include <string>

#include "driver/marking_desk.h"
#include "marking/progress.h"

namespace sheaf {

/// Progress for other programs, and what of it the terminal shows apart.

/// A row for each pattern of each learner, those not taught to them too (with
/// no state). Dates as 2026-03-12, an empty cell where there is none. `right`
/// and `of` count all since it was taught, `window_right` and `window_of` what
/// the state rests on, `likely_low` and `likely_high` (percent) where the truth
/// lies nine times in ten by that window, `before` what was written before it
/// was taught.
std::string progress_csv(std::span<const LearnerProgress> learners,
                         const PatternCatalogue& catalogue);

/// The same as JSON: `as_of`, and `learners` with `patterns`, `days` (each
/// day's words and letter sequences) and `errors` with those of them that
/// follow how the learner speaks.
std::string progress_json(std::span<const LearnerProgress> learners,
                          const std::vector<MarkedRecord>& records,
                          const PatternCatalogue& catalogue, const Date& as_of);

/// Of one learner's errors in all these records, those that follow how the
/// learner speaks: "follows how they speak: 3 of 11 errors". Empty where there
/// are none.
std::string follows_speech_text(const std::vector<MarkedRecord>& records,
                                const LearnerCode& learner);

/// Whether the records speak of everyone whom `--learner` names; says whom they
/// do not, with the nearest code.
bool know_learners(const std::vector<MarkedRecord>& records,
                   const std::vector<LearnerCode>& asked,
                   std::string_view verb);

}  // namespace sheaf
