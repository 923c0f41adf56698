#include "planning/short_words.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <set>
#include <string_view>
#include <unordered_set>
#include <utility>

#include "base/shuffle.h"
#include "phonics/inventory.h"
#include "phonics/lexicon.h"
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

bool is_plain_team(std::string_view grapheme) {
  constexpr std::array<std::string_view, 11> kPlain = {
      "sh", "ch", "th", "ck", "ng", "ff", "ll", "ss", "zz", "tch", "qu"};
  return std::ranges::find(kPlain, grapheme) != kPlain.end();
}

bool is_plain_unit(const Unit& unit) {
  if (unit.irregular) return false;
  if (has_vowel(unit)) return is_plain_short_vowel(unit);
  return unit.grapheme.size() == 1 || is_plain_team(unit.grapheme);
}

bool is_readable(const AnalyzedLesson& lesson, const Reading& reading,
                 const std::vector<AnalyzedWord::Hit>& hits) {
  if (!lesson.taught.is_decodable(reading)) return false;
  if (lesson.taught.known()) return true;
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    const bool of_pattern =
        std::ranges::any_of(hits, [&](const AnalyzedWord::Hit& hit) {
          return std::ranges::find(hit.units, i) != hit.units.end();
        });
    if (!of_pattern && !is_plain_unit(reading.units[i])) return false;
  }
  return true;
}

class ShortWordCollector {
 public:
  ShortWordCollector(const AnalyzedLesson& lesson, const BlockList* blocked,
                     bool only_readable)
      : lesson_(lesson),
        phonics_(*lesson.phonics),
        blocked_(blocked),
        only_readable_(only_readable) {}

  std::vector<ShortWord> run() {
    std::set<std::string_view> own;
    for (const AnalyzedWord& word : lesson_.words) {
      if (word.standing.kind == WordStanding::Kind::not_yet) continue;
      own.insert(word.reading.word);
    }
    find_of_pattern();
    std::vector<ShortWord> words;
    // Each everyday word has some pattern: that of its vowel at least.
    for (const EverydayWord& word :
         phonics_.everyday_words(lesson_.conventions)) {
      if (!is_short(word)) continue;
      const bool is_own = own.erase(word.word) > 0;
      const bool of_pattern = of_pattern_.contains(word.word);
      if ((word.unsure || word.readings) && !is_own) continue;
      if (only_readable_ && !is_own && !of_pattern && !has_own_pattern_ &&
          !may_be_readable(word)) {
        continue;
      }
      add(word.word,
          {.own = is_own,
           .of_pattern = of_pattern,
           .first = word.info.first,
           .coloured = word.later},
          words);
    }
    for (const std::string_view word : own) {
      add(std::string(word), {.own = true}, words);
    }
    return in_order(std::move(words));
  }

 private:
  struct Listed {
    bool own = false;
    bool of_pattern = false;
    bool first = false;
    bool coloured = false;
  };

  static bool is_short(const EverydayWord& word) {
    return word.syllables == 1 && !word.info.name && !word.info.british &&
           word.phonemes <= static_cast<int>(kMostSounds) + 1;
  }

  // Whether each of its graphemes may have been taught with some sound. It
  // spares most words a reading.
  bool may_be_readable(const EverydayWord& word) {
    const Inventory& inventory = phonics_.lexicon().inventory();
    readable_.resize(inventory.all().size(), Known::unasked);
    return std::ranges::all_of(word.correspondences, [&](std::uint16_t id) {
      Known& known = readable_[id];
      if (known == Known::unasked) {
        const std::string_view grapheme = inventory[id].grapheme();
        const bool may = lesson_.taught.known()
                             ? lesson_.taught.may_be_taught(grapheme)
                             : grapheme.size() == 1 || is_plain_team(grapheme);
        known = may ? Known::yes : Known::no;
      }
      return known == Known::yes;
    });
  }

  void find_of_pattern() {
    for (const LessonPattern& pattern : lesson_.patterns) {
      has_own_pattern_ |= phonics_.patterns()[pattern.id].example.empty();
      for (const PatternWord& word :
           phonics_.everyday_pattern_words(pattern.id, lesson_.conventions)) {
        of_pattern_.insert(word.word);
      }
    }
  }

  std::vector<ShortWord> in_order(std::vector<ShortWord> words) const {
    struct Rank {
      int cost;
      std::uint64_t order;
      std::size_t word;
      auto operator<=>(const Rank&) const = default;
    };
    std::vector<Rank> ranks;
    for (std::size_t i = 0; i < words.size(); ++i) {
      ranks.push_back(
          {words[i].cost, text_hash(words[i].word(), lesson_.seed), i});
    }
    std::ranges::sort(ranks);
    std::vector<ShortWord> ordered;
    for (const Rank& rank : ranks) {
      ordered.push_back(std::move(words[rank.word]));
    }
    return ordered;
  }

  bool is_suitable(const std::string& word) const {
    return std::ranges::all_of(word,
                               [](char c) { return c >= 'a' && c <= 'z'; }) &&
           !BlockList::shipped().blocks(word) &&
           (blocked_ == nullptr || !blocked_->blocks(word));
  }

  void add(const std::string& spelling, const Listed& listed,
           std::vector<ShortWord>& words) const {
    auto units = phonics_.first_units(spelling, lesson_.conventions);
    if (units->syllables() != 1 || units->sounds.size() < kFewestSounds) return;
    if (std::ranges::any_of(units->units, &Unit::irregular)) return;
    ShortWord word;
    const bool told =
        listed.of_pattern || lesson_.taught.may_be_decodable(*units);
    if (only_readable_ && !told) return;
    if (told && may_need_patterns(listed, *units)) {
      word = short_word(lesson_,
                        phonics_.first_reading(spelling, lesson_.conventions));
    } else {
      word.readable = told && is_readable(lesson_, *units, {});
      if (only_readable_ && !word.readable) return;
      word.pieces = sound_pieces(*units);
      word.reading = std::move(units);
    }
    if (only_readable_ && !word.readable) return;
    if (word.pieces.size() > kMostSounds || !is_suitable(spelling)) return;
    word.told = told;
    word.own = listed.own;
    word.cost = cost_of(word, listed);
    words.push_back(std::move(word));
  }

  // Looking for a word's patterns takes longer than all else. It can have those
  // of the lesson only where the index says so, which knows the common words
  // and the patterns that come with Sheaf; and the others count only where a
  // dropped e is all that makes it readable.
  bool may_need_patterns(const Listed& listed, const Reading& units) const {
    return listed.of_pattern || listed.own || has_own_pattern_ ||
           !lesson_.taught.is_decodable(units);
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
  bool only_readable_;
  std::unordered_set<std::string_view> of_pattern_;
  bool has_own_pattern_ = false;  // none of the catalogue's
  enum class Known : std::uint8_t { unasked, no, yes };
  std::vector<Known> readable_;  // by correspondence
};

}  // namespace

std::vector<ShortWord> short_words(const AnalyzedLesson& lesson,
                                   const BlockList* blocked) {
  return ShortWordCollector(lesson, blocked, false).run();
}

std::vector<ShortWord> readable_short_words(const AnalyzedLesson& lesson,
                                            const BlockList* blocked) {
  return ShortWordCollector(lesson, blocked, true).run();
}

ShortWord short_word(const AnalyzedLesson& lesson,
                     std::shared_ptr<const Reading> reading) {
  ShortWord word;
  const auto hits = find_hits(*reading, lesson.patterns, *lesson.phonics);
  word.has_pattern = std::ranges::any_of(hits, &AnalyzedWord::Hit::has);
  word.readable = is_readable(lesson, *reading, hits);
  word.told = true;
  word.pieces = sound_pieces(*reading);
  word.reading = std::move(reading);
  return word;
}

AnalyzedWord analyzed_word(const AnalyzedLesson& lesson,
                           const ShortWord& word) {
  AnalyzedWord result;
  result.spelling.value = word.word();
  result.reading = word.told ? *lesson.phonics->first_reading(
                                   word.word(), lesson.conventions)
                             : *word.reading;
  result.hits = find_hits(result.reading, lesson.patterns, *lesson.phonics);
  result.standing = lesson.taught.standing(result.reading);
  return result;
}

}  // namespace sheaf
