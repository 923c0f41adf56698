#include "marking/review_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>

#include "marking/calendar.h"
#include "marking/pattern_chance.h"
#include "marking/written_word.h"

namespace sheaf {

namespace {

using Reason = ReviewItem::Reason;

std::string key(std::string_view word) { return read_written(word).signs; }

class Planner {
 public:
  Planner(const Sessions& sessions, std::span<const TaughtLesson> lessons,
          const PatternCatalogue& catalogue, const ReviewWords& words_for,
          const Date& week, const ReviewRules& rules)
      : sessions_(sessions),
        lessons_(lessons),
        catalogue_(catalogue),
        words_for_(words_for),
        week_(week),
        rules_(rules) {}

  LearnerReview plan(const LearnerProgress& learner) {
    LearnerReview review{.code = learner.code};
    for (const PatternProgress& p : learner.patterns) {
      if (auto item = item_for(p)) review.items.push_back(std::move(*item));
    }
    // The longest ago first where the reasons are the same; patterns stand in
    // the order of teaching.
    std::ranges::stable_sort(review.items, {}, &ReviewItem::reason);
    if (review.items.size() > rules_.most_patterns) {
      review.items.resize(rules_.most_patterns);
    }
    const std::set<std::string> practised = practised_by(learner.code);
    for (ReviewItem& item : review.items) {
      add_words(learner.code, practised, item);
    }
    return review;
  }

 private:
  // The words of the lessons that list the learner.
  std::set<std::string> practised_by(const LearnerCode& code) const {
    std::set<std::string> words;
    for (const SessionResult& session : sessions_) {
      if (session.find(code) == nullptr) continue;
      for (const TaughtLesson& lesson : lessons_) {
        if (lesson.name != session.lesson) continue;
        for (const std::string& word : lesson.practised)
          words.insert(key(word));
      }
    }
    return words;
  }

  std::optional<ReviewItem> item_for(const PatternProgress& p) const {
    const int ago = days_between(p.last, week_);
    switch (p.state) {
      case ProgressState::check_again:
        return ReviewItem{.pattern = p.pattern,
                          .reason = p.unseen ? Reason::due : Reason::slipped,
                          .why = p.why};
      case ProgressState::practising:
        return slipped_early(p)
                   ? ReviewItem{.pattern = p.pattern,
                                .reason = Reason::slipped,
                                .why = fmt::format("went well before, then {}",
                                                   last_text(p))}
                   : ReviewItem{.pattern = p.pattern,
                                .reason = Reason::practising,
                                .why = p.why};
      case ProgressState::go_on:
      case ProgressState::secure:
        break;
    }
    if (missed_last(p)) {
      return ReviewItem{
          .pattern = p.pattern, .reason = Reason::missed, .why = last_text(p)};
    }
    const int gap = review_gap(good_days(p), rules_.weeks);
    if (ago >= gap) {
      const Date due = day_after(p.last, gap);
      const std::string holiday =
          first_school_day(rules_.no_school, due) == due
              ? ""
              : fmt::format(", on {} in a week without school", date_text(due));
      return ReviewItem{
          .pattern = p.pattern,
          .reason = Reason::due,
          .why = fmt::format("last seen {} days before; due after {}{}", ago,
                             gap, holiday)};
    }
    if (p.state == ProgressState::go_on && p.new_words.of == 0) {
      return ReviewItem{
          .pattern = p.pattern,
          .reason = Reason::transfer,
          .why =
              fmt::format("{} right, none of them in new words", p.all.text())};
    }
    return std::nullopt;
  }

  static bool slipped_early(const PatternProgress& p) {
    return std::ranges::any_of(p.points, [](const ProgressPoint& point) {
      return point.state == ProgressState::go_on;
    });
  }

  // Less than four in five right on the last day.
  static bool missed_last(const PatternProgress& p) {
    Share last;
    for (const ProgressPoint& point : p.points) {
      if (point.date == p.last) last += point.share;
    }
    return last.of > 0 && !last.reaches(80);
  }

  static std::string last_text(const PatternProgress& p) {
    Share last;
    for (const ProgressPoint& point : p.points) {
      if (point.date == p.last) last += point.share;
    }
    return fmt::format("{} right on {}", last.text(), date_text(p.last));
  }

  // Days up to now on which nothing much went wrong, from the last one back.
  static int good_days(const PatternProgress& p) {
    std::map<int, Share> days;
    for (const ProgressPoint& point : p.points) {
      days[day_number(point.date)] += point.share;
    }
    int good = 0;
    for (auto day = days.rbegin(); day != days.rend(); ++day) {
      if (!day->second.reaches(80)) break;
      ++good;
    }
    return good;
  }

  void add_words(const LearnerCode& code,
                 const std::set<std::string>& practised,
                 ReviewItem& item) const {
    std::set<std::string> taken;
    const auto add = [&](const std::string& word) {
      if (item.words.size() < rules_.words_each &&
          taken.insert(key(word)).second) {
        item.words.push_back(word);
      }
    };
    // Missed words, the latest first; one place is kept for a new word.
    for (auto s = sessions_.rbegin(); s != sessions_.rend(); ++s) {
      const LearnerResult* learner = s->find(code);
      if (learner == nullptr) continue;
      for (const PatternChance& chance :
           chances_for(item.pattern, *s, *learner, catalogue_)) {
        if (chance.taken() || item.words.size() + 1 >= rules_.words_each) {
          continue;
        }
        const bool may_be_asked = words_for_.may_be_asked == nullptr ||
                                  words_for_.may_be_asked(code, chance.target);
        if (may_be_asked) add(chance.target);
      }
    }
    for (const std::string& word : words_for_.fresh(code, item.pattern)) {
      if (!practised.contains(key(word))) add(word);
    }
  }

  const Sessions& sessions_;
  std::span<const TaughtLesson> lessons_;
  const PatternCatalogue& catalogue_;
  const ReviewWords& words_for_;
  Date week_;
  ReviewRules rules_;
};

}  // namespace

std::string_view reason_name(Reason reason) {
  constexpr std::array<std::string_view, 5> kNames = {
      "slipped", "missed last", "not there yet", "due", "new words"};
  return kNames[static_cast<std::size_t>(reason)];
}

std::vector<std::string> LearnerReview::words(std::size_t most) const {
  std::vector<std::string> all;
  std::size_t longest = 0;
  for (const ReviewItem& item : items) {
    longest = std::max(longest, item.words.size());
  }
  for (std::size_t i = 0; i < longest; ++i) {
    for (const ReviewItem& item : items) {
      if (i >= item.words.size() || all.size() == most) continue;
      if (std::ranges::find(all, item.words[i]) == all.end()) {
        all.push_back(item.words[i]);
      }
    }
  }
  return all;
}

int review_gap(int good_days, std::span<const int> weeks) {
  const int last = static_cast<int>(weeks.size()) - 1;
  return 7 *
         weeks[static_cast<std::size_t>(std::clamp(good_days - 1, 0, last))];
}

std::vector<LearnerReview> plan_review(
    std::span<const LearnerProgress> learners, const Sessions& sessions,
    std::span<const TaughtLesson> lessons, const PatternCatalogue& catalogue,
    const ReviewWords& words_for, const Date& week, const ReviewRules& rules) {
  Planner planner(sessions, lessons, catalogue, words_for, week, rules);
  std::vector<LearnerReview> reviews;
  for (const LearnerProgress& learner : learners) {
    reviews.push_back(planner.plan(learner));
  }
  return reviews;
}

namespace {

// How many of these learners need a pattern, and how pressing it is for them:
// places in their lists, summed.
struct Need {
  int learners = 0;
  std::size_t places = 0;
};

bool more_wanted(const Need& a, const Need& b) {
  return a.learners != b.learners ? a.learners > b.learners
                                  : a.places < b.places;
}

// The pattern that most of them need, if two do. In the order of learners and
// of their items where all else is even.
std::optional<PatternId> most_wanted(
    std::span<const LearnerReview* const> learners) {
  std::map<PatternId, Need> needs;
  for (const LearnerReview* learner : learners) {
    for (std::size_t i = 0; i < learner->items.size(); ++i) {
      Need& need = needs[learner->items[i].pattern];
      ++need.learners;
      need.places += i;
    }
  }
  std::optional<PatternId> best;
  for (const LearnerReview* learner : learners) {
    for (const ReviewItem& item : learner->items) {
      if (needs[item.pattern].learners < 2) continue;
      if (!best || more_wanted(needs[item.pattern], needs[*best])) {
        best = item.pattern;
      }
    }
  }
  return best;
}

using Waiting = std::vector<const LearnerReview*>;

// Those of `waiting` who need the same, taken out of it group by group.
std::vector<ReviewGroup> shared_needs(Waiting& waiting) {
  std::vector<ReviewGroup> groups;
  while (const auto pattern = most_wanted(waiting)) {
    ReviewGroup group{.pattern = *pattern};
    std::erase_if(waiting, [&](const LearnerReview* learner) {
      if (std::ranges::find(learner->items, *pattern, &ReviewItem::pattern) ==
          learner->items.end()) {
        return false;
      }
      group.codes.push_back(learner->code);
      return true;
    });
    groups.push_back(std::move(group));
  }
  return groups;
}

}  // namespace

std::vector<ReviewGroup> group_by_need(std::span<const LearnerReview> reviews,
                                       const GroupOf& group_of) {
  // By group of the class, in the order of their first learners.
  std::vector<std::pair<std::string, Waiting>> of_class;
  for (const LearnerReview& review : reviews) {
    if (review.items.empty()) continue;
    const std::string name =
        group_of == nullptr ? std::string() : group_of(review.code);
    auto known = std::ranges::find(of_class, name,
                                   &std::pair<std::string, Waiting>::first);
    if (known == of_class.end()) {
      known = of_class.insert(of_class.end(), {name, {}});
    }
    known->second.push_back(&review);
  }
  std::vector<ReviewGroup> groups;
  for (auto& [name, waiting] : of_class) {
    std::ranges::move(shared_needs(waiting), std::back_inserter(groups));
  }
  std::ranges::stable_sort(groups, std::ranges::greater{},
                           [](const ReviewGroup& g) { return g.codes.size(); });
  for (const auto& [name, waiting] : of_class) {
    for (const LearnerReview* learner : waiting) {
      groups.push_back({learner->items.front().pattern, {learner->code}});
    }
  }
  return groups;
}

}  // namespace sheaf
