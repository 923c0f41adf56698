#include "marking/place_learner.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "base/utf8.h"
#include "marking/pattern_chance.h"

namespace sheaf {

namespace {

// Whether the part of a word that is new in its step is right: every pattern of
// the step that the word has.
bool shows_step(const SessionResult& session, const SessionWord& word,
                const PlacementCheck::Rung& rung,
                const PatternCatalogue& catalogue) {
  if (word.kind != MarkedWord::Kind::matched) return false;
  const Reading& reading = session.reading(word);
  return std::ranges::all_of(rung.patterns, [&](PatternId pattern) {
    const PatternPlace* place = reading.find(pattern);
    return place == nullptr ||
           missed_cause(word.attempt, *place, catalogue) == Cause::none;
  });
}

const OfLearner<Attempt>* attempts_of(
    const std::vector<OfLearner<Attempt>>& all, const LearnerCode& code) {
  const auto found = std::ranges::find_if(
      all, [&](const auto& one) { return one.code.value == code; });
  return found == all.end() ? nullptr : &*found;
}

// The part of the check that one learner heard.
class HeardPart {
 public:
  HeardPart(const SessionResult& session, const Record& record,
            const LearnerResult& learner, const PlacementCheck& check,
            const PatternCatalogue& catalogue)
      : check_(check) {
    find_part_two(record, learner.code);
    const std::size_t words = check.part_one().size();
    std::vector<bool> missed(words, false);
    for (const SessionWord& word : learner.words) {
      if (word.item >= words) continue;
      const auto& rung = check.rungs()[check.part_one()[word.item]];
      missed[word.item] = !shows_step(session, word, rung, catalogue);
    }
    std::size_t on_end = 0;
    while (part_one_ < words && on_end < PlacementCheck::kStopAfter) {
      on_end = missed[part_one_] ? on_end + 1 : 0;
      ++part_one_;
    }
    if (const auto* wrong = attempts_of(record.wrong, learner.code)) {
      find_listed(session, *wrong);
    }
  }

  bool heard(std::size_t item) const {
    if (item < check_.part_one().size()) return item < part_one_;
    const auto rung = check_.rung_of(item);
    // What stands in the record alone was dictated beside the check.
    if (!rung) return true;
    return begin_ && *rung >= *begin_ && *rung < check_.part_two_end(*begin_);
  }
  const std::vector<StrayWord>& strays() const { return strays_; }

 private:
  void find_part_two(const Record& record, const LearnerCode& code) {
    for (const auto& [learner, step] : record.part_two) {
      if (learner.value != code) continue;
      const auto rung = std::ranges::find(check_.rungs(), step.value,
                                          &PlacementCheck::Rung::number);
      if (rung == check_.rungs().end()) continue;  // told elsewhere
      begin_ = static_cast<std::size_t>(rung - check_.rungs().begin());
    }
  }

  // An error in a word of part one shows that it was dictated; one in a word
  // that part two does not ask for is left out, and told.
  void find_listed(const SessionResult& session,
                   const OfLearner<Attempt>& wrong) {
    for (const Attempt& attempt : wrong.entries) {
      const std::string target = lower_case(attempt.target.text());
      const auto item =
          std::ranges::find_if(session.items, [&](const DictatedItem& one) {
            return lower_case(one.text) == target;
          });
      if (item == session.items.end()) continue;
      const auto index = static_cast<std::size_t>(item - session.items.begin());
      if (index < check_.part_one().size()) {
        part_one_ = std::max(part_one_, index + 1);
      } else if (!heard(index)) {
        strays_.push_back(
            {attempt.target, check_.rungs()[*check_.rung_of(index)].number});
      }
    }
  }

  const PlacementCheck& check_;
  std::size_t part_one_ = 0;          // words of part one
  std::optional<std::size_t> begin_;  // the first rung of part two
  std::vector<StrayWord> strays_;
};

double log_of_sum(const std::vector<double>& logs) {
  const double most = *std::ranges::max_element(logs);
  double sum = 0;
  for (const double log : logs) sum += std::exp(log - most);
  return most + std::log(sum);
}

class PlaceFinder {
 public:
  PlaceFinder(const PlacementCheck& check, std::size_t steps,
              const PlacementModel& model)
      : check_(check), steps_(steps), model_(model) {}

  void add(std::size_t rung, bool right) {
    const auto known = std::ranges::find(counts_, rung, &Count::rung);
    Count& count =
        known == counts_.end() ? counts_.emplace_back(Count{rung, {}}) : *known;
    count.share += {right ? 1 : 0, 1};
  }

  // How likely each first unknown step is, all together 1.
  std::vector<double> likely_steps() const {
    std::vector<double> logs = step_logs();
    const double sum = log_of_sum(logs);
    for (double& log : logs) log = std::exp(log - sum);
    return logs;
  }

  // How many times likelier, as a logarithm, it is that each step is known or
  // not whatever the others are.
  double disorder() const {
    double free = 0;
    for (const Count& count : counts_) {
      free += log_of_sum({likelihood(count, model_.known),
                          likelihood(count, model_.unknown)}) -
              std::log(2.0);
    }
    return free - (log_of_sum(step_logs()) -
                   std::log(static_cast<double>(steps_ + 1)));
  }

  std::vector<PlacedLearner::RungCount> counts() {
    std::ranges::sort(counts_, {}, &Count::rung);
    return counts_;
  }

 private:
  using Count = PlacedLearner::RungCount;

  static double likelihood(const Count& count, double right) {
    return count.share.right * std::log(right) +
           (count.share.of - count.share.right) * std::log(1 - right);
  }

  // By the first unknown step, up to the one behind the last.
  std::vector<double> step_logs() const {
    std::vector<double> logs;
    for (std::size_t first = 0; first <= steps_; ++first) {
      double log = 0;
      for (const Count& count : counts_) {
        const auto step = static_cast<int>(check_.rungs()[count.rung].step);
        log +=
            likelihood(count, model_.right_at(step - static_cast<int>(first)));
      }
      logs.push_back(log);
    }
    return logs;
  }

  const PlacementCheck& check_;
  std::size_t steps_;
  PlacementModel model_;
  std::vector<Count> counts_;
};

// The step that is most often right within one step, and the range around it.
void decide_step(const std::vector<double>& likely, PlacedLearner& placed) {
  double best = -1;
  for (std::size_t i = 0; i < likely.size(); ++i) {
    const double near = (i > 0 ? likely[i - 1] : 0) + likely[i] +
                        (i + 1 < likely.size() ? likely[i + 1] : 0);
    // Where two are as good, the likelier by itself.
    const double worth = near + likely[i] * 1e-3;
    if (worth > best) {
      best = worth;
      placed.step = i;
    }
  }
  constexpr double kTail = 0.05;
  double below = 0;
  placed.high = likely.size() - 1;
  bool has_low = false;
  for (std::size_t i = 0; i < likely.size(); ++i) {
    below += likely[i];
    if (!has_low && below > kTail) {
      placed.low = i;
      has_low = true;
    }
    if (below >= 1 - kTail) {
      placed.high = i;
      break;
    }
  }
  placed.low = std::min(placed.low, placed.step);
  placed.high = std::max(placed.high, placed.step);
}

void find_gaps(PlacedLearner& placed) {
  std::size_t last_known = 0;
  for (const auto& count : placed.counts) {
    if (count.known()) last_known = count.rung;
  }
  for (const auto& count : placed.counts) {
    if (!count.known() && count.rung < last_known) {
      placed.gaps.push_back(count);
    }
  }
}

// What comes before `end`, an index of a step, and went wrong all the same;
// `seen` are those that are told of already.
void find_revisits(const SessionResult& session, const LearnerResult& learner,
                   const std::vector<Taught::Step>& steps, std::size_t end,
                   const PatternCatalogue& catalogue, std::set<PatternId> seen,
                   PlacedLearner& placed) {
  constexpr int kLeastMissed = 2;
  constexpr int kEnoughPercent = 80;
  for (std::size_t i = 0; i < std::min(end, steps.size()); ++i) {
    for (const PatternId pattern : steps[i].patterns) {
      if (!seen.insert(pattern).second) continue;
      Share share;
      for (const PatternChance& chance :
           chances_for(pattern, session, learner, catalogue)) {
        share += {chance.taken() ? 1 : 0, 1};
      }
      if (share.of - share.right >= kLeastMissed &&
          100 * share.right < kEnoughPercent * share.of) {
        placed.revisit.push_back({pattern, share});
      }
    }
  }
  std::ranges::stable_sort(placed.revisit, std::greater<>(),
                           [](const PlacedLearner::Revisit& one) {
                             return one.share.of - one.share.right;
                           });
}

}  // namespace

std::size_t right_in_part_one(const std::vector<bool>& right) {
  std::size_t count = 0, on_end = 0;
  for (const bool word : right) {
    if (on_end == PlacementCheck::kStopAfter) break;
    on_end = word ? 0 : on_end + 1;
    if (word) ++count;
  }
  return count;
}

std::vector<StrayWord> keep_dictated(SessionResult& session,
                                     const Record& record,
                                     const PlacementCheck& check,
                                     const PatternCatalogue& catalogue) {
  std::vector<StrayWord> strays;
  for (LearnerResult& learner : session.learners) {
    if (attempts_of(record.written, learner.code) != nullptr) continue;
    const HeardPart part(session, record, learner, check, catalogue);
    std::erase_if(learner.words, [&](const SessionWord& word) {
      return !part.heard(word.item);
    });
    strays.insert(strays.end(), part.strays().begin(), part.strays().end());
  }
  return strays;
}

PlacedLearner place_learner(const SessionResult& session,
                            const LearnerResult& learner,
                            const PlacementCheck& check,
                            const std::vector<Taught::Step>& steps,
                            const PatternCatalogue& catalogue,
                            const PlacementModel& model) {
  PlacedLearner placed{.code = learner.code};
  if (learner.absent || learner.words.empty()) return placed;
  PlaceFinder finder(check, steps.size(), model);
  bool part_two = false;
  std::vector<bool> part_one;  // in the order of the check
  for (const SessionWord& word : learner.words) {
    const auto rung = check.rung_of(word.item);
    if (!rung) continue;
    const bool right =
        shows_step(session, word, check.rungs()[*rung], catalogue);
    finder.add(*rung, right);
    if (word.item < check.part_one().size()) {
      part_one.push_back(right);
    } else {
      part_two = true;
    }
  }
  placed.counts = finder.counts();
  decide_step(finder.likely_steps(), placed);
  if (!part_two) {
    placed.kind = PlacedLearner::Kind::part_two_next;
    placed.part_two = check.part_two_from(right_in_part_one(part_one));
    return placed;
  }
  placed.kind = PlacedLearner::Kind::step;
  if (finder.disorder() > model.patchy_from) {
    find_gaps(placed);
    if (!placed.gaps.empty()) placed.kind = PlacedLearner::Kind::patchy;
  }
  std::set<PatternId> listed;
  std::size_t end = placed.step;
  if (placed.kind == PlacedLearner::Kind::patchy) {
    for (const auto& gap : placed.gaps) {
      const auto& patterns = check.rungs()[gap.rung].patterns;
      listed.insert(patterns.begin(), patterns.end());
    }
    for (const auto& count : placed.counts) {
      if (count.known()) end = check.rungs()[count.rung].step;
    }
  }
  find_revisits(session, learner, steps, end, catalogue, std::move(listed),
                placed);
  return placed;
}

}  // namespace sheaf
