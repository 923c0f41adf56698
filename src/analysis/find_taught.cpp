#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include "analysis/pattern_names.h"
#include "analysis/taught.h"
#include "base/nearest.h"
#include "base/utf8.h"

namespace sheaf {

namespace {

// The patterns of endings before which a base drops its e.
constexpr std::array<std::string_view, 4> kDrops = {"ing_drop", "ed_drop",
                                                    "er_est_drop", "y_drop"};

}  // namespace

// Puts the parts of `Taught` together.
class TaughtBuilder {
 public:
  TaughtBuilder(const Phonics& phonics, Diagnostics& diagnostics)
      : phonics_(phonics), diagnostics_(diagnostics) {
    taught_.pattern_stages_.assign(phonics.patterns().all().size(),
                                   Taught::kNever);
    for (const std::string_view id : kDrops) {
      if (const Pattern* pattern = phonics.patterns().by_id(id)) {
        taught_.drops_.push_back(phonics.patterns().id_of(*pattern));
      }
    }
  }

  void add_sequence(const SequenceFile& sequence) {
    taught_.known_ = true;
    if (!sequence.review_weeks.empty()) {
      taught_.review_weeks_ = sequence.review_weeks;
    }
    add_patterns(sequence.taught, 0);
    for (const SequenceStep& step : sequence.steps) {
      Taught::Step& own = taught_.steps_.emplace_back();
      own.number = step.number.value;
      own.name = step.name.value;
      own.patterns =
          add_patterns(step.patterns, static_cast<int>(taught_.steps_.size()));
      for (const PlacedWord& word : step.sight_words) {
        own.sight_words.push_back(lower_case(word.value));
      }
      own.key_words = small(step.key_words);
      check_key_words(step, own.patterns);
    }
    for (const PlacedWord& word : sequence.sight_words) {
      taught_.sight_words_.insert(lower_case(word.value));
    }
    taught_.key_words_ = small(sequence.key_words);
  }

  // What the lesson itself says comes before all steps.
  void add_lesson(const Lesson& lesson) {
    if (!lesson.taught.empty()) {
      taught_.known_ = true;
      add_patterns(lesson.taught, 0);
    }
    for (const PlacedWord& word : lesson.sight_words) {
      taught_.sight_words_.insert(lower_case(word.value));
    }
  }

  // A lesson teaches its patterns in its own step, not before: the weeks before
  // it are looked at as well (`Taught::before`).
  void add_own_patterns(const std::vector<NamedPattern>& patterns) {
    for (const NamedPattern& pattern : patterns) {
      teach(pattern.id, taught_.step_ + 1);
    }
  }

  void set_step(int step) {
    taught_.step_ = step;
    for (int i = 0; i <= step; ++i) {
      for (const std::string& word :
           taught_.steps_[static_cast<std::size_t>(i)].sight_words) {
        taught_.sight_words_.insert(word);
      }
    }
  }

  // Only what the lesson itself says is left.
  void forget_sequence(const Lesson& lesson) {
    taught_.known_ = !lesson.taught.empty();
    taught_.step_ = -1;
    taught_.key_words_.clear();
  }

  // The first step by which all of the patterns are taught; nothing where one
  // of them never is, -1 where all are from before the first.
  std::optional<int> step_of(const std::vector<NamedPattern>& patterns) const {
    int step = -1;
    for (const NamedPattern& pattern : patterns) {
      const int stage = taught_.pattern_stages_[pattern.id];
      if (stage == Taught::kNever) return std::nullopt;
      step = std::max(step, stage - 1);
    }
    return step;
  }

  Taught finish() {
    std::ranges::sort(taught_.entries_, {}, [](const Taught::Entry& e) {
      return std::pair(e.key, e.stage);
    });
    const auto rest =
        std::ranges::unique(taught_.entries_, {}, &Taught::Entry::key);
    taught_.entries_.erase(rest.begin(), rest.end());
    return std::move(taught_);
  }

 private:
  static std::vector<std::string> small(const std::vector<PlacedWord>& words) {
    std::vector<std::string> texts;
    for (const PlacedWord& word : words) {
      texts.push_back(lower_case(word.value));
    }
    return texts;
  }

  void check_key_words(const SequenceStep& step,
                       const std::vector<PatternId>& patterns) {
    for (const PlacedWord& word : step.key_words) {
      const auto reading =
          phonics_.first_reading(lower_case(word.value), Conventions{});
      const bool has_one = std::ranges::any_of(
          patterns, [&](PatternId id) { return reading->find(id) != nullptr; });
      if (has_one) continue;
      diagnostics_.warning(
          diagnostic::pattern_not_in_word, word.span,
          fmt::format("the key word {} has none of the patterns of its step",
                      quoted(word.value)),
          "choose a word that has one of them, or put it into the step that "
          "teaches its pattern");
    }
  }

  std::vector<PatternId> add_patterns(const std::vector<PlacedWord>& names,
                                      int stage) {
    std::vector<PatternId> ids;
    for (const NamedPattern& pattern :
         find_patterns(names, phonics_, diagnostics_)) {
      teach(pattern.id, stage);
      ids.push_back(pattern.id);
    }
    return ids;
  }

  void teach(PatternId id, int stage) {
    int& own = taught_.pattern_stages_[id];
    own = std::min(own, stage);
    const Pattern& pattern = phonics_.patterns()[id];
    for (const auto* units : {&pattern.teaches, &pattern.lets_in}) {
      for (const TaughtUnit& unit : *units) {
        taught_.entries_.push_back(
            {Taught::key_of(unit.grapheme, unit.phonemes), stage});
        int& first = taught_.grapheme_stages_.try_emplace(unit.grapheme, stage)
                         .first->second;
        first = std::min(first, stage);
      }
    }
  }

  const Phonics& phonics_;
  Diagnostics& diagnostics_;
  Taught taught_;
};

namespace {

void report_unknown_step(const PlacedWord& step, const SequenceFile& sequence,
                         Diagnostics& diagnostics) {
  std::vector<std::string_view> names;
  for (const SequenceStep& s : sequence.steps) {
    if (s.name.given()) names.push_back(s.name.value);
  }
  Help help = did_you_mean(step.value, names);
  if (help.empty() && !sequence.steps.empty()) {
    help = fmt::format("its steps go from {} to {}",
                       sequence.steps.front().number.value,
                       sequence.steps.back().number.value);
  }
  diagnostics.error(
      diagnostic::unknown_step, step.span,
      fmt::format("the sequence has no step {}", as_written(step.value)), help);
}

}  // namespace

Taught find_taught(const Lesson& lesson, const SequenceFile* sequence,
                   const Phonics& phonics, Diagnostics& diagnostics) {
  Diagnostics unheard;  // the lesson's own names are reported by its analysis
  const auto patterns = find_patterns(lesson.patterns, phonics, unheard);
  TaughtBuilder builder(phonics, diagnostics);
  if (sequence != nullptr) builder.add_sequence(*sequence);
  builder.add_lesson(lesson);
  if (sequence != nullptr) {
    if (lesson.step.given()) {
      if (const SequenceStep* step = find_step(*sequence, lesson.step.value)) {
        builder.set_step(static_cast<int>(step - sequence->steps.data()));
      } else {
        report_unknown_step(lesson.step, *sequence, diagnostics);
      }
    } else if (const auto step = builder.step_of(patterns)) {
      builder.set_step(*step);
    } else {
      diagnostics.warning(
          diagnostic::unknown_step, lesson.patterns.front().span,
          "no step of the sequence teaches this pattern, so Sheaf cannot tell "
          "which words are decodable",
          "say where the lesson belongs with `step: 5`, or add the pattern to "
          "the sequence");
      builder.forget_sequence(lesson);
    }
  }
  builder.add_own_patterns(patterns);
  return builder.finish();
}

Taught taught_at(const SequenceFile& sequence, int step, const Phonics& phonics,
                 Diagnostics& diagnostics) {
  TaughtBuilder builder(phonics, diagnostics);
  builder.add_sequence(sequence);
  builder.set_step(step);
  return builder.finish();
}

}  // namespace sheaf
