// Text as a word that nobody knows, and a split by hand of it: the guess, the
// aligner, the counting of boxes and the patterns.

#include "base/utf8.h"
#include "files/disk_files.h"
#include "fuzz_checks.h"
#include "phonics/explain.h"
#include "phonics/notation.h"
#include "phonics/phonics.h"

namespace {

using sheaf::fuzz::require;

// What is longer takes long and is read in the same way.
constexpr std::size_t kMostBytes = 120;

// Units lie in the word one behind the other, and every sound has its unit.
void check_reading(const sheaf::Reading& reading) {
  require(!reading.units.empty());
  std::size_t end = 0;
  for (const sheaf::Unit& unit : reading.units) {
    require(!unit.grapheme.empty() && !unit.phonemes.empty());
    require(unit.begin >= end && unit.begin < unit.end);
    require(unit.end <= reading.word.size());
    require(!unit.is_split() ||
            (unit.split_e >= unit.end &&
             unit.split_e < static_cast<int>(reading.word.size())));
    end = unit.end;
  }
  require(!reading.sounds.empty());
  for (const sheaf::Sound& sound : reading.sounds) {
    require(sound.unit < reading.units.size() && sound.part < sound.parts);
  }
  for (const sheaf::PatternPlace& place : reading.places) {
    for (const std::uint8_t unit : place.units) {
      require(unit < reading.units.size());
    }
  }
}

// The line that a lesson would put under `split:` says the same again.
void check_split(const sheaf::Phonics& phonics, const sheaf::Reading& reading,
                 const sheaf::Conventions& conventions) {
  std::vector<sheaf::HandUnit> parts;
  for (const sheaf::Unit& unit : reading.units) {
    parts.push_back(
        {unit.grapheme, sheaf::sound_name(unit.listed, sheaf::Conventions{})});
  }
  const auto hand = phonics.read_by_hand(reading.word, parts, conventions);
  require(hand.fault.empty());
  check_reading(hand.reading);
  require(sheaf::graphemes_text(hand.reading) ==
          sheaf::graphemes_text(reading));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  static const sheaf::Phonics phonics(sheaf::disk(), SHEAF_WORD_LIST);
  if (size == 0 || size > kMostBytes) return 0;
  sheaf::Conventions conventions =
      sheaf::conventions_for(static_cast<sheaf::Accent>(data[0] & 3));
  if ((data[0] & 4) != 0) set_convention(conventions, "count", "as-taught");
  const std::string text(reinterpret_cast<const char*>(data + 1), size - 1);
  if (text.find('=') != std::string::npos) {
    phonics.fault_of_own_pattern(text);
    return 0;
  }
  const std::string word = sheaf::normalized(text);
  const auto readings = phonics.read(word, conventions);
  require(!readings.empty());
  if (!sheaf::is_word(word)) return 0;
  for (const sheaf::Reading& reading : readings) {
    check_reading(reading);
    require(!sheaf::explain_boxes(reading, conventions).empty());
    check_split(phonics, reading, conventions);
    // One pattern in so many, chosen by the input too: asking all of them takes
    // most of the time.
    for (std::size_t id = data[0] >> 3; id < phonics.patterns().all().size();
         id += 32) {
      if (reading.find(static_cast<sheaf::PatternId>(id)) == nullptr) {
        require(!phonics
                     .why_not(reading, static_cast<sheaf::PatternId>(id),
                              conventions)
                     .empty());
      }
    }
  }
  return 0;
}
