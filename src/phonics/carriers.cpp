#include "phonics/carriers.h"

#include <algorithm>
#include <vector>

#include "base/utf8.h"
#include "phonics/phonics.h"
#include "phonics/sentence_bank.h"

namespace sheaf {
namespace {

std::vector<Phoneme> sounds_in_order(const Reading& reading) {
  std::vector<Phoneme> sounds;
  for (const Unit& unit : reading.units) {
    sounds.insert(sounds.end(), unit.phonemes.begin(), unit.phonemes.end());
  }
  return sounds;
}

}  // namespace

std::string carrier_key(std::string_view word) {
  constexpr std::string_view kCurly = "\u2019";
  std::string key = normalized(word);
  for (std::size_t at = 0; (at = key.find(kCurly, at)) != std::string::npos;) {
    key.replace(at, kCurly.size(), "'");
  }
  return key;
}

Carriers::Carriers(const LexiconFile& file)
    : texts_(file.text(Section::carrier_texts)),
      records_(file.records<CarrierRecord>(Section::carriers)) {}

Carrier Carriers::at(std::size_t number) const {
  return carrier(records_[number]);
}

std::span<const CarrierRecord> Carriers::of(std::string_view key) const {
  const auto found = std::ranges::equal_range(
      records_, key, {}, [this](const CarrierRecord& record) {
        return texts_.substr(record.text, record.word);
      });
  return {found.begin(), found.end()};
}

Carrier Carriers::carrier(const CarrierRecord& record) const {
  Carrier carrier;
  carrier.any_reading = record.label == CarrierRecord::kAnyReading;
  std::size_t at = record.text;
  const auto next = [&](std::size_t length) {
    const std::string_view part = texts_.substr(at, length);
    at += length;
    return part;
  };
  carrier.word = next(record.word);
  if (!carrier.any_reading) carrier.label = next(record.label);
  carrier.sentence = next(record.sentence);
  return carrier;
}

std::string_view carrier_of(const Phonics& phonics, const Reading& reading,
                            const Conventions& conventions) {
  const Carriers& carriers = phonics.bank().carriers();
  for (const CarrierRecord& record : carriers.of(carrier_key(reading.word))) {
    const Carrier carrier = carriers.carrier(record);
    if (carrier.any_reading) return carrier.sentence;
    // A split by hand has no label, but it has sounds.
    const std::vector<Phoneme> sounds = sounds_in_order(reading);
    for (const Reading& other : phonics.read(reading.word, conventions)) {
      if (other.label == carrier.label && sounds_in_order(other) == sounds) {
        return carrier.sentence;
      }
    }
  }
  return {};
}

}  // namespace sheaf
