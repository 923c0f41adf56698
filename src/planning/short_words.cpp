#include "planning/short_words.h"

#include <algorithm>
#include <array>
#include <map>
#include <string_view>
#include <tuple>

#include "base/shuffle.h"
#include "phonics/word_facts.h"

namespace sheaf {

namespace {

constexpr std::size_t kFewestSounds = 2;
constexpr std::size_t kMostSounds = 5;
// Judgements, made by reading what was found for some thirty patterns.
constexpr int kShortFirst = 30;
constexpr int kShortEveryday = 90;
constexpr int kShortLongGrapheme = 10;
constexpr int kShortColoured = 40;
constexpr int kShortEnding = 50;
constexpr int kShortPieceMore = 10;  // beyond three
constexpr std::uint64_t kShortShake = 30;

bool is_plain_unit(const Unit& unit) {
  constexpr std::array<std::string_view, 11> kPlain = {
      "sh", "ch", "th", "ck", "ng", "ff", "ll", "ss", "zz", "tch", "qu"};
  if (unit.irregular) return false;
  if (has_vowel(unit)) return is_plain_short_vowel(unit);
  return unit.grapheme.size() == 1 ||
         std::ranges::find(kPlain, unit.grapheme) != kPlain.end();
}

class ShortWordCollector {
 public:
  ShortWordCollector(const AnalyzedLesson& lesson, const BlockList* blocked)
      : lesson_(lesson), phonics_(*lesson.phonics), blocked_(blocked) {}

  std::vector<ShortWord> run() {
    for (const AnalyzedWord& word : lesson_.words) {
      if (word.standing.kind == WordStanding::Kind::not_yet) continue;
      listed_.emplace(word.reading.word, Listed{.own = true});
    }
    list_everyday();
    std::vector<ShortWord> words;
    for (const auto& [spelling, listed] : listed_) {
      if (!listed.unfit) add(spelling, listed, words);
    }
    const auto order = [&](const ShortWord& w) {
      return std::tuple(w.cost, text_hash(w.word(), lesson_.seed));
    };
    std::ranges::sort(words, {}, order);
    return words;
  }

 private:
  struct Listed {
    bool own = false;
    bool of_pattern = false;
    bool first = false;
    bool coloured = false;
    bool unfit = false;
  };

  // Each everyday word has some pattern: that of its vowel at least.
  void list_everyday() {
    for (const Pattern& pattern : phonics_.patterns().all()) {
      const PatternId id = phonics_.patterns().id_of(pattern);
      const bool of_pattern =
          std::ranges::find(lesson_.patterns, id, &LessonPattern::id) !=
          lesson_.patterns.end();
      for (const PatternWord& word :
           phonics_.pattern_words(id, lesson_.conventions)) {
        if (!word.info.everyday || word.syllables != 1 || word.info.name ||
            word.info.british ||
            word.phonemes > static_cast<int>(kMostSounds) + 1) {
          continue;
        }
        Listed& listed = listed_[word.word];
        listed.of_pattern |= of_pattern;
        listed.first |= word.info.first;
        listed.coloured |= word.later;
        listed.unfit |= (word.unsure || word.readings) && !listed.own;
      }
    }
  }

  bool is_suitable(const std::string& word) const {
    return std::ranges::all_of(word,
                               [](char c) { return c >= 'a' && c <= 'z'; }) &&
           !BlockList::shipped().blocks(word) &&
           (blocked_ == nullptr || !blocked_->blocks(word));
  }

  void add(const std::string& spelling, const Listed& listed,
           std::vector<ShortWord>& words) const {
    if (!is_suitable(spelling)) return;
    auto units = phonics_.first_units(spelling, lesson_.conventions);
    if (units->syllables() != 1 || units->sounds.size() < kFewestSounds) return;
    if (std::ranges::any_of(units->units, &Unit::irregular)) return;
    ShortWord word;
    if (listed.of_pattern || lesson_.taught.may_be_decodable(*units)) {
      word = short_word(lesson_,
                        phonics_.first_reading(spelling, lesson_.conventions));
    } else {
      word.reading = std::move(units);
      word.pieces = sound_pieces(*word.reading);
    }
    if (word.pieces.size() > kMostSounds) return;
    word.own = listed.own;
    word.cost = cost_of(word, listed);
    words.push_back(std::move(word));
  }

  int cost_of(const ShortWord& word, const Listed& listed) const {
    int cost = listed.own ? 0 : listed.first ? kShortFirst : kShortEveryday;
    for (const Unit& unit : word.reading->units) {
      if (!is_plain_unit(unit)) cost += kShortLongGrapheme;
    }
    if (listed.coloured && !listed.own) cost += kShortColoured;
    if (word.pieces.size() > 3) {
      cost += kShortPieceMore * static_cast<int>(word.pieces.size() - 3);
    }
    if (!listed.own && has_ending(word)) cost += kShortEnding;
    return cost +
           static_cast<int>(text_hash(word.word(), lesson_.seed) % kShortShake);
  }

  bool has_ending(const ShortWord& word) const {
    return word.readable &&
           phonics_.outer_ending(word.word(), lesson_.conventions);
  }

  const AnalyzedLesson& lesson_;
  const Phonics& phonics_;
  const BlockList* blocked_;
  std::map<std::string, Listed> listed_;
};

}  // namespace

std::vector<ShortWord> short_words(const AnalyzedLesson& lesson,
                                   const BlockList* blocked) {
  return ShortWordCollector(lesson, blocked).run();
}

ShortWord short_word(const AnalyzedLesson& lesson,
                     std::shared_ptr<const Reading> reading) {
  ShortWord word;
  const auto hits = find_hits(*reading, lesson.patterns, *lesson.phonics);
  word.has_pattern = std::ranges::any_of(hits, &AnalyzedWord::Hit::has);
  word.readable = lesson.taught.is_decodable(*reading);
  if (word.readable && !lesson.taught.known()) {
    for (std::size_t i = 0; i < reading->units.size(); ++i) {
      const bool of_pattern =
          std::ranges::any_of(hits, [&](const AnalyzedWord::Hit& hit) {
            return std::ranges::find(hit.units, i) != hit.units.end();
          });
      word.readable &= of_pattern || is_plain_unit(reading->units[i]);
    }
  }
  word.pieces = sound_pieces(*reading);
  word.reading = std::move(reading);
  return word;
}

AnalyzedWord analyzed_word(const AnalyzedLesson& lesson,
                           const ShortWord& word) {
  AnalyzedWord result;
  result.spelling.value = word.word();
  result.reading = *word.reading;
  result.hits = find_hits(result.reading, lesson.patterns, *lesson.phonics);
  result.standing = lesson.taught.standing(result.reading);
  return result;
}

}  // namespace sheaf
