#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/byte_source.h"

namespace sheaf {

/// The parts of the compiled word list, in the order they stand in the file.
enum class Section : std::uint8_t {
  correspondences,  ///< `Correspondence` records
  words,            ///< word records, common words first
  word_index,       ///< open hash table of offsets into `words`, 32 bits each
  labels,           ///< labels of readings, a line each
  patterns,         ///< the text of patterns.tsv
  not_inflected,    ///< words that only look inflected, in order
  not_prefixed,     ///< words that only look prefixed, in order
  not_compound,     ///< what makes a compound and what none, in order
  guesses,          ///< what the guesser has counted
  pattern_words,    ///< see pattern_index.h
  pattern_accents,  ///< a byte an entry of it
  said,             ///< a `HashSet` of the sounds of every reading
  said_elsewhere,   ///< the same of what only other accents have
  spelled,          ///< a `HashSet` of the words of the lists not in `words`
  sound_alikes,     ///< `SoundAlike` records, in the order of their keys
  bank_texts,       ///< sentences and passages; see sentence_bank.h
  bank_records,     ///< `BankRecord`s
  bank_words,       ///< the words of each, 16 bits each
  bank_spellings,   ///< what these numbers stand for, a line each
  bank_patterns,    ///< which texts have a word with each pattern
  carrier_texts,    ///< sentences to say words in; see carriers.h
  carriers,         ///< `CarrierRecord`s, in the order of their words
  senses,           ///< `WordSense` records, in the order of the words
  concepts,         ///< `Concept`s, what these mean
  opposites,        ///< `OppositeConcepts`, in order
};
inline constexpr int kSectionCount = static_cast<int>(Section::opposites) + 1;

/// The compiled word list, used where it lies. The file is of the machine's own
/// byte order: it is built where it is used.
class LexiconFile {
 public:
  /// Throws MachineError, with the file's name, where the bytes are cut short,
  /// damaged in their head or of another version.
  LexiconFile(KeptBytes file, std::string_view name);
  LexiconFile(const LexiconFile&) = delete;
  LexiconFile& operator=(const LexiconFile&) = delete;

  std::span<const std::uint8_t> section(Section which) const;
  std::string_view text(Section which) const;
  /// A section as records; empty where its size does not fit.
  template <typename T>
  std::span<const T> records(Section which) const {
    const auto bytes = section(which);
    return {reinterpret_cast<const T*>(bytes.data()), bytes.size() / sizeof(T)};
  }

 private:
  const std::uint8_t* data() const {
    return reinterpret_cast<const std::uint8_t*>(file_.bytes.data());
  }

  KeptBytes file_;
};

/// The bytes of a whole file made of its sections.
std::vector<std::uint8_t> lexicon_file_bytes(
    std::span<const std::vector<std::uint8_t>> sections);

/// The slot where the search for a word begins in an index of `slots` slots.
std::size_t word_slot(std::string_view spelling, std::size_t slots);
inline constexpr std::uint32_t kNoWord = 0xFFFFFFFF;

}  // namespace sheaf
