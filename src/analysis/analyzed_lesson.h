#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/taught.h"
#include "input/lesson.h"
#include "phonics/phonics.h"

namespace sheaf {

/// A word of the lesson with its spelling laid against its sounds.
struct AnalyzedWord {
  /// As it stands in the lesson; in a sentence with its capital.
  Spanned<std::string> spelling;
  Reading reading;
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
  };
  PlacedText text;
  std::vector<Part> words;

  int pattern_words() const;
};

/// One of the patterns that the lesson teaches.
struct LessonPattern {
  PatternId id = 0;
  Spanned<std::string> written;  ///< as the lesson has it
  std::string name;              ///< as the catalogue has it
  /// The graphemes that show it in the list, the commonest first: what is
  /// printed on a sound card or at the head of a column.
  std::vector<std::string> graphemes;
  /// The sound that the commonest of them says there; empty where the pattern
  /// is not about one sound.
  std::vector<Phoneme> sound;
};

/// What was learned before and is due, for a few minutes at the start of a day.
struct WarmUp {
  struct Item {
    std::string grapheme;
    std::vector<Phoneme> sound;
  };
  std::vector<Item> to_say;         ///< graphemes to look at and say
  std::vector<Item> to_hear;        ///< sounds to hear and write
  std::vector<AnalyzedWord> words;  ///< to write from dictation
  /// To write from dictation; empty where the teacher makes one up.
  std::string sentence;

  bool empty() const { return to_say.empty() && words.empty(); }
};

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
  /// One for each pattern, an index into `words`, or -1.
  std::vector<int> key_words;
  std::vector<AnalyzedSentence> sentences;
  std::vector<AnalyzedWord> dictate_words;
  std::vector<AnalyzedSentence> dictate_sentences;
  WarmUp warm_up;
  /// Decides every order that is mixed; from the lesson's seed, else from its
  /// patterns and words.
  std::uint64_t seed = 0;
  /// Printed on all pages, so that sheets and keys find each other again.
  std::string code;
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

/// Looks everything up. `taught` says what the group knows; `has_picture` says
/// which words have a picture that children name so: the first of them becomes
/// the key word where the lesson names none. Reports patterns that nobody
/// knows, words that lack the pattern, words that had to be guessed, splits
/// that do not fit, words that were not taught yet, and sentences to dictate
/// that were also read.
AnalyzedLesson analyze(const Lesson& lesson, const Phonics& phonics,
                       Taught taught,
                       const std::function<bool(std::string_view)>& has_picture,
                       Diagnostics& diagnostics);

/// The same where nothing says what was taught.
AnalyzedLesson analyze(const Lesson& lesson, const Phonics& phonics,
                       const std::function<bool(std::string_view)>& has_picture,
                       Diagnostics& diagnostics);

}  // namespace sheaf
