#include "marking/progress.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include <fmt/format.h>

#include "marking/calendar.h"
#include "marking/pattern_chance.h"
#include "marking/progress_state.h"
#include "marking/written_word.h"

namespace sheaf {
namespace {

// A pattern with the first day of a lesson about it.
struct TaughtOn {
  PatternId pattern;
  Date date;
};

bool teaches(Record::Kind kind) {
  return kind == Record::Kind::dictation || kind == Record::Kind::transfer;
}

using InOrder = std::vector<const SessionResult*>;

InOrder by_date(const Sessions& sessions) {
  InOrder sorted;
  for (const SessionResult& session : sessions) sorted.push_back(&session);
  std::ranges::stable_sort(sorted, {}, &SessionResult::date);
  return sorted;
}

// What the lessons of some sessions are about, in the order of teaching.
template <typename IsMeant>
std::vector<TaughtOn> taught_in(const InOrder& sessions,
                                std::span<const TaughtLesson> lessons,
                                IsMeant is_meant) {
  std::vector<TaughtOn> taught;
  for (const SessionResult* session : sessions) {
    if (!is_meant(*session)) continue;
    for (const TaughtLesson& lesson : lessons) {
      if (lesson.name != session->lesson) continue;
      for (const PatternId pattern : lesson.patterns) {
        if (std::ranges::find(taught, pattern, &TaughtOn::pattern) ==
            taught.end()) {
          taught.push_back({pattern, session->date});
        }
      }
    }
  }
  return taught;
}

// One learner's days: what was taught to them, which words they had met.
class History {
 public:
  History(const LearnerCode& code, const InOrder& sessions,
          std::span<const TaughtLesson> lessons)
      : lessons_(lessons) {
    for (const SessionResult* session : sessions) {
      const LearnerResult* learner = session->find(code);
      if (learner == nullptr) continue;
      days_.push_back({session, learner});
      practise(*session);
      for (const SessionWord& word : learner->words) {
        written_.emplace(read_written(word.attempt.target).signs,
                         session->date);
      }
    }
    taught_ = taught_in(sessions, lessons, [&](const SessionResult& session) {
      const LearnerResult* learner = session.find(code);
      return teaches(session.kind) && learner != nullptr &&
             !learner->beyond_step;
    });
  }

  struct Day {
    const SessionResult* session;
    const LearnerResult* learner;
  };
  const std::vector<Day>& days() const { return days_; }
  std::span<const TaughtOn> taught() const { return taught_; }

  bool is_new(const std::string& word, const Date& date) const {
    const auto practised = practised_.find(word);
    if (practised != practised_.end() && practised->second <= date) {
      return false;
    }
    return written_.at(word) == date;
  }

 private:
  void practise(const SessionResult& session) {
    if (session.kind != Record::Kind::dictation) return;
    for (const TaughtLesson& lesson : lessons_) {
      if (lesson.name != session.lesson) continue;
      for (const std::string& word : lesson.practised) {
        practised_.emplace(read_written(word).signs, session.date);
      }
    }
  }

  std::span<const TaughtLesson> lessons_;
  std::vector<Day> days_;
  std::vector<TaughtOn> taught_;
  std::map<std::string, Date, std::less<>> practised_, written_;
};

// One learner's points for one pattern, by date, tallies of writing apart.
class PointMaker {
 public:
  PointMaker(PatternId pattern, const History& history,
             const PatternCatalogue& catalogue)
      : pattern_(pattern), history_(history), catalogue_(catalogue) {}

  std::vector<ProgressPoint> make() {
    for (const History::Day& day : history_.days()) {
      if (day.learner->absent) continue;
      add_words(*day.session, *day.learner);
      for (const LearnerResult::Tally& tally : day.learner->writing) {
        if (tally.pattern != pattern_ || tally.chances == 0) continue;
        points_.push_back({.date = day.session->date,
                           .kind = Record::Kind::writing,
                           .share = {tally.right, tally.chances}});
      }
    }
    std::erase_if(points_,
                  [](const ProgressPoint& p) { return p.share.of == 0; });
    return std::move(points_);
  }

 private:
  struct Counted {
    std::size_t point;
    bool taken, is_new;
  };

  void add_words(const SessionResult& session, const LearnerResult& learner) {
    if (points_.empty() || points_.back().date != session.date) {
      today_.clear();
    }
    const std::size_t point = points_.size();
    points_.push_back({.date = session.date, .kind = session.kind});
    for (const PatternChance& chance :
         chances_for(pattern_, session, learner, catalogue_)) {
      const Counted counted{point, chance.taken(),
                            history_.is_new(chance.word, session.date)};
      const auto [known, first] = today_.try_emplace(chance.word, counted);
      if (first) {
        count(counted, 1);
      } else if (known->second.taken && !counted.taken) {
        known->second.taken = false;
        count(known->second, 0);
      }
    }
  }

  // Adds a chance, or takes back that an earlier one was right.
  void count(const Counted& word, int chances) {
    const int right = chances == 0 ? -1 : word.taken ? 1 : 0;
    ProgressPoint& point = points_[word.point];
    point.share += {right, chances};
    if (word.is_new) point.new_words += {right, chances};
  }

  PatternId pattern_;
  const History& history_;
  const PatternCatalogue& catalogue_;
  std::vector<ProgressPoint> points_;
  std::map<std::string, Counted, std::less<>> today_;
};

Share sum_of(std::span<const ProgressPoint> points) {
  Share sum;
  for (const ProgressPoint& point : points) sum += point.share;
  return sum;
}

void sum_up(PatternProgress& progress, const ProgressRules& rules) {
  std::set<int> days;
  for (const ProgressPoint& point : progress.points) {
    progress.all += point.share;
    progress.new_words += point.new_words;
    if (point.kind == Record::Kind::writing) progress.writing += point.share;
    if (days_between(progress.taught, point.date) >= rules.secure_later_days) {
      progress.later += point.share;
    }
    days.insert(day_number(point.date));
    progress.last = std::max(progress.last, point.date);
  }
  progress.days = static_cast<int>(days.size());
}

// The points from a pattern's first lesson on; those before it go apart.
void split_at_teaching(PatternProgress& progress) {
  const auto first =
      std::ranges::find_if(progress.points, [&](const ProgressPoint& point) {
        return point.date >= progress.taught;
      });
  for (auto point = progress.points.begin(); point != first; ++point) {
    if (point->kind != Record::Kind::probe) progress.before += point->share;
  }
  progress.points.erase(progress.points.begin(), first);
}

LearnerProgress progress_of(const LearnerCode& code, const InOrder& sessions,
                            std::span<const TaughtLesson> lessons,
                            std::span<const TaughtOn> of_all,
                            const PatternCatalogue& catalogue,
                            const ProgressRules& rules, const Date& as_of) {
  const History history(code, sessions, lessons);
  LearnerProgress learner;
  learner.code = code;
  for (const TaughtOn& taught : history.taught()) {
    PatternProgress progress;
    progress.pattern = taught.pattern;
    progress.taught = progress.last = taught.date;
    progress.points = PointMaker(taught.pattern, history, catalogue).make();
    split_at_teaching(progress);
    if (progress.points.empty()) continue;
    sum_up(progress, rules);
    find_states(progress, as_of, rules);
    learner.patterns.push_back(std::move(progress));
  }
  for (const TaughtOn& taught : of_all) {
    if (learner.find(taught.pattern) != nullptr) continue;
    const Share share =
        sum_of(PointMaker(taught.pattern, history, catalogue).make());
    if (share.of > 0) learner.untaught.push_back({taught.pattern, share});
  }
  for (const History::Day& day : history.days()) {
    if (day.learner->words.empty()) continue;
    SequencePoint point{.date = day.session->date, .kind = day.session->kind};
    for (const SessionWord& word : day.learner->words) {
      point.sequences += word.attempt.sequences;
      point.words += Share{word.right() ? 1 : 0, 1};
    }
    learner.sequences.push_back(point);
  }
  return learner;
}

}  // namespace

std::string_view state_name(ProgressState state) {
  constexpr std::array<std::string_view, 4> kNames = {"practising", "go on",
                                                      "secure", "check again"};
  return kNames[static_cast<std::size_t>(state)];
}

const PatternProgress* LearnerProgress::find(PatternId pattern) const {
  const auto found =
      std::ranges::find(patterns, pattern, &PatternProgress::pattern);
  return found == patterns.end() ? nullptr : &*found;
}

std::vector<LearnerProgress> class_progress(
    const Sessions& sessions, std::span<const TaughtLesson> lessons,
    const PatternCatalogue& catalogue, const ProgressRules& rules,
    std::optional<Date> as_of) {
  const InOrder sorted = by_date(sessions);
  if (!as_of) as_of = sorted.empty() ? Date() : sorted.back()->date;
  const std::vector<TaughtOn> of_all =
      taught_in(sorted, lessons, [](const SessionResult& session) {
        // A probe asks for what is still to come as well.
        return session.kind != Record::Kind::probe;
      });
  std::vector<LearnerCode> codes;
  for (const SessionResult& session : sessions) {
    for (const LearnerResult& learner : session.learners) {
      if (std::ranges::find(codes, learner.code) == codes.end()) {
        codes.push_back(learner.code);
      }
    }
  }
  std::vector<LearnerProgress> all;
  all.reserve(codes.size());
  for (const LearnerCode& code : codes) {
    all.push_back(
        progress_of(code, sorted, lessons, of_all, catalogue, rules, *as_of));
  }
  return all;
}

std::string known_before_text(const LearnerProgress& learner,
                              const PatternCatalogue& catalogue) {
  std::string taught, untaught;
  const auto add = [&](std::string& text, PatternId pattern,
                       const Share& share) {
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ",
                        column_title(catalogue[pattern]), share.text());
  };
  for (const PatternProgress& p : learner.patterns) {
    if (p.before.of > 0) add(taught, p.pattern, p.before);
  }
  for (const UntaughtPattern& p : learner.untaught) {
    add(untaught, p.pattern, p.share);
  }
  if (untaught.empty()) return taught;
  return fmt::format("{}{}not taught yet: {}", taught,
                     taught.empty() ? "" : "; ", untaught);
}

}  // namespace sheaf
