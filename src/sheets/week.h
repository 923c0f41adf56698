#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace sheaf {

/// What a step is in a day's work. Every day goes through them in this order:
/// what was taught before, the new step, reading words, spelling words, reading
/// connected text (common practice, no source). On the day of the check, the
/// check stands in the place of the new step, before the words are read again.
enum class DayPart { warm_up, learn, check, blend, spell, read };

/// A few minutes of one day.
struct DayStep {
  /// A step without a sheet: none of the packet's sheets is used.
  static constexpr std::size_t kNoSheet = static_cast<std::size_t>(-1);

  DayPart part = DayPart::learn;
  std::size_t sheet = kNoSheet;  ///< index into the packet
  int minutes = 0;
  int day = 1;
  /// Of a sheet that several days share: which use of it this is, from 0, and
  /// how many there are.
  int turn = 0;
  int turns = 1;
};

struct Day {
  std::vector<DayStep> steps;

  int minutes() const {
    int sum = 0;
    for (const DayStep& step : steps) sum += step.minutes;
    return sum;
  }
};

/// The days of a week, or of as many meetings as the lesson has.
struct Week {
  std::vector<Day> days;
  int minutes_a_day = 0;
  /// Sheets that the days have no room for, indices into the packet.
  std::vector<std::size_t> beyond;
};

/// The share that one turn takes of things that several turns go through in
/// order: from `first` on, `count` of them. Where there are fewer things than
/// turns, later turns begin again from the front.
struct TurnShare {
  std::size_t first = 0;
  std::size_t count = 0;
};
TurnShare turn_share(std::size_t things, int turn, int turns);

}  // namespace sheaf
