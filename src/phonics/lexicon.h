#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/lexicon_file.h"
#include "phonics/speech.h"
#include "phonics/word_record.h"

namespace sheaf {

/// The word list: spellings with their correspondences and stress, as the
/// speakers of one accent have them. Works on the mapped bytes of the file,
/// which must outlive it. Copies share all that was read.
class Lexicon {
 public:
  /// General American.
  explicit Lexicon(const LexiconFile& file);
  /// The same list in another accent.
  Lexicon with(const Speech& speech) const;
  const Speech& speech() const { return speech_; }

  const Inventory& inventory() const { return tables_->inventory; }

  /// Where the first record of a word stands, or `kNoWord`. `spelling` is in
  /// lower case, a to z with apostrophes and hyphens.
  std::uint32_t find(std::string_view spelling) const;
  bool has(std::string_view spelling) const {
    return find(spelling) != kNoWord;
  }
  /// The size of the SCOWL list that first has the word, 0 where none has it
  /// or the word is not there; no record is read for it.
  int tier(std::string_view spelling) const;
  /// What the first record of a word says about it before its spelling; the
  /// rest of the record is not read.
  std::optional<WordHead> head(std::string_view spelling) const;
  /// The same of the word at a place that `find` gave.
  WordHead head(std::uint32_t place) const;
  /// The first reading of the word at a place that `find` gave.
  std::optional<WordRecord> record(std::uint32_t place) const;
  /// All readings of the word at such a place that the accent has.
  std::vector<WordRecord> readings(std::uint32_t place) const;
  std::vector<WordRecord> readings(std::string_view spelling) const;

  /// Calls with each record that the accent has, everyday words first, then by
  /// the size of the lists, each by alphabet; the readings of a word follow
  /// each other. Stops when the call gives false.
  void each(const std::function<bool(const WordRecord&)>& call) const;

  /// Whether a word only looks as if it had an ending (butter, king).
  bool is_not_inflected(std::string_view spelling) const;
  /// The letters of a word's ending where its form suggests another one
  /// (wobbly has -y, not -ly); else nothing.
  std::string_view listed_ending(std::string_view spelling) const;

  /// Whether a word only looks as if it had a prefix (uncle, reply).
  bool is_not_prefixed(std::string_view spelling) const;
  /// Whether two parts make a compound as far as the list of those that do
  /// not knows.
  bool may_be_compound(std::string_view first, std::string_view second) const;

  /// Where the second word of a compound begins that only the list of compounds
  /// knows (necklace: a part sounds otherwise in it), or 0.
  std::size_t listed_compound(std::string_view word) const;

  /// "verb", "past", ...; 0 gives nothing.
  std::string_view label(int number) const;

 private:
  struct Tables {
    Inventory inventory;
    std::vector<std::string_view> labels;
    std::vector<std::string_view> not_inflected;  // in order
    std::vector<std::string_view> not_prefixed;   // in order
    std::vector<std::string_view> not_compound;   // in order
  };

  bool reads_as_listed() const { return speech_ == Speech{}; }
  std::vector<WordRecord> spoken_readings(std::size_t& offset) const;

  std::span<const std::uint8_t> words_;
  std::span<const std::uint32_t> index_;
  std::shared_ptr<const Tables> tables_;
  Speech speech_;
};

}  // namespace sheaf
