#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "input/learner_code.h"
#include "marking/progress.h"

namespace sheaf {

/// One pattern that a learner should come back to, with words for it.
struct ReviewItem {
  enum class Reason : std::uint8_t {
    slipped,     ///< was secure or good enough, then went wrong
    missed,      ///< not four in five on the last day, though good enough
    practising,  ///< not there yet
    due,         ///< right so far; time to see whether it lasts
    transfer,    ///< right in practised words; new words are still to come
  };
  PatternId pattern = 0;
  Reason reason = Reason::due;
  /// A sentence with the figures behind it, lower case, no full stop.
  std::string why;
  /// Missed words of the learner's first, then new ones.
  std::vector<std::string> words;
};
std::string_view reason_name(ReviewItem::Reason reason);

struct LearnerReview {
  LearnerCode code;
  std::vector<ReviewItem> items;  ///< most pressing first

  /// Words of all items, an item's turn at a time, at most `most`.
  std::vector<std::string> words(std::size_t most) const;
};

/// Learners who need the same pattern.
struct ReviewGroup {
  PatternId pattern = 0;
  std::vector<LearnerCode> codes;
};

struct ReviewRules {
  std::size_t most_patterns = 3;
  std::size_t words_each = 3;
  /// After how many weeks a pattern is due again when it went well on one day,
  /// on two on end, and so on. Weeks are those of the calendar: what was
  /// learned is forgotten in a holiday too. Gaps must grow with the time that a
  /// thing is to last (Cepeda et al. 2006, 2008); the numbers are ours. The
  /// steps before them, after one day and three, are the week's own sheets.
  std::vector<int> weeks = {1, 2, 4, 8};
  /// A day of each week without school. What falls due in one of them waits
  /// for the first day of school after it.
  std::vector<Date> no_school;
};

/// Days until a pattern is due again after so many good days.
int review_gap(int good_days, std::span<const int> weeks);

/// Which words are for a learner, as the caller knows what was taught to them.
struct ReviewWords {
  /// Words with a pattern that the learner has not met, the best first.
  std::function<std::vector<std::string>(const LearnerCode&, PatternId)> fresh;
  /// Whether a word that the learner missed has nothing in it that was not
  /// taught to them. Null: all may be asked again.
  std::function<bool(const LearnerCode&, const std::string&)> may_be_asked = {};
};

/// What each learner comes back to in the week that begins on `week`: first
/// what slipped, what was missed last, then what is not there yet, then what is
/// due, then what was never tried in new words. Nobody gets a word with
/// something that was not taught to them. Learners with nothing to review are
/// left out of the groups only.
std::vector<LearnerReview> plan_review(
    std::span<const LearnerProgress> learners, const Sessions& sessions,
    std::span<const TaughtLesson> lessons, const PatternCatalogue& catalogue,
    const ReviewWords& words_for, const Date& week,
    const ReviewRules& rules = {});

/// Learners who are taught together, by the name of their group. `group_of`
/// gives the name, or nothing for a learner without one.
using GroupOf = std::function<std::string(const LearnerCode&)>;

/// Learners by their need, the largest group first: the pattern that most
/// learners wait for makes a group, the most pressing one where several do;
/// then the others. Who shares nothing stands alone with the first need. Only
/// those are put together who are in one group of the class.
std::vector<ReviewGroup> group_by_need(std::span<const LearnerReview> reviews,
                                       const GroupOf& group_of = {});

}  // namespace sheaf
