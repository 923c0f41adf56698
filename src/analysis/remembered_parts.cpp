#include "analysis/remembered_parts.h"

#include <algorithm>
#include <string_view>

#include "base/utf8.h"
#include "phonics/phonics.h"

namespace sheaf {

namespace {

// Single consonants are known from the start (see `Taught`). Common practice,
// no source.
constexpr std::string_view kUsual[] = {
    "short_a", "short_e",      "short_i",   "short_o",      "short_u",
    "s_z",     "plural_s",     "plural_z",  "final_double", "sh",
    "ch",      "th_voiceless", "th_voiced", "wh",           "ck",
    "ng",      "nk",           "qu",        "a_e",          "i_e",
    "o_e",     "u_e_oo",       "u_e_yoo",   "ee",           "ai",
    "ay",      "oa",           "ea_long",   "igh",          "ar",
    "or",      "er",           "oo_long",   "ow_ow"};

PlacedWord word_of(std::string_view text) {
  PlacedWord word;
  word.value = text;
  return word;
}

// As the lesson itself says it, where it parts the word by hand in a sentence;
// else as the word list does.
Reading reading_of(const AnalyzedLesson& lesson, const std::string& word) {
  const std::string small = lower_case(word);
  for (const AnalyzedSentence& sentence : lesson.sentences) {
    for (const AnalyzedSentence::Part& part : sentence.words) {
      const Reading& reading = part.word.reading;
      if (reading.origin == Reading::Origin::by_hand && reading.word == small) {
        return reading;
      }
    }
  }
  return *lesson.phonics->first_reading(word, lesson.conventions);
}

// Whether a grapheme was taught with this sound, in whatever word.
bool was_taught(const Taught& taught, std::string_view grapheme,
                const std::vector<Phoneme>& sound) {
  Reading alone;
  Unit unit;
  unit.grapheme = grapheme;
  unit.phonemes = sound;
  unit.listed = sound;
  alone.units.push_back(std::move(unit));
  return taught.is_taught(alone, 0);
}

// Two letters for the sound that one of them says, as the tt of pretty: no
// surprise for those who have met doubled letters, wherever they stand. The
// English national curriculum (2013, Appendix 1, p. 50) has rabbit and carrot
// to read beside ff, ll, ss and zz, before any rule on doubling.
bool is_expected_double(const Unit& unit, const Taught& taught) {
  constexpr std::string_view kVowels = "aeiou";
  const std::string& letters = unit.grapheme;
  if (letters.size() != 2 || letters[0] != letters[1] ||
      kVowels.find(letters[0]) != kVowels.npos) {
    return false;
  }
  const bool meets_doubles = was_taught(taught, "ff", {Phoneme::f}) ||
                             was_taught(taught, "ll", {Phoneme::l}) ||
                             was_taught(taught, "ss", {Phoneme::s}) ||
                             was_taught(taught, "zz", {Phoneme::z});
  return meets_doubles && was_taught(taught, letters.substr(0, 1), unit.listed);
}

// The r of our and hour, which is a beat of its own that no letter shows. The
// curriculum has both words as exceptions (pp. 54 and 58) though it teaches ou
// before them, so it is the end that has to be remembered.
bool is_r_behind_ou(const Reading& reading, std::size_t index) {
  const Unit& unit = reading.units[index];
  return index > 0 && unit.grapheme == "r" && unit.phonemes.size() == 1 &&
         unit.phonemes.front() != Phoneme::r &&
         reading.units[index - 1].grapheme.ends_with("ou");
}

class Collector {
 public:
  explicit Collector(const AnalyzedLesson& lesson)
      : lesson_(lesson), taught_(taught_or_usual(lesson)) {}

  void add(const PlacedWord& word, bool only_remembered) {
    // Steps have their words in small letters.
    const std::string text = word.value == "i" ? "I" : word.value;
    const auto same = [&](const RememberedWord& known) {
      return lower_case(known.word.reading.word) == lower_case(text);
    };
    if (!is_word(text) || std::ranges::any_of(words_, same)) return;
    RememberedWord found;
    found.word.spelling = word;
    found.word.reading = reading_of(lesson_, text);
    found.word.hits =
        find_hits(found.word.reading, lesson_.patterns, *lesson_.phonics);
    found.parts = parts_to_remember(found.word.reading, taught_);
    if (only_remembered && !found.any()) return;
    words_.push_back(std::move(found));
  }

  std::size_t size() const { return words_.size(); }
  std::vector<RememberedWord> take() { return std::move(words_); }

 private:
  const AnalyzedLesson& lesson_;
  Taught taught_;
  std::vector<RememberedWord> words_;
};

}  // namespace

bool RememberedWord::any() const {
  return std::ranges::find(parts, true) != parts.end();
}

bool RememberedWord::is_remembered(std::size_t byte) const {
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Unit& unit = word.reading.units[i];
    const bool own =
        (byte >= unit.begin && byte < unit.end) ||
        (unit.is_split() && byte == static_cast<std::size_t>(unit.split_e));
    if (own) return parts[i];
  }
  return false;
}

Taught taught_or_usual(const AnalyzedLesson& lesson) {
  if (lesson.taught.known()) return lesson.taught;
  SequenceFile usual;
  for (const std::string_view pattern : kUsual) {
    usual.taught.push_back(word_of(pattern));
  }
  for (const LessonPattern& pattern : lesson.patterns) {
    usual.taught.push_back(pattern.written);
  }
  Diagnostics unheard;  // the lesson's names were reported by its analysis
  return taught_at(usual, -1, *lesson.phonics, unheard);
}

std::vector<bool> parts_to_remember(const Reading& reading,
                                    const Taught& taught) {
  std::vector<bool> parts;
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    const Unit& unit = reading.units[i];
    parts.push_back(
        unit.irregular || is_r_behind_ou(reading, i) ||
        (!taught.is_taught(reading, i) && !is_expected_double(unit, taught)));
  }
  return parts;
}

RememberedWords remembered_words(const AnalyzedLesson& lesson) {
  Collector collector(lesson);
  for (const PlacedWord& word : lesson.lesson->sight_words) {
    collector.add(word, false);
  }
  const auto add_step = [&](int step, bool only_remembered) {
    const auto index = static_cast<std::size_t>(step);
    for (const std::string& word : lesson.taught.steps()[index].sight_words) {
      collector.add(word_of(word), only_remembered);
    }
  };
  RememberedWords found;
  if (lesson.taught.step() >= 0) add_step(lesson.taught.step(), false);
  found.recent = collector.size();
  for (int step = lesson.taught.step() - 1; step >= 0; --step) {
    add_step(step, true);
  }
  found.words = collector.take();
  return found;
}

}  // namespace sheaf
