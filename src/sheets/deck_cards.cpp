#include "sheets/deck_cards.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include "phonics/key_word_fit.h"
#include "phonics/notation.h"
#include "sheets/word_parts.h"

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
    drop_wordless();
    return std::move(cards_);
  }

 private:
  void add(const TaughtPattern& pattern, const TaughtUnit& unit) {
    const auto said =
        lesson_.phonics->taught_sound(pattern.id, unit, lesson_.conventions);
    const std::string word = key_word(pattern, unit, said);
    if (const auto chunk = chunk_of(pattern.id, word, unit)) {
      add(pattern, chunk->grapheme, chunk->says.front());
      return;
    }
    add(pattern, unit.grapheme, {{said.phonemes}, word});
  }

  void add(const TaughtPattern& pattern, const std::string& grapheme,
           const DeckCard::Says& says) {
    auto card = std::ranges::find(cards_, grapheme, &DeckCard::grapheme);
    if (card == cards_.end()) {
      cards_.push_back({.grapheme = grapheme});
      card = cards_.end() - 1;
      const std::vector<Phoneme> usual = usual_sound(grapheme);
      if (!usual.empty() && usual != says.sounds.front()) {
        card->says.push_back({{usual}, usual_word(grapheme, usual)});
      }
    }
    card->step = pattern.stage - 1;
    if (card->patterns.empty() || card->patterns.back() != pattern.id) {
      card->patterns.push_back(pattern.id);
    }
    card->is_new = card->is_new || pattern.is_new;
    // The er of her and of sister are written alike and said alike.
    const auto known =
        std::ranges::find_if(card->says, [&](const DeckCard::Says& other) {
          return sounds_said(lesson_, other) == sounds_said(lesson_, says);
        });
    if (known == card->says.end()) {
      card->says.push_back(says);
    } else if (known->word.empty()) {
      known->word = says.word;
    }
  }

  // A sound that no word shows by now helps nobody beside one that has a word.
  void drop_wordless() {
    for (DeckCard& card : cards_) {
      const auto wordless = [](const DeckCard::Says& says) {
        return says.word.empty();
      };
      if (std::ranges::all_of(card.says, wordless)) continue;
      std::erase_if(card.says, wordless);
    }
  }

  // Letters that a pattern is called by and that are read as one thing, of
  // which it teaches only some: nk, tion, able. They stand on one card, as the
  // key word has them; nothing where it has none of that.
  std::optional<DeckCard> chunk_of(PatternId id, const std::string& word,
                                   const TaughtUnit& unit) const {
    const Pattern& pattern = lesson_.phonics->patterns()[id];
    const std::string name(pattern.id);
    const std::size_t at = word.find(name);
    const bool is_taught = std::ranges::any_of(
        pattern.teaches,
        [&](const TaughtUnit& own) { return own.grapheme == name; });
    if (is_taught || at == std::string::npos) return std::nullopt;
    const auto reading =
        lesson_.phonics->first_reading(word, lesson_.conventions);
    DeckCard chunk{.grapheme = name, .says = {{{}, word}}};
    std::size_t end = at;
    bool covered = false;
    for (const Unit& own : reading->units) {
      if (own.begin < at || own.begin >= at + name.size()) continue;
      if (own.begin != end || own.is_split()) return std::nullopt;
      end = own.end;
      covered = covered || unit.covers(own);
      chunk.says.front().sounds.push_back(own.phonemes);
    }
    if (!covered || end != at + name.size()) return std::nullopt;
    return chunk;
  }

  bool can_be_read(const Reading& reading) const {
    return lesson_.taught.is_decodable(reading);
  }

  static bool has(const Reading& reading, const TaughtUnit& unit) {
    return std::ranges::any_of(
        reading.units, [&](const Unit& own) { return unit.covers(own); });
  }

  // That of the week where it is new; then that of the sequence, of this week
  // for others, and the best word that can be read.
  std::string key_word(const TaughtPattern& pattern, const TaughtUnit& unit,
                       const Phonics::TaughtSound& said) const {
    const std::string of_week = key_of_week(pattern.id, unit);
    if (pattern.is_new && !of_week.empty()) return of_week;
    for (const std::string& word : lesson_.taught.key_words(pattern.stage)) {
      const auto reading =
          lesson_.phonics->first_reading(word, lesson_.conventions);
      if (reading && reading->find(pattern.id) != nullptr &&
          has(*reading, unit)) {
        return word;
      }
    }
    if (!of_week.empty()) return of_week;
    for (const std::string& word : by_worth(pattern.id, unit.grapheme)) {
      if (is_good(word, unit)) return word;
    }
    return !said.word.empty() && is_good(said.word, unit) ? said.word : "";
  }

  std::string key_of_week(PatternId id, const TaughtUnit& unit) const {
    for (std::size_t i = 0; i < lesson_.patterns.size(); ++i) {
      const int key = lesson_.key_words[i];
      if (lesson_.patterns[i].id != id || key < 0) continue;
      const Reading& reading =
          lesson_.words[static_cast<std::size_t>(key)].reading;
      if (has(reading, unit)) return reading.word;
    }
    return "";
  }

  bool is_good(const std::string& word, const TaughtUnit& unit) const {
    const auto reading =
        lesson_.phonics->first_reading(word, lesson_.conventions);
    return has(*reading, unit) && can_be_read(*reading);
  }

  // Words that may be the key word of a pattern: with a clear picture before
  // others, then with a sound that is heard plainly, the one by which teachers
  // know the pattern, those that children know first, of one beat, that begin
  // with the grapheme, with few letters that are no sound of their own, and
  // short; one that stands on another card comes last of its kind.
  std::vector<std::string> by_worth(PatternId id,
                                    std::string_view grapheme) const {
    struct Candidate {
      std::array<int, 9> rank;
      const std::string* word;
    };
    std::vector<Candidate> candidates;
    const std::string_view example = lesson_.phonics->patterns()[id].example;
    for (const PatternWord& word :
         lesson_.phonics->everyday_pattern_words(id, lesson_.conventions)) {
      if (word.info.name || word.readings || !may_be_key_word(word.word)) {
        continue;
      }
      candidates.push_back(
          {{in_.pictures.is_clear(word.word) ? 0 : 1,
            is_used(word.word) ? 1 : 0, word.later ? 1 : 0,
            word.word == example ? 0 : 1, word.info.first ? 0 : 1,
            word.syllables, word.word.starts_with(grapheme) ? 0 : 1,
            static_cast<int>(word.word.size()) - word.phonemes, word.phonemes},
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

  // The sequence's word that begins with a single consonant; else the best one
  // that can be read.
  std::string usual_word(const std::string& letter,
                         const std::vector<Phoneme>& sound) const {
    const auto begins = [&](const Reading& reading) {
      const Unit& first = reading.units.front();
      return first.grapheme == letter && first.phonemes == sound;
    };
    for (const std::string& word : lesson_.taught.key_words(0)) {
      const auto reading =
          lesson_.phonics->first_reading(word, lesson_.conventions);
      if (reading && begins(*reading)) return word;
    }
    std::array<int, 4> least = {};
    std::string best;
    lesson_.phonics->each_word(
        Phonics::kCommonList, lesson_.conventions,
        [&](const Reading& reading, const WordInfo& info) {
          if (!info.everyday && !info.first) return false;
          if (!info.first || info.name || !begins(reading) ||
              is_used(reading.word) || !can_be_read(reading)) {
            return true;
          }
          const std::array rank = {
              in_.pictures.is_clear(reading.word) ? 0 : 1, reading.syllables(),
              static_cast<int>(reading.word.size() - reading.units.size()),
              static_cast<int>(reading.units.size())};
          if (best.empty() || rank < least) {
            least = rank;
            best = reading.word;
          }
          return true;
        });
    return best;
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

std::string sounds_said(const AnalyzedLesson& lesson,
                        const DeckCard::Says& says) {
  std::string text;
  for (const auto& sound : says.sounds) {
    if (!text.empty()) text += " ";
    text += said(lesson, sound);
  }
  return text;
}

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
