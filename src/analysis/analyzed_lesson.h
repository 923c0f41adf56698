#pragma once

#include <concepts>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/taught.h"
#include "base/shared_list.h"
#include "input/lesson.h"
#include "phonics/division.h"
#include "phonics/phonics.h"

namespace sheaf {

/// A word of the lesson with its spelling laid against its sounds.
struct AnalyzedWord {
  /// As it stands in the lesson; in a sentence with its capital.
  Spanned<std::string> spelling;
  Reading reading;
  /// How it divides to be spelled in beats: one part for a word of one beat. Of
  /// words in sentences nobody asks, so it is empty there.
  std::vector<WordPart> parts = {};
  /// For each of the lesson's patterns whether it has it, and the units to be
  /// marked for it: none where the pattern is about the word as a whole.
  struct Hit {
    bool has = false;
    std::vector<std::uint8_t> units;
  };
  std::vector<Hit> hits;
  /// Whether it can be read with what was taught.
  WordStanding standing;

  /// The first of the lesson's patterns that it has, or -1.
  int pattern() const;
  bool has_pattern() const { return pattern() >= 0; }
  /// Whether unit `index` shows any of the lesson's patterns.
  bool is_pattern_unit(std::size_t index) const;
};

struct AnalyzedSentence {
  struct Part {
    std::size_t begin = 0;  ///< bytes of the sentence's text
    std::size_t end = 0;
    AnalyzedWord word;
    /// Among the sight words; its standing may be decodable nonetheless.
    bool sight_word = false;
    /// Of a word that was not taught yet: readable ones near to it in meaning,
    /// for its place; see `near_in_meaning`.
    std::vector<std::string> near = {};
  };
  PlacedText text;
  SharedList<Part> words;

  int pattern_words() const;
};

/// Connected text to read: each paragraph and each question as a sentence is.
struct AnalyzedPassage {
  PlacedText title;
  std::vector<AnalyzedSentence> paragraphs;
  std::vector<AnalyzedSentence> questions;

  bool empty() const { return paragraphs.empty(); }
  int pattern_words() const;
};

/// One of the patterns that the lesson teaches.
struct LessonPattern {
  PatternId id = 0;
  Spanned<std::string> written;  ///< as the lesson has it
  /// As the catalogue has it, with its sounds as the lesson says and writes
  /// them (see `name_of`).
  std::string name;
  /// The graphemes that show it in the list: that of the key word first, then
  /// the commonest. What is printed on a sound card or at the head of a column.
  std::vector<std::string> graphemes;
  /// What the first of them says in the key word; empty where the pattern is
  /// not about graphemes.
  std::vector<Phoneme> sound;
  /// Those of the graphemes that say this sound wherever the list has them.
  std::vector<std::string> alike;
  /// Whether the list mostly has this sound where it has the pattern: a doubled
  /// consonant or a silent h is about no one sound.
  bool one_sound = false;
};

/// What was learned before and is due, for a few minutes at the start of a day.
struct WarmUp {
  struct Item {
    std::string grapheme;
    std::vector<Phoneme> sound;
    std::string word;  ///< in which it says this
    /// Of a sound to hear: all graphemes that were taught for it, this first.
    std::vector<std::string> spellings = {};
  };
  std::vector<Item> to_say;         ///< graphemes to look at and say
  std::vector<Item> to_hear;        ///< sounds to hear and write, each once
  std::vector<AnalyzedWord> words;  ///< to write from dictation
  /// To write from dictation; empty where the teacher makes one up.
  std::string sentence;

  bool empty() const { return to_say.empty() && words.empty(); }
};

/// What one learner writes that others with the same teacher's pages do not.
struct OwnWords {
  std::string learner;                 ///< the code
  std::vector<AnalyzedWord> warm_up;   ///< all words of the warm-up, in order
  std::vector<AnalyzedWord> dictated;  ///< after the words of the lesson
};

/// Says yes or no of a word.
using WordTest = std::function<bool(std::string_view)>;

struct WordGames;

/// A lesson seen through phonics: everything that sheets need to know of its
/// words. Made once, then read-only.
struct AnalyzedLesson {
  const Lesson* lesson = nullptr;
  const Phonics* phonics = nullptr;
  /// How its sounds are counted, said and written.
  Conventions conventions;
  /// What the group was taught up to and with this lesson.
  Taught taught;
  std::vector<LessonPattern> patterns;
  std::vector<AnalyzedWord> words;
  /// Words that are only sorted, beside those of the list.
  std::vector<AnalyzedWord> sort_words;
  /// One for each pattern, an index into `words`, or -1.
  std::vector<int> key_words;
  std::vector<AnalyzedSentence> sentences;
  std::vector<AnalyzedWord> dictate_words;
  std::vector<AnalyzedSentence> dictate_sentences;
  AnalyzedPassage passage;
  WarmUp warm_up;
  /// Of teacher's pages that learners with words of their own share: who writes
  /// what. `dictate_words` are those of all of them then, and the words of the
  /// warm-up are one learner's, which only say how many there are.
  std::vector<OwnWords> own_words;
  /// Decides every order that is mixed; from the lesson's seed, else from its
  /// patterns and words.
  std::uint64_t seed = 0;
  /// Printed on all pages, so that sheets and keys find each other again.
  std::string code;
  /// Which words a teacher may be asked about for one that nobody knows; all
  /// where it is empty.
  WordTest may_suggest;
  /// Chains and pairs of words (analysis/word_games.h), for the sheets that ask
  /// for them; null where nobody can look for any.
  std::shared_ptr<const WordGames> games;
};

/// Which of the patterns a reading shows, and by which of its units.
std::vector<AnalyzedWord::Hit> find_hits(
    const Reading& reading, const std::vector<LessonPattern>& patterns,
    const Phonics& phonics);

/// A short code without letters and figures that look alike.
std::string short_code(std::uint64_t hash);

/// How a seed begins that names an order itself, and the seed to write for one.
inline constexpr std::string_view kSettledSeed = "order-";
std::string seed_text(std::uint64_t seed);

/// Which words have a picture, and which of them children name so.
struct PictureTest {
  using Test = std::function<bool(std::string_view)>;
  Test clear;  ///< most children say the word on seeing it
  Test any;    ///< it may have to be named for them

  PictureTest(Test clear_ones, Test all)
      : clear(std::move(clear_ones)), any(std::move(all)) {}
  /// Where nothing is known of others.
  template <std::predicate<std::string_view> F>
  PictureTest(const F& clear_ones) : clear(clear_ones), any(clear_ones) {}
};

/// Looks everything up. `taught` says what the group knows. Where the lesson
/// names no key word, one with a picture comes first (a clear one before
/// others), then one that children know sooner, then the first of the list.
/// Reports patterns that nobody knows, words that lack the pattern, words that
/// had to be guessed, splits that do not fit, words that were not taught yet,
/// and sentences to dictate that were also read.
AnalyzedLesson analyze(const Lesson& lesson, const Phonics& phonics,
                       Taught taught, const PictureTest& pictures,
                       Diagnostics& diagnostics, WordTest may_suggest = {});

/// The same where nothing says what was taught.
AnalyzedLesson analyze(const Lesson& lesson, const Phonics& phonics,
                       const PictureTest& pictures, Diagnostics& diagnostics);

}  // namespace sheaf
