#include "sheets/deck_cards.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "phonics/key_word_fit.h"
#include "phonics/notation.h"

namespace sheaf {

namespace {

// A pattern that was taught, and when: 0 before the first step.
struct TaughtPattern {
  PatternId id;
  int stage;
  bool is_new;
};

std::vector<TaughtPattern> taught_patterns(const AnalyzedLesson& lesson) {
  const Taught& taught = lesson.taught;
  const auto is_own = [&](PatternId id) {
    return std::ranges::find(lesson.patterns, id, &LessonPattern::id) !=
           lesson.patterns.end();
  };
  std::vector<TaughtPattern> patterns;
  const auto& catalogue = lesson.phonics->patterns();
  for (const Pattern& pattern : catalogue.all()) {
    const PatternId id = catalogue.id_of(pattern);
    const int stage = taught.stage(id);
    if (stage < 0 || stage > taught.step() + 1) continue;
    // A week of practice teaches nothing new.
    const bool is_new = is_own(id) && stage == taught.step() + 1;
    patterns.push_back({id, stage, is_new});
  }
  // What is new comes last, also where there are no steps.
  std::ranges::stable_sort(patterns, {}, [](const TaughtPattern& pattern) {
    return std::pair(pattern.stage, pattern.is_new);
  });
  return patterns;
}

// The usual sound of a single consonant letter; empty for others.
std::vector<Phoneme> usual_sound(std::string_view grapheme) {
  constexpr std::string_view kConsonants = "bcdfghjklmnprstvwxyz";
  if (grapheme.size() != 1 || kConsonants.find(grapheme) == kConsonants.npos) {
    return {};
  }
  const std::string_view name = grapheme == "c"   ? "k"
                                : grapheme == "x" ? "ks"
                                                  : grapheme;
  return read_sound(name).value_or(std::vector<Phoneme>());
}

class DeckMaker {
 public:
  explicit DeckMaker(const SheetInput& in) : in_(in), lesson_(in.lesson) {}

  std::vector<DeckCard> make() {
    for (const TaughtPattern& pattern : taught_patterns(lesson_)) {
      for (const TaughtUnit& unit :
           lesson_.phonics->patterns()[pattern.id].teaches) {
        add(pattern, unit);
      }
    }
    return std::move(cards_);
  }

 private:
  void add(const TaughtPattern& pattern, const TaughtUnit& unit) {
    const auto said =
        lesson_.phonics->taught_sound(pattern.id, unit, lesson_.conventions);
    auto card = std::ranges::find(cards_, unit.grapheme, &DeckCard::grapheme);
    if (card == cards_.end()) {
      cards_.push_back({.grapheme = unit.grapheme});
      card = cards_.end() - 1;
      const std::vector<Phoneme> usual = usual_sound(unit.grapheme);
      if (!usual.empty() && usual != said.phonemes) {
        card->says.push_back({usual, ""});
      }
    }
    card->step = pattern.stage - 1;
    if (card->patterns.empty() || card->patterns.back() != pattern.id) {
      card->patterns.push_back(pattern.id);
    }
    card->is_new = card->is_new || pattern.is_new;
    const auto known =
        std::ranges::find(card->says, said.phonemes, &DeckCard::Says::sound);
    if (known != card->says.end()) {
      if (known->word.empty()) known->word = key_word(pattern.id, unit, said);
      return;
    }
    card->says.push_back({said.phonemes, key_word(pattern.id, unit, said)});
  }

  bool can_be_read(const Reading& reading) const {
    return lesson_.taught.is_decodable(reading);
  }

  static bool has(const Reading& reading, const TaughtUnit& unit) {
    return std::ranges::any_of(
        reading.units, [&](const Unit& own) { return unit.covers(own); });
  }

  // This week's key word; else the best word that can be read.
  std::string key_word(PatternId id, const TaughtUnit& unit,
                       const Phonics::TaughtSound& said) const {
    for (std::size_t i = 0; i < lesson_.patterns.size(); ++i) {
      const int key = lesson_.key_words[i];
      if (lesson_.patterns[i].id != id || key < 0) continue;
      const Reading& reading =
          lesson_.words[static_cast<std::size_t>(key)].reading;
      if (has(reading, unit)) return reading.word;
    }
    for (const std::string& word : by_worth(id)) {
      if (is_good(word, unit)) return word;
    }
    return !said.word.empty() && is_good(said.word, unit) ? said.word : "";
  }

  bool is_good(const std::string& word, const TaughtUnit& unit) const {
    const auto reading =
        lesson_.phonics->first_reading(word, lesson_.conventions);
    return has(*reading, unit) && can_be_read(*reading);
  }

  // Words that may be the key word of a pattern: with a clear picture before
  // others, then those that children know first, of one beat and short; one
  // that stands on another card comes last of its kind.
  std::vector<std::string> by_worth(PatternId id) const {
    struct Candidate {
      std::array<int, 5> rank;
      const std::string* word;
    };
    std::vector<Candidate> candidates;
    for (const PatternWord& word :
         lesson_.phonics->pattern_words(id, lesson_.conventions)) {
      if (!word.info.everyday || word.info.name || word.readings ||
          !may_be_key_word(word.word)) {
        continue;
      }
      candidates.push_back(
          {{in_.pictures.is_clear(word.word) ? 0 : 1,
            is_used(word.word) ? 1 : 0, word.info.first && !word.later ? 0 : 1,
            word.syllables, word.phonemes},
           &word.word});
    }
    std::ranges::stable_sort(candidates, {}, &Candidate::rank);
    constexpr std::size_t kMost = 60;
    std::vector<std::string> words;
    for (const Candidate& candidate : candidates) {
      if (words.size() < kMost) words.push_back(*candidate.word);
    }
    return words;
  }

  bool is_used(const std::string& word) const {
    return std::ranges::any_of(cards_, [&](const DeckCard& card) {
      return std::ranges::find(card.says, word, &DeckCard::Says::word) !=
             card.says.end();
    });
  }

  const SheetInput& in_;
  const AnalyzedLesson& lesson_;
  std::vector<DeckCard> cards_;
};

}  // namespace

std::vector<DeckCard> deck_cards(const SheetInput& in) {
  return DeckMaker(in).make();
}

std::string why_no_deck(const SheetInput& in) {
  if (in.lesson.patterns.empty()) return "it teaches no pattern";
  if (!in.lesson.taught.known()) {
    return "nothing says what was taught; a sequence or `taught` does";
  }
  return deck_cards(in).empty() ? "no pattern taught so far is about a grapheme"
                                : "";
}

}  // namespace sheaf
