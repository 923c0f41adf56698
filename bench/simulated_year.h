#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "marking/mark_attempt.h"
#include "marking/progress.h"
#include "phonics/phonics.h"

namespace sheaf::bench {

/// Numbers that are the same on every machine for the same seed.
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}
  /// At least 0 and less than 1.
  double next();

 private:
  std::uint64_t state_;
};

/// When one pattern is dictated in a year of 36 weeks: a list in the week that
/// it is taught, then checks of a few new words, evenly spread from two weeks
/// after teaching to the last week.
struct YearPlan {
  static constexpr int kWeeks = 36;
  struct Day {
    int day = 0;  ///< after the day of teaching
    int words = 0;
  };
  std::vector<Day> days;

  YearPlan(int chances, int words_a_check);
};

/// How likely a learner is to have a word right on a day of the year.
using TrueChance = std::function<double(int day)>;

/// One pattern's year in records, which were read and marked as those of a
/// class are. A word is right or wrong in them; what a learner wrote is put
/// together from both.
class SimulatedYear {
 public:
  /// `words` are at least as many as the plan asks for.
  SimulatedYear(const Phonics& phonics, PatternId pattern, const YearPlan& plan,
                std::span<const std::string> words);

  /// Draws what one learner wrote, and gives the sessions of their year.
  std::span<const SessionResult> draw(const TrueChance& chance, Random& random);
  /// The sessions that were drawn last, this time from records that say so.
  std::vector<SessionResult> from_records() const;

  std::span<const TaughtLesson> lessons() const { return {&lesson_, 1}; }
  /// The last day of the year.
  Date end() const;

 private:
  SessionResult marked(std::size_t day, const std::vector<bool>& right) const;

  const Phonics& phonics_;
  SoundSpellings spellings_;
  MarkingOptions options_;
  YearPlan plan_;
  TaughtLesson lesson_;
  std::vector<std::vector<std::string>> words_;  ///< of each day
  std::vector<SessionResult> right_, wrong_, drawn_;
  std::vector<std::vector<bool>> was_right_;
};

/// Words with the pattern, which is spelled ai, that marking counts as one
/// chance: taken when they are written well, missed as `missed` says. Which
/// pattern it is makes no difference to the rules.
std::vector<std::string> words_to_dictate(const Phonics& phonics,
                                          PatternId pattern, std::size_t count);

/// What a learner writes who misses: o for ai.
std::string missed(const std::string& word);

}  // namespace sheaf::bench
