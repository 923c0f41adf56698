#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "phonics/conventions.h"
#include "phonics/lexicon_file.h"
#include "phonics/reading.h"

namespace sheaf {

class Phonics;

/// A sentence to say a dictated word in, as it stands in the compiled word
/// list: in `Section::carrier_texts` the word, the label of the reading that
/// the sentence is about, and the sentence follow each other.
struct CarrierRecord {
  std::uint32_t text = 0;      ///< where the word begins
  std::uint16_t sentence = 0;  ///< lengths in bytes
  std::uint8_t word = 0;
  std::uint8_t label = 0;  ///< `kAnyReading`: none stands there

  /// The sentence is right however the word is said: it has one reading, or
  /// its readings mean the same.
  static constexpr std::uint8_t kAnyReading = 0xFF;
};

struct Carrier {
  /// As it is dictated: with a capital only if it has one everywhere.
  std::string_view word;
  /// Of which of its readings the sentence is; see `Reading::label`.
  std::string_view label;
  bool any_reading = false;
  std::string_view sentence;
};

/// The word as carriers are looked up by it: with a straight apostrophe.
std::string carrier_key(std::string_view word);

/// The sentences that come with Sheaf for saying a word in when it is dictated,
/// one for each reading of a word that has one. Works on the bytes of the word
/// list, which must outlive it.
class Carriers {
 public:
  explicit Carriers(const LexiconFile& file);

  std::size_t size() const { return records_.size(); }
  /// In the order of their words.
  Carrier at(std::size_t number) const;
  /// Those of a word, as `carrier_key` has it; mostly one, or none.
  std::span<const CarrierRecord> of(std::string_view key) const;
  Carrier carrier(const CarrierRecord& record) const;

 private:
  std::string_view texts_;
  std::span<const CarrierRecord> records_;
};

/// The one of a word, if it is about this reading of it (to read, not I read);
/// the reading is of these conventions. Empty where there is none; else it
/// lives as long as the word list.
std::string_view carrier_of(const Phonics& phonics, const Reading& reading,
                            const Conventions& conventions);

}  // namespace sheaf
