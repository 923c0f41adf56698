#include "marking/free_writing.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/utf8.h"
#include "marking/pattern_chance.h"
#include "marking/written_word.h"
#include "phonics/endings.h"

namespace sheaf {
namespace {

using Verdict = WritingChance::Verdict;

// Words of the text that are at least this common are taken at their word.
constexpr int kFamiliar = 300;
// Words as rare as this are judged by their base instead.
constexpr int kRare = 600;
// How much likelier a word is because its pattern was taught.
constexpr int kTaughtBonus = 120;
// How much likelier it is where only its ending is put on wrongly: boxs.
constexpr int kEndingBonus = 350;
// A guess must be as near as this to count: so much for each grapheme.
constexpr int kFarForEach = 200;
constexpr int kNearEnough = 400;
constexpr int kTooFar = 900;
constexpr int kSureEnough = 50;
constexpr int kWorthAsking = 25;
constexpr double kScale = 90.0;
constexpr std::size_t kMostGuesses = 12;
// Shorter words are too often something else.
constexpr std::size_t kShortest = 2;
// What is shown of the words that may have been meant.
constexpr std::size_t kMostMeant = 3;
constexpr int kWorthNaming = 15;
// Words of the largest lists, or made of known parts, which children hardly
// mean; see `listed_words`.
constexpr int kKnownOnly = 800;

struct Guess {
  Reading reading;
  int cost = 0;
  int score = 0;
  bool taught = false;
  int sure = 0;
};

class TextMarker {
 public:
  TextMarker(FreeWriting& result, std::span<const PatternId> taught,
             const WritingGround& ground)
      : result_(result), taught_(taught), ground_(ground) {}

  void mark(std::size_t index) {
    const TextWord& word = result_.text.words[index];
    if (word.leave_alone) return;
    const WrittenWord written = read_written(word.text);
    if (!word.meant.empty()) {
      const Reading meant = first_reading(word.meant);
      if (!marked(index, meant).right) {
        result_.noted.push_back(
            {index, NotedWord::Kind::misspelled, {{meant.word, 100}}});
      }
      judge(index, meant, 100);
    } else if (word.beside_digit) {
      return;
    } else if (is_familiar(written.signs)) {
      judge(index, first_reading(word.text), 100);
      look_for_twin(index, written);
    } else if (is_likely_name(word, written)) {
      if (!ground_.phonics.knows(written.signs)) {
        result_.noted.push_back({.word = index, .kind = NotedWord::Kind::name});
      }
    } else if (written.letters.size() < kShortest) {
      if (!is_word_by_itself(written.letters)) {
        result_.noted.push_back(
            {.word = index, .kind = NotedWord::Kind::not_known});
      }
    } else {
      guess(index, written);
    }
  }

 private:
  using LookedUp = std::map<std::string, std::vector<WordGuess>, std::less<>>;

  const std::vector<WordGuess>& looked_up(
      LookedUp& known, const std::string& signs, const LearnerSpeech& speech,
      std::size_t most, std::span<const std::string> meant = {}) const {
    const auto [place, is_new] = known.try_emplace(signs);
    if (is_new) {
      place->second = ground_.index.look_up(signs, speech, most, meant);
    }
    return place->second;
  }

  Reading first_reading(std::string_view word) const {
    return ground_.phonics.read(word, {}).front();
  }

  bool has_taught(const Reading& reading) const {
    return std::ranges::any_of(
        taught_, [&](PatternId p) { return reading.find(p) != nullptr; });
  }

  // A common word, or a common base with a regular ending.
  bool is_familiar(std::string_view word) const {
    const int rarity = ground_.index.rarity(word);
    if (rarity <= kFamiliar) return true;
    if (rarity < kRare || !ground_.phonics.knows(word)) return false;
    return static_cast<bool>(
        take_off_ending(word, [&](const EndingAnalysis& a) {
          return ground_.index.rarity(a.base) <= kFamiliar ? 0 : -1;
        }));
  }

  static bool is_word_by_itself(std::string_view letter) {
    return letter == "a" || letter == "i" || letter == "o";
  }

  static bool is_likely_name(const TextWord& word, const WrittenWord& written) {
    return written.capital && !written.all_capitals && !word.first;
  }

  bool was_refused(std::size_t index, std::string_view meant) const {
    return std::ranges::any_of(
        result_.text.words[index].not_meant,
        [&](const std::string& no) { return same_spelling(no, meant); });
  }

  MarkedAttempt marked(std::size_t index, const Reading& meant) const {
    return mark_attempt(ground_.spellings, meant,
                        result_.text.words[index].text, ground_.options);
  }

  Cause cause_at(const MarkedAttempt& attempt,
                 const PatternPlace& place) const {
    return missed_cause(attempt, place, ground_.phonics.patterns());
  }

  // Counts the word for all its taught patterns.
  void judge(std::size_t index, const Reading& meant, int sure) {
    if (!has_taught(meant) ||
        ground_.sight_words.contains(lower_case(meant.word))) {
      return;
    }
    const MarkedAttempt attempt = marked(index, meant);
    for (std::size_t i = 0; i < taught_.size(); ++i) {
      const PatternPlace* place = meant.find(taught_[i]);
      if (place == nullptr) continue;
      const Cause cause = cause_at(attempt, *place);
      const Verdict verdict =
          cause == Cause::none ? Verdict::right : Verdict::wrong;
      result_.chances.push_back(
          {taught_[i], index, meant.word, verdict, sure, cause});
    }
  }

  // Whether there was anything to note.
  bool note(std::size_t index, const Reading& meant, Verdict verdict,
            int sure) {
    const std::size_t before = result_.chances.size();
    const MarkedAttempt attempt = marked(index, meant);
    for (const PatternId pattern : taught_) {
      const PatternPlace* place = meant.find(pattern);
      if (place == nullptr) continue;
      const Cause cause = cause_at(attempt, *place);
      if (cause == Cause::none && verdict == Verdict::possible) continue;
      result_.chances.push_back(
          {pattern, index, meant.word, verdict, sure, cause});
    }
    return result_.chances.size() > before;
  }

  std::vector<Guess> guesses_for(std::size_t index,
                                 const WrittenWord& written) {
    std::vector<Guess> guesses;
    const std::vector<std::string> right =
        ground_.phonics.right_forms(written.signs);
    for (const WordGuess& g :
         looked_up(meant_, written.signs, ground_.options.speech, kMostGuesses,
                   right)) {
      if (was_refused(index, g.word)) continue;
      // The list has the names of letters.
      if (g.word.size() == 1 && !is_word_by_itself(g.word)) continue;
      // foxs is foxes sooner than fox's.
      if (!right.empty() && g.word.ends_with("'s")) continue;
      Guess guess{
          .reading = first_reading(g.word), .cost = g.cost, .score = g.score};
      if (std::ranges::find(right, g.word) != right.end()) {
        guess.score -= kEndingBonus;
      }
      guess.taught = has_taught(guess.reading);
      // Grammar words are in every text, taught or not: wud is would.
      // What children hardly write is no likelier for its pattern: cued.
      if ((guess.taught &&
           ground_.index.rarity(g.word) <= WordIndex::kCommon) ||
          is_grammar_word(g.word)) {
        guess.score -= kTaughtBonus;
      }
      guesses.push_back(std::move(guess));
    }
    std::ranges::stable_sort(guesses, {}, &Guess::score);
    double all = 0;
    for (const Guess& g : guesses) {
      all += std::exp((guesses[0].score - g.score) / kScale);
    }
    for (Guess& g : guesses) {
      g.sure = static_cast<int>(std::lround(
          100.0 * std::exp((guesses[0].score - g.score) / kScale) / all));
    }
    return guesses;
  }

  static bool is_near(const Guess& guess) {
    const int limit =
        kFarForEach * static_cast<int>(guess.reading.units.size());
    return guess.cost <= std::clamp(limit, kNearEnough, kTooFar);
  }

  // How sure a verdict is: all guesses that come to the same count together.
  int sure_of_taught(const std::vector<Guess>& guesses) const {
    int sure = 0;
    for (const Guess& g : guesses) {
      if (g.taught && is_near(g)) sure += g.sure;
    }
    return sure;
  }

  // How rare a word is that the list has; `WordIndex::kUnlisted` for others.
  int own_rarity(const std::string& signs) const {
    const int own = ground_.index.rarity(signs);
    if (own != WordIndex::kUnlisted) return own;
    return ground_.phonics.knows(signs) ? kKnownOnly : own;
  }

  void guess(std::size_t index, const WrittenWord& written) {
    const std::vector<Guess> guesses = guesses_for(index, written);
    const int own = own_rarity(written.signs);
    const bool known = own != WordIndex::kUnlisted;
    // A rare word of the list stands for itself unless another is likelier.
    if (known && (guesses.empty() || own < guesses[0].score)) {
      judge(index, first_reading(written.signs), 100);
      return;
    }
    note_word(index, guesses, known);
    const auto best =
        std::ranges::find_if(guesses, [](const Guess& g) { return g.taught; });
    if (best == guesses.end() || !is_near(*best)) return;
    if (best == guesses.begin() && sure_of_taught(guesses) >= kSureEnough) {
      judge(index, best->reading, best->sure);
    } else if (best->sure >= kWorthAsking) {
      note(index, best->reading, Verdict::unsure, best->sure);
    }
  }

  void note_word(std::size_t index, const std::vector<Guess>& guesses,
                 bool known) {
    NotedWord noted{.word = index, .kind = NotedWord::Kind::not_known};
    for (const Guess& g : guesses) {
      if (noted.meant.size() == kMostMeant) break;
      if (!is_near(g) || (!noted.meant.empty() && g.sure < kWorthNaming)) {
        continue;
      }
      noted.meant.push_back({g.reading.word, g.sure});
    }
    const std::string& written = result_.text.words[index].text;
    if (noted.meant.empty() &&
        (known || ground_.phonics.is_listed(read_written(written).signs))) {
      return;
    }
    if (!noted.meant.empty()) {
      noted.kind = known ? NotedWord::Kind::rare : NotedWord::Kind::misspelled;
    }
    result_.noted.push_back(std::move(noted));
  }

  // A right word that sounds just like one with a taught pattern, which
  // children write as often.
  void look_for_twin(std::size_t index, const WrittenWord& written) {
    for (const std::string& other : ground_.phonics.sound_alikes(
             first_reading(written.signs), Conventions{})) {
      if (was_refused(index, other) ||
          !ground_.index.is_as_common(other, written.signs)) {
        continue;
      }
      const Reading reading = first_reading(other);
      if (!has_taught(reading) || ground_.sight_words.contains(other)) continue;
      constexpr int kSure = 30;
      if (note(index, reading, Verdict::possible, kSure)) return;
    }
  }

  FreeWriting& result_;
  std::span<const PatternId> taught_;
  const WritingGround& ground_;
  // What was looked up: words come again in a text, and looking takes long.
  LookedUp meant_;
};

// A word is one chance in a text.
PatternCount count_of(PatternId pattern,
                      std::span<const WritingChance> chances) {
  std::map<std::string, bool> words;
  for (const WritingChance& chance : chances) {
    const bool right = chance.verdict == Verdict::right;
    if (chance.pattern != pattern ||
        !(right || chance.verdict == Verdict::wrong)) {
      continue;
    }
    bool& all_right =
        words.try_emplace(lower_case(chance.meant), true).first->second;
    all_right = all_right && right;
  }
  PatternCount count{pattern, 0, static_cast<int>(words.size())};
  for (const auto& [word, right] : words) count.right += right ? 1 : 0;
  return count;
}

}  // namespace

FreeWriting read_free_writing(std::string_view text,
                              std::span<const PatternId> taught,
                              const WritingGround& ground) {
  FreeWriting result;
  result.text = read_running_text(text);
  TextMarker marker(result, taught, ground);
  for (std::size_t i = 0; i < result.text.words.size(); ++i) marker.mark(i);
  for (const PatternId pattern : taught) {
    result.counts.push_back(count_of(pattern, result.chances));
  }
  return result;
}

}  // namespace sheaf
