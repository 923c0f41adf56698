#include "planning/pseudo_words.h"

#include <algorithm>
#include <tuple>

#include "base/shuffle.h"
#include "phonics/alike.h"
#include "phonics/word_facts.h"
#include "planning/pseudo_parts.h"
#include "planning/sound_groups.h"

namespace sheaf {

namespace {

// How often the part with the pattern comes for once that the other does.
constexpr int kOwnUses = 4;
constexpr int kRounds = 12;

// Two parts on their way to a word.
struct Made {
  /// Its rest stands in one everyday word only, or is said in several ways.
  int doubt = 0;
  std::uint64_t order = 0;
  const PseudoPart* onset = nullptr;
  const PseudoPart* rest = nullptr;
};

Reading join(const PseudoPart& onset, const PseudoPart& rest,
             const Speech& speech) {
  Reading reading;
  reading.word = onset.letters + rest.letters;
  reading.speech = speech;
  reading.units = onset.units;
  const int shift = static_cast<int>(onset.letters.size()) -
                    static_cast<int>(rest.units.front().begin);
  for (Unit unit : rest.units) {
    unit.begin = static_cast<std::uint8_t>(unit.begin + shift);
    unit.end = static_cast<std::uint8_t>(unit.end + shift);
    if (unit.is_split()) {
      unit.split_e = static_cast<std::int16_t>(unit.split_e + shift);
    }
    reading.units.push_back(std::move(unit));
  }
  for (Unit& unit : reading.units) {
    unit.syllable = 0;
    unit.stressed = true;
  }
  return reading;
}

class Maker {
 public:
  Maker(const SearchGround& source, PatternId pattern)
      : source_(source), pattern_(pattern), groups_(source.phonics) {}

  bool is_fit(const Reading& made) const {
    if (made.word.size() > kMostPseudoLetters || made.word.size() < 3)
      return false;
    const std::vector<Phoneme> sounds = listed_sounds(made.units);
    return groups_.is_english(sounds) && has_pattern(made) &&
           !source_.phonics.is_listed(made.word) &&
           !source_.phonics.is_said_like_a_word(sounds, source_.conventions) &&
           // telled is what learners write for told.
           source_.phonics.right_forms(made.word).empty() &&
           is_clean(BlockList::shipped(), made.word, sounds) &&
           (source_.blocked == nullptr ||
            is_clean(*source_.blocked, made.word, sounds)) &&
           is_read_so(made);
  }

  Speech speech() const { return speech_of(source_.conventions); }

  // Whether somebody who has never seen the word would part it and say it so:
  // what `sheaf word` says of it.
  bool is_read_so(const Reading& made) const {
    const Reading read =
        source_.phonics.read(made.word, source_.conventions).front();
    return std::ranges::equal(
        read.units, made.units, [](const Unit& a, const Unit& b) {
          return a.grapheme == b.grapheme && a.phonemes == b.phonemes;
        });
  }

 private:
  static bool is_clean(const BlockList& list, std::string_view word,
                       std::span<const Phoneme> sounds) {
    return !list.blocks_part_of(word, sounds) &&
           !list.is_near_rude(word, sounds);
  }

  bool has_pattern(const Reading& made) const {
    const Phonics& phonics = source_.phonics;
    const WordFacts facts =
        find_facts(made, map_letters(made.word), phonics.lexicon());
    return std::ranges::any_of(
        phonics.patterns().places_in(made, facts),
        [&](const PatternPlace& p) { return p.pattern == pattern_; });
  }

  const SearchGround& source_;
  PatternId pattern_;
  SoundGroups groups_;
};

std::vector<Made> all_pairs(const PseudoParts& parts) {
  std::vector<Made> all;
  for (const auto& [begin, onset] : parts.onsets) {
    for (const auto& [end, rest] : parts.rests) {
      if (!onset.has_pattern && !rest.has_pattern) continue;
      const bool both = onset.has_pattern && rest.has_pattern;
      if (both && !parts.of_word) continue;
      if (!can_join(onset, rest)) continue;
      // What the rest says may hang on what stands before it.
      if (rest.unsure && !parts.own_onsets.contains(begin)) continue;
      const int far = parts.of_word && !both ? 4 : 0;
      all.push_back({(rest.words < 2 ? 1 : 0) + (rest.unsure ? 2 : 0) + far,
                     text_hash(begin + end), &onset, &rest});
    }
  }
  std::ranges::stable_sort(all, [](const Made& a, const Made& b) {
    return std::tie(a.doubt, a.order) < std::tie(b.doubt, b.order);
  });
  return all;
}

class PseudoChoice {
 public:
  PseudoChoice(const Maker& maker, const PseudoParts& parts, std::size_t count)
      : maker_(maker), parts_(parts), count_(count), all_(all_pairs(parts)) {}

  // Each beginning and each rest once as long as there are others.
  std::vector<PseudoWord> run() {
    for (int most = 1; most <= kRounds; ++most) take_all(most);
    return std::move(words_);
  }

 private:
  void take_all(int most) {
    for (Made& made : all_) {
      if (words_.size() >= count_) return;
      if (made.onset == nullptr) continue;
      const bool own_onset = made.onset->has_pattern && !parts_.of_word;
      const PseudoPart* plain = own_onset ? made.rest : made.onset;
      const PseudoPart* own = own_onset ? made.onset : made.rest;
      const int own_uses = parts_.of_word ? most : most * kOwnUses;
      if (uses_[plain] >= most || uses_[own] >= own_uses) continue;
      Reading word = join(*made.onset, *made.rest, maker_.speech());
      made.onset = nullptr;  // seen
      if (made_.contains(word.word) || !maker_.is_fit(word)) continue;
      made_.insert(word.word);
      ++uses_[plain];
      ++uses_[own];
      words_.push_back({std::move(word.word), std::move(word.units)});
    }
  }

  const Maker& maker_;
  const PseudoParts& parts_;
  std::size_t count_;
  std::vector<Made> all_;
  std::vector<PseudoWord> words_;
  std::map<const PseudoPart*, int> uses_;
  std::set<std::string> made_;
};

}  // namespace

std::vector<PseudoWord> pseudo_words(const SearchGround& source,
                                     PatternId pattern, std::size_t count) {
  const PseudoParts parts = find_parts(source, pattern);
  if (parts.onsets.empty() || parts.rests.empty()) return {};
  const Maker maker(source, pattern);
  return PseudoChoice(maker, parts, count).run();
}

}  // namespace sheaf
