#pragma once

#include <string>
#include <vector>

#include "marking/scores.h"

namespace sheaf {

/// What comes next for a group, or for one learner, after a dictation.
struct Advice {
  enum class Step : std::uint8_t {
    go_on,
    another_set,     ///< the sound is there, the spelling is not sure yet
    back_to_sounds,  ///< sounds are lost or mixed up
    too_few,         ///< not enough words to tell
  };
  PatternId pattern = 0;
  Step step = Step::too_few;
  /// A sentence with the counts behind it, lower case, no full stop.
  std::string why;
  /// Those of the group who are not there yet, in the order of the scores.
  std::vector<LearnerCode> not_yet;
};

std::string_view step_name(Advice::Step step);

struct AdviceRules {
  /// "80%, then move on" was the rule of a published study of teaching with
  /// dyslexia (van Rijthoven, thesis, chapter 3).
  int go_on_percent = 80;
  /// Of the learners with enough words, those who must reach it before the
  /// group goes on. Ours.
  int group_percent = 75;
  /// Of the misses, those in which the sound itself failed, for going back to
  /// the sounds. Ours.
  int sound_percent = 50;
};

/// Advice for each pattern scored. The group needs five opportunities
/// together. It goes on when enough of its learners are there; those with fewer
/// than five are not asked, and where none or one can be, all words together
/// count.
std::vector<Advice> advise(const SessionScores& scores,
                           const AdviceRules& rules = {});

/// The same for one learner alone.
std::vector<Advice> advise(const Score& learner, const AdviceRules& rules = {});

/// Whether the cause is about hearing the sounds, not about spelling them.
bool is_sound_cause(Cause cause);

}  // namespace sheaf
