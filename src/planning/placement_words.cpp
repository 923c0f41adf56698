#include "planning/placement_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/utf8.h"
#include "phonics/carriers.h"

namespace sheaf {

namespace {

// What a search looks at for each pattern: enough to find some with sentences.
constexpr std::size_t kPlacementCandidates = 24;

class PlacementChooser {
 public:
  PlacementChooser(const SequenceFile& sequence, const PlacementGround& ground)
      : ground_(ground), used_(ground.used) {
    const auto know = [&](const std::vector<PlacedWord>& words) {
      for (const PlacedWord& word : words) used_.insert(lower_case(word.value));
    };
    know(sequence.sight_words);
    for (const SequenceStep& step : sequence.steps) know(step.sight_words);
  }

  /// Up to `count` words of a step, of its patterns in turn.
  std::vector<std::string> words_of(int step, const Taught& taught,
                                    std::size_t count) {
    std::vector<std::vector<std::string>> by_pattern;
    // Nothing else in a word is new: popped is about more than its double p.
    std::vector<PatternId> later;
    for (std::size_t s = static_cast<std::size_t>(step) + 1;
         s < taught.steps().size(); ++s) {
      const auto& patterns = taught.steps()[s].patterns;
      later.insert(later.end(), patterns.begin(), patterns.end());
    }
    for (const PatternId pattern : taught.patterns_of(step)) {
      by_pattern.push_back(words_with(pattern, taught, later, count));
    }
    std::vector<std::string> words;
    for (std::size_t i = 0; i < count; ++i) {
      for (const std::vector<std::string>& some : by_pattern) {
        if (words.size() == count || i >= some.size()) continue;
        // A word may have two of the step's patterns.
        if (used_.insert(some[i]).second) words.push_back(some[i]);
      }
    }
    return words;
  }

 private:
  // The better ones first: with a sentence, short, unlike any other word.
  std::vector<std::string> words_with(PatternId pattern, const Taught& taught,
                                      const std::vector<PatternId>& later,
                                      std::size_t count) const {
    const SearchGround source{
        ground_.phonics, ground_.conventions, taught, ground_.blocked, {}};
    std::vector<std::string> good, others;
    // Long words, and those that only older learners know, where there are not
    // enough without them.
    const struct {
      int syllables;
      bool older;
    } rounds[] = {{2, false}, {1000, false}, {1000, true}};
    for (const auto& round : rounds) {
      if (good.size() >= count) break;
      WordQuery query;
      query.pattern = pattern;
      query.count = kPlacementCandidates;
      query.syllables.most = round.syllables;
      query.older = round.older;
      query.leave_out = used_;
      query.without = later;
      // A practised pattern may come again in a later step.
      std::erase(query.without, pattern);
      for (const FoundWord& word : find_words(source, query)) {
        const std::string& text = word.reading->word;
        const auto has = [&](const std::vector<std::string>& some) {
          return std::ranges::find(some, text) != some.end();
        };
        if (has(good) || has(others)) continue;
        (is_clear(*word.reading) ? good : others).push_back(text);
      }
    }
    good.insert(good.end(), others.begin(), others.end());
    return good;
  }

  // Whoever hears it knows which word is meant.
  bool is_clear(const Reading& reading) const {
    return !carrier_of(ground_.phonics, reading, ground_.conventions).empty() &&
           ground_.phonics.sound_alikes(reading, ground_.conventions).empty();
  }

  const PlacementGround& ground_;
  std::set<std::string, std::less<>> used_;
};

// Of each few steps on end one stands in part one: the middle one, if it has a
// word to spare.
void take_part_one(PlacementWords& result) {
  std::vector<PlacementWords::Step>& steps = result.part_two;
  for (std::size_t first = 0; first < steps.size(); first += kPlacementEvery) {
    const std::size_t end = std::min(first + kPlacementEvery, steps.size());
    std::size_t chosen = first + (end - first) / 2;
    for (const std::size_t s : {chosen, first, end - 1}) {
      if (steps[s].words.size() <= kPlacementWordsEach) continue;
      chosen = s;
      break;
    }
    PlacementWords::Step& step = steps[chosen];
    // With a single word the step is asked for in part two alone.
    if (step.words.size() < 2) continue;
    result.part_one.push_back({step.step, step.number, {step.words.front()}});
    step.words.erase(step.words.begin());
  }
  for (PlacementWords::Step& step : steps) {
    if (step.words.size() > kPlacementWordsEach) {
      step.words.resize(kPlacementWordsEach);
    }
    if (step.words.size() < kPlacementWordsEach) {
      result.short_of_words.push_back(step);
    }
  }
}

std::string placement_lines(const std::vector<PlacementWords::Step>& steps) {
  std::string text;
  for (const PlacementWords::Step& step : steps) {
    text +=
        fmt::format("    {}: {}\n", step.number, fmt::join(step.words, " "));
  }
  return text;
}

}  // namespace

PlacementWords placement_words(const SequenceFile& sequence,
                               const PlacementGround& ground,
                               Diagnostics& diagnostics) {
  PlacementWords result;
  PlacementChooser chooser(sequence, ground);
  std::vector<PlacementWords::Step> without_words;
  for (std::size_t i = 0; i < sequence.steps.size(); ++i) {
    const int index = static_cast<int>(i);
    PlacementWords::Step step{i, sequence.steps[i].number.value, {}};
    if (sequence.steps[i].patterns.empty()) {
      result.without_pattern.push_back(std::move(step));
      continue;
    }
    // What the names are is said once.
    Diagnostics again;
    const Taught taught = taught_at(sequence, index, ground.phonics,
                                    i == 0 ? diagnostics : again);
    if (diagnostics.has_errors()) return result;
    step.words = chooser.words_of(index, taught, kPlacementWordsEach + 1);
    auto& into = step.words.empty() ? without_words : result.part_two;
    into.push_back(std::move(step));
  }
  take_part_one(result);
  result.short_of_words.insert(result.short_of_words.end(),
                               without_words.begin(), without_words.end());
  std::ranges::sort(result.short_of_words, {}, &PlacementWords::Step::step);
  return result;
}

std::string placement_text(const PlacementWords& words,
                           const std::string& sequence) {
  return fmt::format(
      "# Where does a new learner begin? A check in two parts, in words of no\n"
      "# lesson beside the sequence. `sheaf build` prints it; `sheaf record`\n"
      "# writes a form for what learners wrote, and `sheaf place` reads it.\n"
      "sheaf: 1\ntitle: Where to begin\nsequence: {}\n"
      "layout:\n  line-gap: 4 mm\n"
      "  sheets: [placement-words, placement-script, placement-marks]\n"
      "placement:\n"
      "  # One word of about every third step.\n  part-one:\n{}"
      "  # The words of each step; six steps are dictated.\n  part-two:\n{}",
      sequence, placement_lines(words.part_one),
      placement_lines(words.part_two));
}

}  // namespace sheaf
