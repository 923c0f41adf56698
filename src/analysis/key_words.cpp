#include "analysis/key_words.h"

#include <algorithm>
#include <tuple>

#include "phonics/alike.h"
#include "phonics/key_word_fit.h"

namespace sheaf {

namespace {

using Said = std::vector<Phoneme>;

// What a word says where it first shows a pattern; nothing where the pattern is
// about the word as a whole.
const Said* first_sound(const AnalyzedWord& word, std::size_t pattern) {
  const auto& units = word.hits[pattern].units;
  return units.empty() ? nullptr : &word.reading.units[units.front()].phonemes;
}

// How well words stand for one pattern.
class KeyChoice {
 public:
  KeyChoice(const std::vector<LessonPattern>& patterns, std::size_t pattern,
            const std::vector<AnalyzedWord>& words, const Phonics& phonics,
            const PictureTest& pictures)
      : id_(patterns[pattern].id),
        pattern_(pattern),
        words_(words),
        phonics_(phonics),
        pictures_(pictures) {
    for (const AnalyzedWord& word : words) {
      if (const Said* sound = first_sound(word, pattern)) {
        ++count_of(*sound);
        ++said_;
      }
    }
  }

  int best() {
    int best = -1;
    Rank best_rank;
    for (std::size_t i = 0; i < words_.size(); ++i) {
      if (!words_[i].hits[pattern_].has) continue;
      const Rank rank = rank_of(words_[i]);
      if (best >= 0 && best_rank <= rank) continue;
      best = static_cast<int>(i);
      best_rank = rank;
    }
    return best;
  }

 private:
  // The best least.
  using Rank = std::tuple<bool, bool, bool, bool, bool, std::ptrdiff_t, bool,
                          bool, bool>;

  int& count_of(const Said& sound) {
    for (auto& [known, count] : counts_) {
      if (is_one_sound(known, sound)) return count;
    }
    return counts_.emplace_back(sound, 0).second;
  }

  // Whether most of the list says so, or no sound is that of most.
  bool is_usual(const Said& sound) {
    const auto is_of_most = [&](int count) { return 3 * count >= 2 * said_; };
    return is_of_most(count_of(sound)) ||
           std::ranges::none_of(counts_, [&](const auto& counted) {
             return is_of_most(counted.second);
           });
  }

  Rank rank_of(const AnalyzedWord& word) {
    const std::string& text = word.spelling.value;
    // A vowel that its neighbour colours does not show the sound, and a word
    // with two patterns of the lesson does not part them.
    const PatternPlace* place = word.reading.find(id_);
    const auto patterns = std::ranges::count_if(
        word.hits, [](const AnalyzedWord::Hit& hit) { return hit.has; });
    const auto info = phonics_.info(word.reading.word);
    const bool common =
        info && info->tier > 0 && info->tier <= Phonics::kCommonList;
    const Said* sound = first_sound(word, pattern_);
    return {!may_be_key_word(word.reading.word),
            !pictures_.any(text),
            word.reading.origin == Reading::Origin::guess,
            !pictures_.clear(text),
            place != nullptr && place->later,
            patterns,
            !(info && info->everyday),
            !common,
            sound != nullptr && !is_usual(*sound)};
  }

  PatternId id_;
  std::size_t pattern_;
  const std::vector<AnalyzedWord>& words_;
  const Phonics& phonics_;
  const PictureTest& pictures_;
  /// How many words say which sound.
  std::vector<std::pair<Said, int>> counts_;
  int said_ = 0;
};

// What to print on a sound card: the graphemes by which the list shows the
// pattern, and what that of the key word says there. A pattern of several
// sounds (pp, rr) has no other sound to name with its key word.
void describe_pattern(LessonPattern& pattern, std::size_t index,
                      const std::vector<AnalyzedWord>& words, int key) {
  struct Spelling {
    std::string grapheme;
    int count = 0;
    bool alike = true;
  };
  std::vector<Spelling> spellings;
  const auto units_of = [&](const AnalyzedWord& word, const auto& call) {
    for (const std::uint8_t unit : word.hits[index].units) {
      const Unit& u = word.reading.units[unit];
      auto place =
          std::ranges::find(spellings, u.grapheme, &Spelling::grapheme);
      if (place == spellings.end()) {
        place = spellings.insert(place, {u.grapheme});
      }
      call(u, *place);
    }
  };
  std::string first;
  if (key >= 0) {
    units_of(words[static_cast<std::size_t>(key)],
             [&](const Unit& unit, const Spelling&) {
               if (!first.empty()) return;
               first = unit.grapheme;
               pattern.sound = unit.phonemes;
             });
  }
  int alike = 0, all = 0;
  for (const AnalyzedWord& word : words) {
    units_of(word, [&](const Unit& unit, Spelling& spelling) {
      const bool same = is_one_sound(unit.phonemes, pattern.sound);
      ++spelling.count;
      spelling.alike &= same;
      ++all;
      alike += same ? 1 : 0;
    });
  }
  pattern.one_sound = 2 * alike >= all && all > 0;
  std::ranges::stable_sort(spellings, [&](const auto& a, const auto& b) {
    const bool one = a.grapheme == first, other = b.grapheme == first;
    return one != other ? one : a.count > b.count;
  });
  for (Spelling& spelling : spellings) {
    if (spelling.alike) pattern.alike.push_back(spelling.grapheme);
    pattern.graphemes.push_back(std::move(spelling.grapheme));
  }
}

}  // namespace

std::vector<int> likeliest_key_words(const std::vector<LessonPattern>& patterns,
                                     const std::vector<AnalyzedWord>& words,
                                     const Phonics& phonics,
                                     const PictureTest& pictures) {
  std::vector<int> keys;
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    keys.push_back(KeyChoice(patterns, i, words, phonics, pictures).best());
  }
  return keys;
}

void describe_patterns(std::vector<LessonPattern>& patterns,
                       const std::vector<AnalyzedWord>& words,
                       const std::vector<int>& key_words) {
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    describe_pattern(patterns[i], i, words, key_words[i]);
  }
}

}  // namespace sheaf
