#include "marking/scores.h"

#include <algorithm>

#include <fmt/format.h>

#include "marking/pattern_chance.h"

namespace sheaf {
namespace {

void count(Cause cause, CauseCounts& counts) {
  if (cause != Cause::none) ++counts[static_cast<std::size_t>(cause)];
}

void add_word(const SessionWord& word, Score& score) {
  const MarkedAttempt& attempt = word.attempt;
  ++score.words.of;
  if (word.right()) ++score.words.right;
  if (attempt.blank) ++score.blanks;
  score.sequences += attempt.sequences;
  for (const MarkedGrapheme& g : attempt.graphemes) {
    count(g.cause, score.causes);
  }
  for (const ExtraLetter& extra : attempt.extra) {
    count(extra.cause, score.causes);
  }
}

void add_chances(const SessionResult& session, const LearnerResult& learner,
                 const PatternCatalogue& catalogue, PatternScore& score) {
  for (const PatternChance& chance :
       chances_for(score.pattern, session, learner, catalogue)) {
    score.share += Share{chance.taken() ? 1 : 0, 1};
    count(chance.cause, score.causes);
  }
}

void add(const CauseCounts& from, CauseCounts& to) {
  for (std::size_t i = 0; i < to.size(); ++i) to[i] += from[i];
}

void add(const Score& from, Score& to) {
  to.words += from.words;
  to.sequences += from.sequences;
  to.blanks += from.blanks;
  add(from.causes, to.causes);
  for (std::size_t i = 0; i < to.patterns.size(); ++i) {
    to.patterns[i].share += from.patterns[i].share;
    add(from.patterns[i].causes, to.patterns[i].causes);
  }
}

Score empty_score(std::span<const PatternId> patterns) {
  Score score;
  for (const PatternId pattern : patterns) {
    score.patterns.push_back({.pattern = pattern});
  }
  return score;
}

}  // namespace

std::optional<int> Share::percent() const {
  if (of < kLeastForPercent) return std::nullopt;
  return (200 * right + of) / (2 * of);  // rounded
}

bool Share::reaches(int wanted_percent) const {
  return of > 0 && 100 * right >= wanted_percent * of;
}

std::string Share::text() const {
  const auto p = percent();
  return p ? fmt::format("{}/{} ({}%)", right, of, *p)
           : fmt::format("{}/{}", right, of);
}

const PatternScore* Score::find(PatternId pattern) const {
  const auto found =
      std::ranges::find(patterns, pattern, &PatternScore::pattern);
  return found == patterns.end() ? nullptr : &*found;
}

SessionScores score_session(const SessionResult& session,
                            std::span<const PatternId> patterns,
                            const PatternCatalogue& catalogue) {
  SessionScores scores;
  scores.group = empty_score(patterns);
  for (const LearnerResult& learner : session.learners) {
    Score score = empty_score(patterns);
    score.code = learner.code;
    score.absent = learner.absent;
    for (const SessionWord& word : learner.words) add_word(word, score);
    for (PatternScore& pattern : score.patterns) {
      add_chances(session, learner, catalogue, pattern);
    }
    for (const LearnerResult::Tally& tally : learner.writing) {
      for (PatternScore& pattern : score.patterns) {
        if (pattern.pattern == tally.pattern) {
          pattern.share += Share{tally.right, tally.chances};
        }
      }
    }
    add(score, scores.group);
    scores.learners.push_back(std::move(score));
  }
  return scores;
}

std::vector<Cause> causes_by_count(const CauseCounts& counts) {
  std::vector<Cause> causes;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    if (counts[i] > 0) causes.push_back(static_cast<Cause>(i));
  }
  std::ranges::stable_sort(causes, std::ranges::greater{}, [&](Cause cause) {
    return counts[static_cast<std::size_t>(cause)];
  });
  return causes;
}

}  // namespace sheaf
