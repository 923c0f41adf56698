#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "phonics/carriers.h"
#include "phonics/lexicon_file.h"
#include "phonics/reading.h"

namespace sheaf {

/// Whom a text is written for: children from six to nine, from eleven on, or
/// either.
enum class Readers : std::uint8_t { both, younger, older };

/// The texts that come with Sheaf as they stand in the compiled word list: one
/// record a sentence; of a passage one for its title, then one for its text and
/// one for each question.
struct BankRecord {
  enum class Kind : std::uint8_t { sentence, title, text, question };
  std::uint32_t text = 0;  ///< where it begins in `Section::bank_texts`
  std::uint32_t length = 0;
  std::uint32_t first_word = 0;  ///< index into `Section::bank_words`
  std::uint16_t words = 0;
  std::uint16_t pattern = 0;  ///< what it was written for
  Kind kind = Kind::sentence;
  Readers readers = Readers::both;
  std::uint16_t unused = 0;
};

/// A number that stands for a word as it is spelled in some text, capital
/// included.
using BankWord = std::uint16_t;

struct BankText {
  std::string_view text;
  std::span<const BankWord> words;  ///< in their order
};

struct BankSentence : BankText {
  PatternId pattern = 0;
  Readers readers = Readers::both;
};

/// Connected text. Its paragraphs are parted by line breaks.
struct BankPassage {
  BankText title, text;
  std::vector<BankText> questions;
  PatternId pattern = 0;
  Readers readers = Readers::both;
};

/// The sentences and passages that come with Sheaf. Works on the bytes of the
/// word list, which must outlive it.
class SentenceBank {
 public:
  explicit SentenceBank(const LexiconFile& file);

  /// Numbers of the texts that have a word with a pattern, as some accent says
  /// it: sentences and titles of passages, in the order of the bank.
  std::span<const std::uint16_t> with(PatternId pattern) const;
  std::size_t size() const { return records_.size(); }
  bool is_sentence(std::size_t number) const {
    return records_[number].kind == BankRecord::Kind::sentence;
  }
  bool is_passage(std::size_t number) const {
    return records_[number].kind == BankRecord::Kind::title;
  }
  BankSentence sentence(std::size_t number) const;
  BankPassage passage(std::size_t number) const;

  /// How many words there are, and how one is spelled.
  std::size_t word_count() const { return spellings_.size(); }
  std::string_view spelling(BankWord word) const { return spellings_[word]; }

  /// Sentences of another kind, only to be heard.
  const Carriers& carriers() const { return carriers_; }

 private:
  BankText text(const BankRecord& record) const;

  std::string_view texts_;
  std::span<const BankRecord> records_;
  std::span<const BankWord> words_;
  std::vector<std::string_view> spellings_;
  std::span<const std::uint32_t> pattern_begins_;
  std::span<const std::uint16_t> pattern_texts_;
  Carriers carriers_;
};

}  // namespace sheaf
