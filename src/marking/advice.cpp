#include "marking/advice.h"

#include <array>

#include <fmt/format.h>

namespace sheaf {
namespace {

using Step = Advice::Step;

// What follows how a learner speaks says nothing of either kind.
int sum(const CauseCounts& counts, bool of_sound) {
  int total = 0;
  for (std::size_t i = 1; i < counts.size(); ++i) {
    if (static_cast<Cause>(i) == Cause::own_speech) continue;
    if (is_sound_cause(static_cast<Cause>(i)) == of_sound) total += counts[i];
  }
  return total;
}

// "in 7 of 9 misses the spelling was at fault": what the misses are about.
std::string about_misses(const PatternScore& score) {
  const int sound = sum(score.causes, true);
  const int spelling = sum(score.causes, false);
  const int all = sound + spelling;
  const int speech = score.causes[static_cast<std::size_t>(Cause::own_speech)];
  const std::string apart =
      speech == 0 ? std::string()
                  : fmt::format("{} {} how they speak", speech,
                                speech == 1 ? "follows" : "follow");
  if (all == 0) return apart;
  const std::string text =
      sound > spelling
          ? fmt::format("in {} of {} misses the sound was lost or mixed up",
                        sound, all)
          : fmt::format(
                "in {} of {} misses the spelling was at fault, not the sound",
                spelling, all);
  return apart.empty() ? text : fmt::format("{}; beside them, {}", text, apart);
}

// Where several learners have enough words, it is they who decide: one who has
// nothing right yet does not hold up the rest.
Step step_for(const PatternScore& score, const Share& there,
              const AdviceRules& rules) {
  if (score.share.of < Share::kLeastForPercent) return Step::too_few;
  const bool enough = there.of > 1 ? there.reaches(rules.group_percent)
                                   : score.share.reaches(rules.go_on_percent);
  if (enough) return Step::go_on;
  const int sound = sum(score.causes, true);
  const int all = sound + sum(score.causes, false);
  return all > 0 && 100 * sound >= rules.sound_percent * all
             ? Step::back_to_sounds
             : Step::another_set;
}

std::string why_text(const PatternScore& score, const Share& there, Step step,
                     const AdviceRules& rules) {
  if (score.share.of == 0) return "none of these words has it";
  std::string why = fmt::format("{} right", score.share.text());
  if (there.of > 1) {
    why += fmt::format("; {} of {} learners at {}% or more", there.right,
                       there.of, rules.go_on_percent);
  }
  if (step == Step::too_few) {
    return why + fmt::format("; it takes at least {} words to tell",
                             Share::kLeastForPercent);
  }
  const std::string misses = about_misses(score);
  if (!misses.empty()) why += "; " + misses;
  return why;
}

}  // namespace

std::string_view step_name(Step step) {
  constexpr std::array<std::string_view, 4> kNames = {
      "go on", "another set", "back to the sounds", "too few to tell"};
  return kNames[static_cast<std::size_t>(step)];
}

bool is_sound_cause(Cause cause) {
  switch (cause) {
    case Cause::near_sound:
    case Cause::sound_lost:
    case Cause::left_out:
    case Cause::no_vowel:
    case Cause::order:
      return true;
    default:
      return false;
  }
}

std::vector<Advice> advise(const SessionScores& scores,
                           const AdviceRules& rules) {
  std::vector<Advice> all;
  for (std::size_t i = 0; i < scores.group.patterns.size(); ++i) {
    const PatternScore& group = scores.group.patterns[i];
    Advice advice;
    advice.pattern = group.pattern;
    Share there;
    for (const Score& learner : scores.learners) {
      const Share& share = learner.patterns[i].share;
      if (share.of < Share::kLeastForPercent) continue;
      ++there.of;
      if (share.reaches(rules.go_on_percent)) {
        ++there.right;
      } else {
        advice.not_yet.push_back(learner.code);
      }
    }
    advice.step = step_for(group, there, rules);
    advice.why = why_text(group, there, advice.step, rules);
    all.push_back(std::move(advice));
  }
  return all;
}

std::vector<Advice> advise(const Score& learner, const AdviceRules& rules) {
  std::vector<Advice> all;
  for (const PatternScore& score : learner.patterns) {
    Advice advice;
    advice.pattern = score.pattern;
    advice.step = step_for(score, {}, rules);
    advice.why = why_text(score, {}, advice.step, rules);
    if (advice.step != Step::go_on && learner.code != LearnerCode() &&
        advice.step != Step::too_few) {
      advice.not_yet.push_back(learner.code);
    }
    all.push_back(std::move(advice));
  }
  return all;
}

}  // namespace sheaf
