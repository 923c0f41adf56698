#include "analysis/placement_check.h"

#include <fmt/format.h>

#include <set>

#include "analysis/pattern_names.h"
#include "base/utf8.h"

namespace sheaf {

namespace {

// What a lesson with a check may say beside it; all else is about a week.
bool stands_beside_check(std::string_view key) {
  constexpr std::string_view kBeside[] = {
      "sheaf",   "title",  "sequence",     "conventions", "accent",
      "count",   "layout", "teacher-note", "group",       "author",
      "licence", "seed",   "split",        "notation",    "placement"};
  return std::ranges::find(kBeside, key) != std::ranges::end(kBeside);
}

const SequenceStep* step_with(const SequenceFile& sequence, int number) {
  const auto found = std::ranges::find_if(
      sequence.steps,
      [&](const SequenceStep& step) { return step.number.value == number; });
  return found == sequence.steps.end() ? nullptr : &*found;
}

class Unfolder {
 public:
  Unfolder(Lesson& lesson, const SequenceFile& sequence, const Phonics& phonics,
           Diagnostics& diagnostics)
      : lesson_(lesson),
        sequence_(sequence),
        phonics_(phonics),
        diagnostics_(diagnostics) {}

  void add_part_two(const std::vector<PlacementStep>& steps) {
    for (const PlacementStep& step : steps) {
      if (add_patterns(step)) numbers_.insert(step.number.value);
    }
  }

  void check_part_one(const std::vector<PlacementStep>& steps) {
    for (const PlacementStep& step : steps) {
      if (numbers_.contains(step.number.value)) continue;
      diagnostics_.error(
          diagnostic::unknown_step, step.number.span,
          fmt::format("part one asks for step {}, and part two has no words "
                      "for it",
                      step.number.value),
          "give part two words for it, or leave it out of part one");
    }
  }

  void add_words(const std::vector<PlacementStep>& steps) {
    for (const PlacementStep& step : steps) {
      for (const PlacedWord& word : step.words) {
        lesson_.dictate_words.push_back({.spelling = word});
      }
    }
  }

 private:
  bool add_patterns(const PlacementStep& step) {
    const SequenceStep* known = step_with(sequence_, step.number.value);
    if (known == nullptr) {
      diagnostics_.error(
          diagnostic::unknown_step, step.number.span,
          fmt::format("the sequence has no step {}", step.number.value),
          "let `sheaf placement` write the check anew from this sequence");
      return false;
    }
    if (known->patterns.empty()) {
      diagnostics_.error(
          diagnostic::unknown_step, step.number.span,
          fmt::format("step {} teaches no pattern, so no word can show it",
                      step.number.value),
          "take the step out of the check");
      return false;
    }
    Diagnostics unheard;  // reported where the sequence is read
    for (const NamedPattern& p :
         find_patterns(known->patterns, phonics_, unheard)) {
      if (!seen_.insert(p.id).second) continue;
      lesson_.patterns.push_back(
          {std::string(phonics_.patterns()[p.id].id), step.number.span});
    }
    return true;
  }

  Lesson& lesson_;
  const SequenceFile& sequence_;
  const Phonics& phonics_;
  Diagnostics& diagnostics_;
  std::set<int> numbers_;
  std::set<PatternId> seen_;
};

}  // namespace

void unfold_placement(Lesson& lesson, const SequenceFile* sequence,
                      const Phonics& phonics, Diagnostics& diagnostics) {
  if (!lesson.placement.given()) return;
  for (const Spanned<std::string>& key : lesson.keys) {
    if (stands_beside_check(key.value)) continue;
    diagnostics.error(diagnostic::wrong_value, key.span,
                      fmt::format("{} has no place in a placement check",
                                  as_written(key.value)),
                      "take the line out, or put it into a lesson of its own");
  }
  if (sequence == nullptr) {
    diagnostics.error(diagnostic::no_sequence, lesson.placement.span,
                      "a placement check needs the sequence that it climbs",
                      "name it with `sequence: sequence.yaml`");
    return;
  }
  // All steps are climbed, wherever a learner of a class is.
  lesson.step = {};
  Unfolder unfolder(lesson, *sequence, phonics, diagnostics);
  unfolder.add_part_two(lesson.placement.part_two);
  unfolder.check_part_one(lesson.placement.part_one);
  unfolder.add_words(lesson.placement.part_one);
  unfolder.add_words(lesson.placement.part_two);
}

PlacementCheck::PlacementCheck(const AnalyzedLesson& lesson) {
  const Placement& placement = lesson.lesson->placement;
  const std::vector<Taught::Step>& steps = lesson.taught.steps();
  std::size_t word = 0;
  for (const PlacementStep& step : placement.part_one)
    word += step.words.size();
  for (const PlacementStep& step : placement.part_two) {
    const auto known =
        std::ranges::find(steps, step.number.value, &Taught::Step::number);
    Rung rung{.step = static_cast<std::size_t>(known - steps.begin()),
              .number = step.number.value};
    if (known != steps.end()) rung.patterns = known->patterns;
    for (std::size_t i = 0; i < step.words.size(); ++i) {
      rung.words.push_back(word++);
    }
    rungs_.push_back(std::move(rung));
  }
  for (const PlacementStep& step : placement.part_one) {
    const auto rung =
        std::ranges::find(rungs_, step.number.value, &Rung::number);
    part_one_.push_back(static_cast<std::size_t>(rung - rungs_.begin()));
  }
}

std::optional<std::size_t> PlacementCheck::rung_of(std::size_t word) const {
  if (word < part_one_.size()) return part_one_[word];
  for (std::size_t r = 0; r < rungs_.size(); ++r) {
    const std::vector<std::size_t>& words = rungs_[r].words;
    if (std::ranges::find(words, word) != words.end()) return r;
  }
  return std::nullopt;
}

std::size_t PlacementCheck::part_two_from(std::size_t right) const {
  const std::size_t last = rungs_.size() - std::min(rungs_.size(), kAtOnce);
  if (right >= part_one_.size()) return last;
  const std::size_t rung = part_one_[right];
  return std::min(rung - std::min(rung, kBelow), last);
}

std::size_t PlacementCheck::most_in_part_two() const {
  std::size_t most = 0;
  for (std::size_t first = 0; first + kAtOnce <= rungs_.size() || first == 0;
       ++first) {
    std::size_t words = 0;
    for (std::size_t r = first; r < part_two_end(first); ++r) {
      words += rungs_[r].words.size();
    }
    most = std::max(most, words);
  }
  return most;
}

void report_placement(const AnalyzedLesson& lesson, Diagnostics& diagnostics) {
  if (!lesson.lesson->placement.given()) return;
  const PlacementCheck check(lesson);
  for (std::size_t i = 0; i < lesson.dictate_words.size(); ++i) {
    const AnalyzedWord& word = lesson.dictate_words[i];
    const auto rung = check.rung_of(i);
    if (!rung || *rung >= check.rungs().size()) continue;
    const PlacementCheck::Rung& step = check.rungs()[*rung];
    const bool shows = std::ranges::any_of(step.patterns, [&](PatternId id) {
      return word.reading.find(id) != nullptr;
    });
    if (shows) continue;
    diagnostics.error(
        diagnostic::pattern_not_in_word, word.spelling.span,
        fmt::format("{} does not have what step {} teaches",
                    as_written(word.spelling.value), step.number),
        "choose a word that has it, so that the word shows whether a learner "
        "knows the step");
  }
}

}  // namespace sheaf
