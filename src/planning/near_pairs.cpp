#include "planning/near_pairs.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "base/shuffle.h"
#include "phonics/near_sounds.h"
#include "planning/short_words.h"
#include "planning/word_search.h"

namespace sheaf {

namespace {

// In the tenths of `ShortWord::cost`; judgements.
constexpr int kFarSound = 120;
constexpr int kNoPictures = 200;
constexpr int kOtherSpelling = 60;
constexpr int kNotReadable = 150;
constexpr int kNoContrast = 150;
constexpr int kSameSounds = 60;  // as a pair before: ship, chip; shop, chop

using PairSounds = std::vector<Phoneme>;

PairSounds sounds_without(const ShortWord& word, std::size_t hole) {
  PairSounds sounds;
  for (std::size_t i = 0; i < word.pieces.size(); ++i) {
    if (i == hole) continue;
    const auto& sound = word.pieces[i].sound;
    sounds.insert(sounds.end(), sound.begin(), sound.end());
  }
  return sounds;
}

struct PairFound {
  int cost = 0;
  std::uint64_t order = 0;
  const ShortWord* own = nullptr;
  const ShortWord* other = nullptr;
  SoundStep step;
};

class NearPairSearch {
 public:
  NearPairSearch(const AnalyzedLesson& lesson, const BlockList* blocked,
                 const WordTest& has_picture)
      : lesson_(lesson),
        has_picture_(has_picture),
        words_(short_words(lesson, blocked)) {}

  std::vector<NearPair> run(std::size_t count) {
    find_all();
    std::vector<NearPair> pairs;
    std::set<const ShortWord*> used;
    std::map<PairSounds, int> before;
    while (pairs.size() < count) {
      const PairFound* best = nullptr;
      std::pair<int, std::uint64_t> best_rank;
      for (const PairFound& pair : found_) {
        if (used.contains(pair.own) || used.contains(pair.other)) continue;
        const std::pair rank(
            pair.cost + kSameSounds * before[sounds_of_step(pair.step)],
            pair.order);
        if (best != nullptr && rank >= best_rank) continue;
        best = &pair;
        best_rank = rank;
      }
      if (best == nullptr) break;
      used.insert({best->own, best->other});
      ++before[sounds_of_step(best->step)];
      pairs.push_back({analyzed_word(lesson_, *best->own),
                       analyzed_word(lesson_, *best->other), best->step,
                       best->own->readable && best->other->readable});
    }
    return pairs;
  }

 private:
  static PairSounds sounds_of_step(const SoundStep& step) {
    PairSounds sounds = step.from.sound;
    sounds.insert(sounds.end(), step.to.sound.begin(), step.to.sound.end());
    return sounds;
  }

  void find_all() {
    std::map<std::pair<std::size_t, PairSounds>, std::vector<const ShortWord*>>
        holes;
    std::map<PairSounds, std::vector<const ShortWord*>> wholes;
    for (const ShortWord& word : words_) {
      wholes[sounds_without(word, word.pieces.size())].push_back(&word);
      for (std::size_t i = 0; i < word.pieces.size(); ++i) {
        holes[{i, sounds_without(word, i)}].push_back(&word);
      }
    }
    for (const ShortWord& own : words_) {
      if (!own.has_pattern) continue;
      const auto hits =
          find_hits(*own.reading, lesson_.patterns, *lesson_.phonics);
      for (std::size_t i = 0; i < own.pieces.size(); ++i) {
        const bool of_shape = is_of_shape(own, hits);
        if (!of_shape && !is_of_pattern(own, hits, i)) continue;
        for (const ShortWord* other : holes[{i, sounds_without(own, i)}]) {
          add_change(own, *other, i);
        }
        if (!of_shape) continue;
        const auto fewer = wholes.find(sounds_without(own, i));
        if (fewer == wholes.end()) continue;
        for (const ShortWord* other : fewer->second) add_fewer(own, *other, i);
      }
    }
  }

  // Whether none of its patterns is about one of its graphemes.
  bool is_of_shape(const ShortWord& own,
                   const std::vector<AnalyzedWord::Hit>& hits) const {
    for (std::size_t p = 0; p < hits.size(); ++p) {
      if (!hits[p].has) continue;
      const Pattern& pattern =
          lesson_.phonics->patterns()[lesson_.patterns[p].id];
      if (!pattern.teaches.empty()) return false;
    }
    return own.pieces.size() > 2;
  }

  // Whether piece `at` holds a unit of a pattern.
  static bool is_of_pattern(const ShortWord& own,
                            const std::vector<AnalyzedWord::Hit>& hits,
                            std::size_t at) {
    std::size_t piece = 0;
    for (const Sound& sound : own.reading->sounds) {
      if (sound.part > 0) continue;
      if (piece++ != at) continue;
      return std::ranges::any_of(hits, [&](const AnalyzedWord::Hit& hit) {
        return std::ranges::any_of(hit.units, [&](std::uint8_t unit) {
          return unit >= sound.unit && unit < sound.unit + sound.units;
        });
      });
    }
    return false;
  }

  void add_change(const ShortWord& own, const ShortWord& other,
                  std::size_t at) {
    const SoundPiece& from = own.pieces[at];
    const SoundPiece& to = other.pieces[at];
    // A vowel is never heard for a consonant.
    if (&own == &other || from.boxes != 1 || to.boxes != 1 ||
        own.pieces.size() != other.pieces.size() || is_heard_alike(from, to) ||
        is_vowel(from.sound.front()) != is_vowel(to.sound.front())) {
      return;
    }
    int cost = 0;
    if (from.sound.size() != 1 || to.sound.size() != 1 ||
        !are_near(from.sound.front(), to.sound.front())) {
      cost += kFarSound;
    }
    for (std::size_t i = 0; i < own.pieces.size(); ++i) {
      if (i == at) continue;
      if (own.pieces[i].sound != other.pieces[i].sound) return;
      if (own.pieces[i].grapheme != other.pieces[i].grapheme) {
        cost += kOtherSpelling;
      }
    }
    add(own, other, cost,
        {.kind = SoundStep::Kind::change,
         .at = at,
         .pieces = own.pieces.size(),
         .from = from,
         .to = to});
  }

  void add_fewer(const ShortWord& own, const ShortWord& other, std::size_t at) {
    if (own.pieces.size() != other.pieces.size() + 1) return;
    if (is_vowel(own.pieces[at].sound.front()) || own.pieces[at].boxes != 1 ||
        is_same_word(own.word(), other.word())) {
      return;
    }
    add(own, other, 0,
        {.kind = SoundStep::Kind::take,
         .at = at,
         .pieces = own.pieces.size(),
         .from = own.pieces[at],
         .to = {}});
  }

  void add(const ShortWord& own, const ShortWord& other, int cost,
           SoundStep step) {
    if (lesson_.patterns.size() > 1 && !other.has_pattern) cost += kNoContrast;
    if (other.has_pattern && is_one_pattern(own, other)) {
      // Both are words of the week, which tells nothing.
      if (lesson_.patterns.size() > 1) return;
      cost += kNoContrast;
    }
    if (!has_picture_(own.word()) || !has_picture_(other.word())) {
      cost += kNoPictures;
      if (!own.readable || !other.readable) cost += kNotReadable;
    }
    cost += own.cost + other.cost;
    found_.push_back(
        {cost, text_hash(own.word(), text_hash(other.word(), lesson_.seed)),
         &own, &other, std::move(step)});
  }

  bool is_one_pattern(const ShortWord& a, const ShortWord& b) const {
    const auto first =
        find_hits(*a.reading, lesson_.patterns, *lesson_.phonics);
    const auto second =
        find_hits(*b.reading, lesson_.patterns, *lesson_.phonics);
    for (std::size_t i = 0; i < first.size(); ++i) {
      if (first[i].has && second[i].has) return true;
    }
    return false;
  }

  const AnalyzedLesson& lesson_;
  const WordTest& has_picture_;
  std::vector<ShortWord> words_;
  std::vector<PairFound> found_;
};

}  // namespace

std::vector<NearPair> find_near_pairs(const AnalyzedLesson& lesson,
                                      const BlockList* blocked,
                                      const WordTest& has_picture,
                                      std::size_t count) {
  return NearPairSearch(lesson, blocked, has_picture).run(count);
}

}  // namespace sheaf
