#include "analysis/warm_up.h"

#include <algorithm>

#include "analysis/pattern_names.h"
#include "base/shuffle.h"

namespace sheaf {

namespace {

class WarmUpMaker {
 public:
  explicit WarmUpMaker(const AnalyzedLesson& lesson) : lesson_(lesson) {
    const Taught& taught = lesson.taught;
    for (const int step : taught.due_steps()) add_step(step);
    // What was taught last is most in need of practice.
    for (int step = taught.step() - 1; step >= 0; --step) add_step(step);
    Diagnostics unheard;  // they were looked up before
    const auto named =
        find_patterns(lesson.lesson->taught, *lesson.phonics, unheard);
    for (auto name = named.rbegin(); name != named.rend(); ++name) {
      add_pattern(name->id);
    }
  }

  WarmUp make(std::span<const AnalyzedWord> review_words) {
    for (const AnalyzedWord& word : review_words) add_word(word);
    add_graphemes(review_words);
    add_taught_words();
    add_graphemes(std::vector(warm_up_.words));
    add_sounds();
    Random random(text_hash("warm-up", lesson_.seed));
    shuffle(warm_up_.to_hear, random);
    return std::move(warm_up_);
  }

 private:
  void add_step(int step) {
    for (const PatternId id : lesson_.taught.patterns_of(step)) add_pattern(id);
  }

  // Each once, and none of this week's.
  void add_pattern(PatternId id) {
    const bool own =
        std::ranges::find(lesson_.patterns, id, &LessonPattern::id) !=
        lesson_.patterns.end();
    if (!own && std::ranges::find(taught_, id) == taught_.end()) {
      taught_.push_back(id);
    }
  }

  bool is_full() const { return warm_up_.to_say.size() >= kWarmUpGraphemes; }

  bool has_item(const std::string& grapheme) const {
    return std::ranges::find(warm_up_.to_say, grapheme,
                             &WarmUp::Item::grapheme) != warm_up_.to_say.end();
  }

  // What a pattern teaches, as a word says it in this accent; where no word
  // does, what another word says with the same grapheme.
  void add_taught(PatternId pattern, const TaughtUnit& taught) {
    if (is_full() || has_item(taught.grapheme)) return;
    const Phonics& phonics = *lesson_.phonics;
    auto said = phonics.taught_sound(pattern, taught, lesson_.conventions);
    for (const TaughtUnit& other : phonics.patterns()[pattern].teaches) {
      if (!said.word.empty()) break;
      if (other.grapheme != taught.grapheme) continue;
      auto next = phonics.taught_sound(pattern, other, lesson_.conventions);
      if (!next.word.empty()) said = std::move(next);
    }
    warm_up_.to_say.push_back(
        {taught.grapheme, std::move(said.phonemes), std::move(said.word)});
  }

  void add_word(const AnalyzedWord& word) {
    const bool known =
        std::ranges::any_of(warm_up_.words, [&](const AnalyzedWord& other) {
          return other.reading.word == word.reading.word;
        });
    if (!known && warm_up_.words.size() < kWarmUpWords) {
      warm_up_.words.push_back(word);
    }
  }

  // Graphemes of several letters in the words to review, then those that the
  // patterns taught, the first of each before the second of any; single
  // letters of the words where there is room left.
  void add_graphemes(std::span<const AnalyzedWord> words) {
    const auto add_units = [&](bool single) {
      for (const AnalyzedWord& word : words) {
        for (const Unit& unit : word.reading.units) {
          if ((unit.grapheme.size() == 1) == single && !is_full() &&
              !has_item(unit.grapheme)) {
            warm_up_.to_say.push_back(
                {unit.grapheme, unit.phonemes, word.reading.word});
          }
        }
      }
    };
    add_units(false);
    for (std::size_t turn = 0; turn < kWarmUpGraphemes; ++turn) {
      for (const PatternId id : taught_) {
        const auto& teaches = lesson_.phonics->patterns()[id].teaches;
        if (turn < teaches.size()) add_taught(id, teaches[turn]);
      }
    }
    add_units(true);
  }

  // The sounds of the graphemes, each once: who hears /ay/ after ai, ay and a_e
  // cannot know which is meant, so all of them are right.
  void add_sounds() {
    for (const WarmUp::Item& item : warm_up_.to_say) {
      auto& hear = warm_up_.to_hear;
      auto sound = std::ranges::find(hear, item.sound, &WarmUp::Item::sound);
      if (sound == hear.end()) sound = hear.insert(hear.end(), item);
      add_spelling(item.grapheme, *sound);
    }
    for (const PatternId id : taught_) {
      for (const TaughtUnit& taught : lesson_.phonics->patterns()[id].teaches) {
        const auto said =
            lesson_.phonics->taught_sound(id, taught, lesson_.conventions);
        const auto sound = std::ranges::find(warm_up_.to_hear, said.phonemes,
                                             &WarmUp::Item::sound);
        if (sound == warm_up_.to_hear.end()) continue;
        add_spelling(taught.grapheme, *sound);
      }
    }
  }

  static void add_spelling(const std::string& grapheme, WarmUp::Item& sound) {
    auto& known = sound.spellings;
    if (std::ranges::find(known, grapheme) == known.end()) {
      known.push_back(grapheme);
    }
  }

  // Common words of the patterns, a word of each in turn, none of this week's.
  void add_taught_words() {
    constexpr std::size_t kPatterns = 8;
    std::vector<std::vector<std::string>> lists;
    for (const PatternId id : taught_) {
      if (lists.size() == kPatterns) break;
      lists.push_back(everyday_words(id));
    }
    for (bool found = true; found;) {
      found = false;
      for (auto& list : lists) {
        if (warm_up_.words.size() >= kWarmUpWords) return;
        found = add_first_fit(list) || found;
      }
    }
  }

  // Other ones each week, but the same each time that the week is printed;
  // those that children know first at the end, from where they are taken.
  std::vector<std::string> everyday_words(PatternId pattern) const {
    std::vector<std::string> words, first;
    for (const PatternWord& word : lesson_.phonics->everyday_pattern_words(
             pattern, lesson_.conventions)) {
      if (word.later || word.readings) continue;
      (word.info.first ? first : words).push_back(word.word);
    }
    Random random(
        text_hash(lesson_.phonics->patterns()[pattern].id, lesson_.seed));
    shuffle(words, random);
    shuffle(first, random);
    words.insert(words.end(), first.begin(), first.end());
    return words;
  }

  // The next word of a list, from its end, that can be read.
  bool add_first_fit(std::vector<std::string>& list) {
    while (!list.empty()) {
      AnalyzedWord word;
      word.spelling.value = std::move(list.back());
      list.pop_back();
      if (is_of_this_week(word.spelling.value)) continue;
      const auto reading = lesson_.phonics->first_reading(word.spelling.value,
                                                          lesson_.conventions);
      if (!lesson_.taught.is_decodable(*reading)) continue;
      word.reading = *reading;
      word.hits = find_hits(word.reading, lesson_.patterns, *lesson_.phonics);
      if (word.has_pattern()) continue;
      add_word(word);
      return true;
    }
    return false;
  }

  bool is_of_this_week(const std::string& word) const {
    return std::ranges::any_of(lesson_.words, [&](const AnalyzedWord& own) {
      return own.reading.word == word;
    });
  }

  const AnalyzedLesson& lesson_;
  std::vector<PatternId> taught_;
  WarmUp warm_up_;
};

}  // namespace

WarmUp warm_up_of(const AnalyzedLesson& lesson,
                  std::span<const AnalyzedWord> review_words) {
  return WarmUpMaker(lesson).make(review_words);
}

}  // namespace sheaf
