#include "planning/near_pairs.h"

#include <algorithm>
#include <cstdint>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

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

// Sounds as a text, which is found sooner than a list of them.
void add_sounds(const std::vector<Phoneme>& sounds, std::string& text) {
  for (const Phoneme p : sounds) text += static_cast<char>(p);
}

std::string sounds_without(const ShortWord& word, std::size_t hole) {
  std::string sounds;
  for (std::size_t i = 0; i < word.pieces.size(); ++i) {
    if (i != hole) add_sounds(word.pieces[i].sound, sounds);
  }
  return sounds;
}

// The same, with which piece it is that is left out.
std::string with_hole(const ShortWord& word, std::size_t hole) {
  return static_cast<char>(hole) + sounds_without(word, hole);
}

struct PairFound {
  int cost = 0;
  std::uint64_t order = 0;
  const ShortWord* own = nullptr;
  const ShortWord* other = nullptr;
  BareStep step;
  std::size_t sounds = 0;  // a number for those that differ

  // With the pieces that differ.
  SoundStep whole_step() const {
    SoundStep whole{.kind = step.kind, .at = step.at, .pieces = step.pieces};
    whole.from = own->pieces[step.at];
    if (step.kind == SoundStep::Kind::change) whole.to = other->pieces[step.at];
    return whole;
  }
};

class NearPairSearch {
 public:
  NearPairSearch(const AnalyzedLesson& lesson, const BlockList* blocked,
                 const WordTest& has_picture)
      : lesson_(lesson),
        has_picture_(has_picture),
        words_(short_words(lesson, blocked)) {
    for (const ShortWord& word : words_) {
      hits_.push_back(
          word.has_pattern
              ? find_hits(*word.reading, lesson.patterns, *lesson.phonics)
              : std::vector<AnalyzedWord::Hit>());
    }
  }

  std::vector<NearPair> run(std::size_t count) {
    find_all();
    std::vector<NearPair> pairs;
    std::vector<bool> used(words_.size());
    std::vector<int> before(sound_numbers_.size());
    while (pairs.size() < count) {
      const PairFound* best = nullptr;
      std::pair<int, std::uint64_t> best_rank;
      for (const PairFound& pair : found_) {
        if (used[place_of(*pair.own)] || used[place_of(*pair.other)]) continue;
        const std::pair rank(pair.cost + kSameSounds * before[pair.sounds],
                             pair.order);
        if (best != nullptr && rank >= best_rank) continue;
        best = &pair;
        best_rank = rank;
      }
      if (best == nullptr) break;
      used[place_of(*best->own)] = used[place_of(*best->other)] = true;
      ++before[best->sounds];
      pairs.push_back({analyzed_word(lesson_, *best->own),
                       analyzed_word(lesson_, *best->other), best->whole_step(),
                       best->own->readable && best->other->readable});
    }
    return pairs;
  }

 private:
  std::size_t place_of(const ShortWord& word) const {
    return static_cast<std::size_t>(&word - words_.data());
  }

  void find_all() {
    std::unordered_map<std::string, std::vector<const ShortWord*>> holes,
        wholes;
    for (const ShortWord& word : words_) {
      wholes[sounds_without(word, word.pieces.size())].push_back(&word);
      for (std::size_t i = 0; i < word.pieces.size(); ++i) {
        holes[with_hole(word, i)].push_back(&word);
      }
    }
    for (const ShortWord& own : words_) {
      if (!own.has_pattern) continue;
      const auto& hits = hits_[place_of(own)];
      for (std::size_t i = 0; i < own.pieces.size(); ++i) {
        const bool of_shape = is_of_shape(own, hits);
        if (!of_shape && !is_of_pattern(own, hits, i)) continue;
        for (const ShortWord* other : holes[with_hole(own, i)]) {
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
    add(own, other, cost, {SoundStep::Kind::change, at, own.pieces.size()});
  }

  void add_fewer(const ShortWord& own, const ShortWord& other, std::size_t at) {
    if (own.pieces.size() != other.pieces.size() + 1) return;
    if (is_vowel(own.pieces[at].sound.front()) || own.pieces[at].boxes != 1 ||
        is_same_word(own.word(), other.word())) {
      return;
    }
    add(own, other, 0, {SoundStep::Kind::take, at, own.pieces.size()});
  }

  void add(const ShortWord& own, const ShortWord& other, int cost,
           const BareStep& step) {
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
    std::string differ;
    add_sounds(own.pieces[step.at].sound, differ);
    if (step.kind == SoundStep::Kind::change) {
      add_sounds(other.pieces[step.at].sound, differ);
    }
    const std::size_t sounds =
        sound_numbers_.try_emplace(std::move(differ), sound_numbers_.size())
            .first->second;
    found_.push_back(
        {cost, text_hash(own.word(), text_hash(other.word(), lesson_.seed)),
         &own, &other, step, sounds});
  }

  bool is_one_pattern(const ShortWord& a, const ShortWord& b) const {
    const auto& first = hits_[place_of(a)];
    const auto& second = hits_[place_of(b)];
    for (std::size_t i = 0; i < first.size(); ++i) {
      if (first[i].has && second[i].has) return true;
    }
    return false;
  }

  const AnalyzedLesson& lesson_;
  const WordTest& has_picture_;
  std::vector<ShortWord> words_;
  std::vector<std::vector<AnalyzedWord::Hit>> hits_;  // of each word
  std::vector<PairFound> found_;
  std::unordered_map<std::string, std::size_t> sound_numbers_;
};

}  // namespace

std::vector<NearPair> find_near_pairs(const AnalyzedLesson& lesson,
                                      const BlockList* blocked,
                                      const WordTest& has_picture,
                                      std::size_t count) {
  return NearPairSearch(lesson, blocked, has_picture).run(count);
}

}  // namespace sheaf
