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

constexpr std::array kOptions = {
    OptionSpec{"go-on-percent", OptionSpec::Kind::count, "80",
               "percent right in the week before going on", "50", "100"},
    OptionSpec{"secure-misses", OptionSpec::Kind::count, "1",
               "misses allowed in a secure pattern", "0", "20"},
    OptionSpec{"secure-chances", OptionSpec::Kind::count, "12",
               "opportunities that a secure pattern needs", "5", "100"},
    OptionSpec{"secure-days", OptionSpec::Kind::count, "3",
               "days that they must be spread over", "1", "20"},
    OptionSpec{"secure-new-words", OptionSpec::Kind::count, "4",
               "of them in words never practised", "0", "50"},
    OptionSpec{"secure-later-days", OptionSpec::Kind::count, "14",
               "days after teaching that one of them must be", "0", "365"},
    OptionSpec{"secure-again", OptionSpec::Kind::count, "4",
               "right in a row that mend a slip", "1", "50"},
    OptionSpec{"week-days", OptionSpec::Kind::count, "7",
               "days that count as the week", "1", "31"},
};

// The patterns in the order in which the records first teach them.
struct Taught {
  PatternId pattern;
  Date date;
};

class History {
 public:
  History(std::span<const SessionResult> sessions,
          std::span<const TaughtLesson> lessons)
      : lessons_(lessons) {
    for (const SessionResult& session : sessions) {
      sessions_.push_back(&session);
    }
    std::ranges::stable_sort(sessions_, {}, &SessionResult::date);
    for (const SessionResult* session : sessions_) teach(*session);
  }

  std::span<const SessionResult* const> sessions() const { return sessions_; }
  std::span<const Taught> taught() const { return taught_; }

  bool is_new(const SessionWord& word, const SessionResult& session) const {
    if (session.kind == Record::Kind::transfer) return true;
    const auto found = practised_.find(read_written(word.attempt.target).signs);
    return found == practised_.end() || session.date < found->second;
  }

 private:
  void teach(const SessionResult& session) {
    for (const TaughtLesson& lesson : lessons_) {
      if (lesson.name != session.lesson) continue;
      for (const PatternId pattern : lesson.patterns) {
        const bool known = std::ranges::any_of(
            taught_, [&](const Taught& t) { return t.pattern == pattern; });
        if (!known) taught_.push_back({pattern, session.date});
      }
      for (const std::string& word : lesson.practised) {
        practised_.emplace(read_written(word).signs, session.date);
      }
    }
  }

  std::span<const TaughtLesson> lessons_;
  std::vector<const SessionResult*> sessions_;
  std::vector<Taught> taught_;
  std::map<std::string, Date, std::less<>> practised_;
};

void add_words(const History& history, const SessionResult& session,
               const LearnerResult& learner, const Taught& taught,
               const PatternCatalogue& catalogue, ProgressPoint& point) {
  for (const SessionWord& word : learner.words) {
    const PatternPlace* place = session.reading(word).find(taught.pattern);
    if (place == nullptr) continue;
    const Cause cause = missed_cause(word.attempt, *place, catalogue);
    const Share one{cause == Cause::none ? 1 : 0, 1};
    point.share += one;
    if (history.is_new(word, session)) point.new_words += one;
  }
}

// One learner's points for one pattern, tallies of writing apart.
std::vector<ProgressPoint> points_of(std::string_view code,
                                     const Taught& taught,
                                     const History& history,
                                     const PatternCatalogue& catalogue) {
  std::vector<ProgressPoint> points;
  for (const SessionResult* session : history.sessions()) {
    if (session->date < taught.date) continue;
    const LearnerResult* learner = session->find(code);
    if (learner == nullptr || learner->absent) continue;
    ProgressPoint point{session->date, session->kind, {}, {}, {}};
    add_words(history, *session, *learner, taught, catalogue, point);
    if (point.share.of > 0) points.push_back(point);
    for (const LearnerResult::Tally& tally : learner->writing) {
      if (tally.pattern != taught.pattern || tally.chances == 0) continue;
      points.push_back({session->date,
                        Record::Kind::writing,
                        Share{tally.right, tally.chances},
                        {},
                        {}});
    }
  }
  return points;
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

LearnerProgress progress_of(const std::string& code, const History& history,
                            const PatternCatalogue& catalogue,
                            const ProgressRules& rules) {
  LearnerProgress learner;
  learner.code = code;
  for (const Taught& taught : history.taught()) {
    PatternProgress progress;
    progress.pattern = taught.pattern;
    progress.taught = progress.last = taught.date;
    progress.points = points_of(code, taught, history, catalogue);
    if (progress.points.empty()) continue;
    sum_up(progress, rules);
    find_states(progress, rules);
    learner.patterns.push_back(std::move(progress));
  }
  for (const SessionResult* session : history.sessions()) {
    const LearnerResult* result = session->find(code);
    if (result == nullptr || result->words.empty()) continue;
    SequencePoint point{session->date, session->kind, {}, {}};
    for (const SessionWord& word : result->words) {
      point.sequences += word.attempt.sequences;
      point.words += Share{word.right() ? 1 : 0, 1};
    }
    learner.sequences.push_back(point);
  }
  return learner;
}

}  // namespace

OptionTable progress_option_table() { return kOptions; }

ProgressRules progress_rules(const OptionValues& values) {
  ProgressRules rules;
  rules.go_on_percent = values.count("go-on-percent");
  rules.secure_misses = values.count("secure-misses");
  rules.secure_chances = values.count("secure-chances");
  rules.secure_days = values.count("secure-days");
  rules.secure_new_words = values.count("secure-new-words");
  rules.secure_later_days = values.count("secure-later-days");
  rules.secure_again = values.count("secure-again");
  rules.week_days = values.count("week-days");
  return rules;
}

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
    std::span<const SessionResult> sessions,
    std::span<const TaughtLesson> lessons, const PatternCatalogue& catalogue,
    const ProgressRules& rules) {
  const History history(sessions, lessons);
  std::vector<std::string> codes;
  for (const SessionResult& session : sessions) {
    for (const LearnerResult& learner : session.learners) {
      if (std::ranges::find(codes, learner.code) == codes.end()) {
        codes.push_back(learner.code);
      }
    }
  }
  std::vector<LearnerProgress> all;
  all.reserve(codes.size());
  for (const std::string& code : codes) {
    all.push_back(progress_of(code, history, catalogue, rules));
  }
  return all;
}

}  // namespace sheaf
