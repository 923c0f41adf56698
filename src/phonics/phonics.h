#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/byte_source.h"
#include "phonics/contrasts.h"
#include "phonics/conventions.h"
#include "phonics/endings.h"
#include "phonics/pattern_catalogue.h"
#include "phonics/pattern_search.h"
#include "phonics/reading.h"

namespace sheaf {

class Lexicon;
class SentenceBank;
class WordMeanings;

/// One grapheme of a word split by hand, with its sounds if they were given:
/// plain names ("sh", "ee") or IPA, without slashes.
struct HandUnit {
  std::string grapheme;
  std::string sound;
};

/// What came of a split by hand. Where `fault` is not empty, it says in one
/// lower-case sentence what does not fit (the parts do not make the word, a
/// sound has no such name) and `part` is the index of the part it is about.
struct HandReading {
  Reading reading;
  std::string fault;
  int part = -1;
};

/// What the lists say of a word.
struct WordInfo {
  int tier = 0;            ///< size of the smallest SCOWL list with it, 0: none
  bool everyday = false;   ///< on Sheaf's own list of children's words
  bool first = false;      ///< among those that children know first
  bool name = false;       ///< written with a capital
  bool british = false;    ///< spelled otherwise in America
  bool also_name = false;  ///< a name too, with a capital (Jack)
};

/// A word that could be taken for one with a pattern, and why it is none.
struct NearMiss {
  std::string word;
  std::string why_not;
};

/// A common word that has a pattern: enough to put such words in order before
/// any is read.
struct PatternWord {
  std::string word;
  WordInfo info;
  int phonemes = 0;
  int syllables = 0;
  /// Where the pattern stands: in the first unit, the last (of the word or its
  /// base), or elsewhere; for a pattern of the whole word always `middle`.
  enum class Place : std::uint8_t { middle, first, last };
  Place place = Place::middle;
  bool twice = false;     ///< it has the pattern in several places
  bool later = false;     ///< as in PatternPlace
  bool readings = false;  ///< it can be said in several ways
  /// In each of its places it is the vowel of a weak beat (spatula for u as in
  /// put), which it is not in most words that have it.
  bool weak = false;
  bool unsure = false;  ///< said in another way it does not have it (tear)
  bool twin = false;    ///< a word that is known sooner sounds just like it
  bool affix = false;   ///< it stands in an ending or a prefix (ng in using)
};

/// An everyday word, whatever patterns it has.
struct EverydayWord {
  std::string word;
  WordInfo info;
  int phonemes = 0;
  int syllables = 0;
  /// Of one that has a single syllable, by their numbers in the inventory.
  std::vector<std::uint16_t> correspondences;
  bool later = false;     ///< as in PatternPlace, for one of its patterns
  bool unsure = false;    ///< as in PatternWord, for one of its patterns
  bool readings = false;  ///< it can be said in several ways
};

/// How English words are spelled and said: the word list, the correspondences
/// and the patterns. Read-only once loaded; what is
/// remembered is kept under a lock.
class Phonics {
 public:
  /// Takes the file that the lexicon program wrote at build time. Throws
  /// MachineError where it is missing, cut short or of another version.
  Phonics(const ByteSource& source, const std::string& file);
  /// The same file, with patterns of a lesson's own besides the catalogue's:
  /// each as `read_own_pattern` takes it, and each without a fault (see
  /// `fault_of_own_pattern`).
  Phonics(const ByteSource& source, const std::string& file,
          std::span<const std::string> own_patterns);
  ~Phonics();
  Phonics(Phonics&&) noexcept;

  /// All readings of a word, the preferred one first; never empty. A word that
  /// nobody knows gets one reading of origin `guess`. Case does not matter but
  /// where it tells words apart; letters, apostrophes and hyphens only (see
  /// `is_word`).
  std::vector<Reading> read(std::string_view word,
                            const Conventions& conventions) const;
  /// The reading that a teacher's split asks for. Sounds that are not given
  /// come from the word list where it agrees with the graphemes, else from the
  /// graphemes' usual sounds.
  HandReading read_by_hand(std::string_view word,
                           std::span<const HandUnit> parts,
                           const Conventions& conventions) const;
  /// The first of the readings, remembered: for words that lesson after lesson
  /// asks for, such as those of pictures. Shared and never empty; it outlives
  /// what is remembered.
  std::shared_ptr<const Reading> first_reading(
      std::string_view word, const Conventions& conventions) const;
  /// The same without its patterns, in a third of the time: for searches that
  /// pass over most words for their graphemes alone.
  std::shared_ptr<const Reading> first_units(
      std::string_view word, const Conventions& conventions) const;
  /// The outermost ending of the first reading, remembered like it: -ed in
  /// jumped. Whether its base is a word is another question.
  EndingAnalysis outer_ending(std::string_view word,
                              const Conventions& conventions) const;
  /// How many syllables the first reading of a word has, as the word list has
  /// it, without laying the word against its sounds.
  int syllables(std::string_view word) const;
  bool knows(std::string_view word) const;
  /// The known words that an unknown one is likely meant for, where it is a
  /// known base with its ending put on wrongly: carried for carryed, went and
  /// gone for goed. The likeliest first, at most a few; empty for known words.
  std::vector<std::string> right_forms(std::string_view word) const;
  /// What a teacher may have meant by an unknown word: `right_forms`, or where
  /// there are none the words one slip away (`near_words`), names only where
  /// the word has a capital, and only what `may_suggest` lets pass. The
  /// likeliest first, at most three; empty for known words.
  std::vector<std::string> meant_words(
      std::string_view word,
      const std::function<bool(std::string_view)>& may_suggest) const;
  std::optional<WordInfo> info(std::string_view word) const;

  const PatternCatalogue& patterns() const;
  /// Reads what a teacher wrote for a pattern or a contrast; see
  /// `find_pattern_names`.
  std::vector<PatternName> find_patterns(std::string_view written) const;
  /// What is wrong with a lesson's definition of a pattern, or nothing.
  std::string fault_of_own_pattern(std::string_view written) const;
  /// The sentences and passages that come with Sheaf; as long as this lives.
  const SentenceBank& bank() const;
  /// Classes and meanings of words; as long as this lives.
  const WordMeanings& meanings() const;
  /// The word list behind it all, for marking; lives as long as this does.
  const Lexicon& lexicon() const;
  /// Why a word does not have a pattern, by what it has instead, as the end of
  /// a sentence: "it has short o (b o t)", "its ch says /sh/". The reading is
  /// of these conventions.
  std::string why_not(const Reading& reading, PatternId pattern,
                      const Conventions& conventions) const;
  /// What a grapheme that a pattern teaches says, and in which word: the first
  /// of the pattern's common words that has it so, short ones before others.
  /// Without one it is by itself, and `word` is empty.
  struct TaughtSound {
    std::vector<Phoneme> phonemes;
    std::string word;
  };
  TaughtSound taught_sound(PatternId pattern, const TaughtUnit& taught,
                           const Conventions& conventions) const;

  /// How a word with a pattern fits a contrast with others; see
  /// `contrast_fit`.
  ContrastFit fit_of(const Reading& reading, PatternId pattern,
                     std::span<const PatternId> against) const;

  /// Calls with the preferred reading of each word until the call gives false:
  /// everyday words, then those of the lists up to a size, smaller lists
  /// first, each by alphabet.
  void each_word(
      int largest_list, const Conventions& conventions,
      const std::function<bool(const Reading&, const WordInfo&)>& call) const;
  /// Common words that have a pattern, everyday ones first.
  std::vector<std::string> words_with(PatternId pattern,
                                      std::size_t count) const;
  /// All common words that have a pattern in an accent, in the same order,
  /// names left out; from an index made when the word list was compiled. Under
  /// conventions other than the accent's own, some of them may not have it.
  /// Remembered as long as this lives.
  const std::vector<PatternWord>& pattern_words(
      PatternId pattern, const Conventions& conventions) const;
  /// Those of them that are everyday words, which come first: in less time.
  const std::vector<PatternWord>& everyday_pattern_words(
      PatternId pattern, const Conventions& conventions) const;
  /// All everyday words that have a pattern, each once, names left out: what
  /// `pattern_words` has of them for all patterns together, without the lists.
  /// Remembered as long as this lives.
  const std::vector<EverydayWord>& everyday_words(
      const Conventions& conventions) const;
  /// Whether some word of the list is said with exactly these phonemes, which
  /// are listed ones (`Unit::listed`) of this accent.
  bool is_said_like_a_word(std::span<const Phoneme> phonemes,
                           const Conventions& conventions) const;
  /// Common words of other spellings that sound like it in the accent in force
  /// (night, knight), the commonest first; the reading is of that accent. None
  /// are names, rare forms (need, kneed), two spellings of one word (gray,
  /// grey), or possessives beside plurals.
  std::vector<std::string> sound_alikes(const Reading& reading,
                                        const Conventions& conventions) const;
  /// Whether the word stands in any list, the largest included, even where
  /// nobody says how it sounds. In one case of some thousands it says so of
  /// one that does not.
  bool is_listed(std::string_view word) const;
  /// Common words with its letters that do not have it, one for each reason.
  std::vector<NearMiss> near_misses(PatternId pattern, std::size_t count) const;

  /// The largest of the lists whose words everybody knows.
  static constexpr int kCommonList = 20;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

/// Whether the text can be a word at all: 1 to 64 letters of the Latin script,
/// with apostrophes or hyphens inside.
bool is_word(std::string_view text);

}  // namespace sheaf
