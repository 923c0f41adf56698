#include "marking/word_index.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "marking/grapheme_alignment.h"
#include "marking/grapheme_costs.h"
#include "marking/skeleton.h"
#include "marking/usual_slips.h"
#include "marking/written_word.h"
#include "phonics/endings.h"

namespace sheaf {
namespace {

// How many words the grapheme scorer looks at.
constexpr std::size_t kMostScored = 64;
// Scores this much apart are about a third as likely.
constexpr double kScale = 90.0;

// Roughly, before the scorer: another skeleton, another first letter.
constexpr int kOtherSkeleton = 250;
constexpr int kOtherFirst = 100;
// What a word of children costs before its list: one that they know first, and
// another.
constexpr int kFirst = 50;
constexpr int kOther = 100;
// The rarest of them.
constexpr int kEveryday = 140;
constexpr int kForEnding = 30;

std::uint64_t hash_of(std::string_view text) {
  std::uint64_t hash = 14695981039346656037U;  // FNV-1a
  for (const char c : text) {
    hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211U;
  }
  return hash;
}

template <typename Call>
void each_shortened(const std::string& skeleton, const Call& call) {
  call(skeleton);
  for (std::size_t i = 0; i < skeleton.size(); ++i) {
    if (i > 0 && skeleton[i] == skeleton[i - 1]) continue;
    std::string shorter = skeleton;
    shorter.erase(i, 1);
    call(shorter);
  }
}

// What a letter too many or too few tells: consonants most, vowels and letters
// that are often silent or merely written least.
constexpr std::array<int, 26> kWeights = [] {
  std::array<int, 26> weights{};
  for (int& weight : weights) weight = 90;
  for (const char c : std::string_view("aeiouyhwgr")) {
    weights[static_cast<std::size_t>(c - 'a')] = 40;
  }
  return weights;
}();

// What letters one word has that the other lacks, both ways, by their weights.
class LetterBag {
 public:
  explicit LetterBag(std::string_view letters) {
    for (const char c : letters) {
      if (c < 'a' || c > 'z') continue;
      ++count_[static_cast<std::size_t>(c - 'a')];
      weight_ += kWeights[static_cast<std::size_t>(c - 'a')];
    }
  }

  int apart(std::string_view word) const {
    std::array<std::uint8_t, 26> left = count_;
    int apart = weight_;
    for (const char c : word) {
      if (c < 'a' || c > 'z') continue;
      const auto letter = static_cast<std::size_t>(c - 'a');
      if (left[letter] > 0) {
        --left[letter];
        apart -= kWeights[letter];
      } else {
        apart += kWeights[letter];
      }
    }
    return apart;
  }

 private:
  std::array<std::uint8_t, 26> count_{};
  int weight_ = 0;
};

int rarity_of_tier(int tier) {
  if (tier == 0) return 700;
  if (tier <= 10) return 130;
  if (tier <= 20) return 200;
  if (tier <= 35) return 300;
  if (tier <= 40) return 380;
  if (tier <= 50) return 460;
  return 600;
}

}  // namespace

WordIndex::WordIndex(const WordSource& words, const SoundSpellings& spellings,
                     std::span<const std::string> lesson_words)
    : source_(words), spellings_(spellings) {
  for (const std::string& word : lesson_words) {
    lesson_words_.push_back(read_written(word).signs);
  }
  std::ranges::sort(lesson_words_);
  const auto count = static_cast<std::uint32_t>(source_.words.size());
  skeletons_.reserve(count);
  for (std::uint32_t i = 0; i < count; ++i) {
    const std::string skeleton =
        consonant_skeleton(sounds_of(source_.words[i], *source_.inventory));
    skeletons_.push_back(hash_of(skeleton));
    add_keys(skeleton, i);
    by_spelling_.push_back(i);
    rarity_.push_back(find_rarity(i));
  }
  std::ranges::sort(keys_);
  std::ranges::sort(by_spelling_, {}, [&](std::uint32_t i) {
    return std::string_view(source_.words[i].spelling);
  });
  for (std::uint32_t i = 0; i < count; ++i) lend_rarity_of_base(i);
}

// fishing is nearly as common for children as fish.
void WordIndex::lend_rarity_of_base(std::uint32_t word) {
  constexpr std::array kEndings = {Ending::s, Ending::es, Ending::ed,
                                   Ending::ing};
  if (rarity_[word] <= kEveryday) return;
  for (const Ending ending : kEndings) {
    for (const EndingAnalysis& a :
         possible_bases(source_.words[word].spelling, ending)) {
      const int base = rarity(a.base);
      if (base > kEveryday || is_grammar_word(a.base)) continue;
      rarity_[word] = std::min(rarity_[word], base + kForEnding);
    }
  }
}

void WordIndex::add_keys(const std::string& skeleton, std::uint32_t word) {
  each_shortened(skeleton, [&](const std::string& key) {
    keys_.push_back({hash_of(key), word});
  });
}

int WordIndex::find_rarity(std::uint32_t index) const {
  const ListedWord& word = source_.words[index];
  if (std::ranges::binary_search(lesson_words_, word.spelling)) return 0;
  if (is_grammar_word(word.spelling)) return 20;
  const int rarity = rarity_of_tier(word.tier) + (word.name ? 250 : 0);
  if (!word.everyday) return rarity;
  return std::min(rarity, (word.first ? kFirst : kOther) + rarity / 8);
}

int WordIndex::rarity(std::string_view word) const {
  if (std::ranges::binary_search(lesson_words_, word)) return 0;
  const auto found = find(word);
  if (!found) return is_grammar_word(word) ? 20 : kUnlisted;
  return rarity_[*found];
}

WordIndex::Use WordIndex::use_of(std::string_view word) const {
  constexpr int kNoTier = 100;
  if (is_grammar_word(word)) return {};
  const auto found = find(word);
  if (!found) return {4, kNoTier};
  const ListedWord& listed = source_.words[*found];
  const int rank = listed.first ? 1 : listed.everyday ? 2 : 3;
  return {rank, listed.tier == 0 ? kNoTier : listed.tier};
}

bool WordIndex::is_as_common(std::string_view word, std::string_view as) const {
  const Use a = use_of(word);
  const Use b = use_of(as);
  if (b.rank >= 3) return a.rank < 3;
  return a.rank <= b.rank && a.tier <= b.tier;
}

std::optional<std::uint32_t> WordIndex::find(std::string_view word) const {
  const auto found =
      std::ranges::lower_bound(by_spelling_, word, {}, [&](std::uint32_t i) {
        return std::string_view(source_.words[i].spelling);
      });
  if (found == by_spelling_.end() || source_.words[*found].spelling != word) {
    return std::nullopt;
  }
  return *found;
}

std::vector<WordIndex::Candidate> WordIndex::candidates(
    std::string_view letters) const {
  const std::vector<std::string> skeletons = letter_skeletons(letters);
  std::vector<std::uint64_t> hashes;
  for (const std::string& skeleton : skeletons) {
    each_shortened(skeleton, [&](const std::string& key) {
      hashes.push_back(hash_of(key));
    });
  }
  std::ranges::sort(hashes);
  hashes.erase(std::ranges::unique(hashes).begin(), hashes.end());
  std::vector<std::uint32_t> words;
  for (const std::uint64_t hash : hashes) {
    auto key = std::ranges::lower_bound(keys_, hash, {}, &Key::hash);
    for (; key != keys_.end() && key->hash == hash; ++key) {
      words.push_back(key->word);
    }
  }
  std::ranges::sort(words);
  words.erase(std::ranges::unique(words).begin(), words.end());
  std::vector<Candidate> found;
  found.reserve(words.size());
  std::vector<std::uint64_t> whole;
  for (const std::string& s : skeletons) whole.push_back(hash_of(s));
  const LetterBag bag(letters);
  for (const std::uint32_t word : words) {
    const std::string& spelling = source_.words[word].spelling;
    int cost = rarity_[word] + bag.apart(spelling);
    if (std::ranges::find(whole, skeletons_[word]) == whole.end()) {
      cost += kOtherSkeleton;
    }
    if (spelling[0] != letters[0]) cost += kOtherFirst;
    found.push_back({word, cost});
  }
  const auto likelier = [](const Candidate& a, const Candidate& b) {
    return a.rough != b.rough ? a.rough < b.rough : a.word < b.word;
  };
  const std::size_t keep = std::min(kMostScored, found.size());
  std::ranges::partial_sort(
      found, found.begin() + static_cast<std::ptrdiff_t>(keep), likelier);
  found.resize(keep);
  return found;
}

std::vector<WordGuess> WordIndex::look_up(
    std::string_view written, const LearnerSpeech& speech, std::size_t most,
    std::span<const std::string> meant) const {
  const WrittenWord word = read_written(written);
  std::vector<WordGuess> guesses;
  if (word.letters.empty() || word.letters.size() > 32) return guesses;
  // What many learners say is allowed for when words are guessed, not when
  // they are marked: no r after a vowel, f and v for th.
  LearnerSpeech heard = speech;
  if (heard.accent == Accent::general_american) heard.accent = Accent::british;
  read_confusion("th/f", heard);
  const WrittenGraphemes graphemes(spellings_, word.letters, heard);
  std::vector<Candidate> looked_at = candidates(word.letters);
  for (const std::string& also : meant) {
    const auto found = find(also);
    if (found && std::ranges::find(looked_at, *found, &Candidate::word) ==
                     looked_at.end()) {
      looked_at.push_back({*found, 0});
    }
  }
  for (const Candidate& candidate : looked_at) {
    const ListedWord& listed = source_.words[candidate.word];
    if (listed.spelling == word.signs) continue;
    const auto units = target_units(listed, *source_.inventory, heard);
    WordGuess guess;
    guess.word = listed.spelling;
    const GraphemeAlignment alignment = align_graphemes(graphemes, units);
    guess.cost = alignment.cost - usual_slips(units, alignment, word.letters);
    guess.score = guess.cost + rarity_[candidate.word];
    guesses.push_back(std::move(guess));
  }
  std::ranges::stable_sort(guesses, {}, &WordGuess::score);
  double all = 0;
  for (const WordGuess& guess : guesses) {
    all += std::exp((guesses[0].score - guess.score) / kScale);
  }
  for (WordGuess& guess : guesses) {
    const double own = std::exp((guesses[0].score - guess.score) / kScale);
    guess.sure = static_cast<int>(std::lround(100.0 * own / all));
  }
  if (guesses.size() > most) guesses.resize(most);
  return guesses;
}

}  // namespace sheaf
