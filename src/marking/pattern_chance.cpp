#include "marking/pattern_chance.h"

#include <algorithm>

#include "base/utf8.h"
#include "marking/written_word.h"
#include "phonics/pattern_rule.h"

namespace sheaf {
namespace {

bool is_about_joint(const PatternCatalogue& catalogue, PatternId pattern) {
  const auto asks = [](const RuleCondition& c) {
    return c.key == RuleCondition::Key::joint && !c.negative &&
           std::ranges::find(c.values, "plain") == c.values.end();
  };
  return std::ranges::any_of(catalogue.rules(pattern), [&](const auto& rule) {
    return std::ranges::any_of(rule.word, asks);
  });
}

bool is_joint_cause(Cause cause) {
  return cause == Cause::doubling || cause == Cause::dropped_e ||
         cause == Cause::y_to_i;
}

Cause joint_cause(const MarkedAttempt& attempt) {
  for (const MarkedGrapheme& g : attempt.graphemes) {
    if (is_joint_cause(g.cause)) return g.cause;
  }
  for (const ExtraLetter& extra : attempt.extra) {
    if (is_joint_cause(extra.cause)) return extra.cause;
  }
  return Cause::none;
}

}  // namespace

Cause missed_cause(const MarkedAttempt& attempt, const PatternPlace& place,
                   const PatternCatalogue& catalogue) {
  for (const std::uint8_t unit : place.units) {
    if (unit < attempt.graphemes.size() &&
        attempt.graphemes[unit].result != GraphemeResult::correct) {
      return attempt.graphemes[unit].cause;
    }
  }
  if (is_about_joint(catalogue, place.pattern)) return joint_cause(attempt);
  const bool whole = place.units.size() == attempt.graphemes.size();
  return whole && !attempt.extra.empty() ? attempt.extra.front().cause
                                         : Cause::none;
}

std::vector<PatternChance> chances_for(PatternId pattern,
                                       const SessionResult& session,
                                       const LearnerResult& learner,
                                       const PatternCatalogue& catalogue) {
  std::vector<PatternChance> chances;
  for (const SessionWord& word : learner.words) {
    const Reading& reading = session.reading(word);
    const PatternPlace* place = reading.find(pattern);
    if (place == nullptr ||
        session.sight_words.contains(lower_case(reading.word))) {
      continue;
    }
    const Cause cause = missed_cause(word.attempt, *place, catalogue);
    std::string key = read_written(word.attempt.target).signs;
    const auto known = std::ranges::find(chances, key, &PatternChance::word);
    if (known == chances.end()) {
      chances.push_back({word.attempt.target, std::move(key), cause});
    } else if (known->taken()) {
      known->cause = cause;
    }
  }
  return chances;
}

}  // namespace sheaf
