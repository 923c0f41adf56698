#include "lexicon/pattern_words.h"

#include "phonics/lexicon.h"
#include "phonics/pattern_index.h"
#include "phonics/phonics.h"

namespace sheaf {

namespace {

PatternWord::Place place_of(const PatternPlace& place, const Reading& reading) {
  if (place.units.front() == 0) return PatternWord::Place::first;
  // The ending of shops or fishing is not the word's own.
  const std::size_t last = place.units.back();
  const bool at_end =
      last + 1 == reading.units.size() ||
      (last + 2 == reading.units.size() &&
       (reading.units.back().grapheme == "s" ||
        reading.units.back().grapheme == "ed"));
  return at_end ? PatternWord::Place::last : PatternWord::Place::middle;
}

// The sounds of rare forms would fill the set, and cost more made-up words than
// they spare.
std::vector<std::uint8_t> said_set(const Lexicon& lexicon) {
  constexpr int kLargestList = 70;
  HashSet said;
  lexicon.each([&](const WordRecord& record) {
    if (record.tier > kLargestList) return true;
    said.add(said_hash(phonemes_of(record.segments, lexicon.inventory())));
    return true;
  });
  return said.bytes();
}

}  // namespace

PatternSections index_patterns(const std::string& file) {
  const LexiconFile bytes(file);
  const Lexicon lexicon(bytes);
  const Phonics phonics(file);
  const std::size_t patterns = phonics.patterns().all().size();
  std::vector<std::vector<std::uint32_t>> entries(patterns);
  phonics.each_word(
      Phonics::kCommonList, Conventions{},
      [&](const Reading& reading, const WordInfo& info) {
        if (info.name) return true;
        const std::uint32_t word = lexicon.find(reading.word);
        for (const PatternPlace& place : reading.places) {
          const bool of_units = phonics.patterns()[place.pattern].of_units;
          entries[place.pattern].push_back(pack(
              {word,
               of_units ? place_of(place, reading)
                        : PatternWord::Place::middle,
               of_units && place.units.size() > 1, place.later}));
        }
        return true;
      });
  PatternSections sections;
  auto begin = static_cast<std::uint32_t>(patterns + 1);
  for (const auto& words : entries) {
    sections.pattern_words.push_back(begin);
    begin += static_cast<std::uint32_t>(words.size());
  }
  sections.pattern_words.push_back(begin);
  for (const auto& words : entries) {
    sections.pattern_words.insert(sections.pattern_words.end(), words.begin(),
                                  words.end());
  }
  sections.said = said_set(lexicon);
  return sections;
}

}  // namespace sheaf
