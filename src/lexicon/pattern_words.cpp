#include "lexicon/pattern_words.h"

#include <map>

#include "phonics/accent.h"
#include "phonics/lexicon.h"
#include "phonics/pattern_index.h"
#include "phonics/phonics.h"

namespace sheaf {

namespace {

constexpr Accent kAccents[] = {Accent::general_american, Accent::british,
                               Accent::scottish, Accent::australian};

// By word, then by what else tells entries of a word apart.
std::uint32_t order_of(const PatternEntry& entry) {
  return entry.word << 4U | static_cast<std::uint32_t>(entry.place) << 2U |
         (entry.twice ? 2U : 0U) | (entry.later ? 1U : 0U);
}

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

std::uint32_t said_hash_of(const WordRecord& record, const Lexicon& lexicon) {
  return said_hash(
      as_listed(phonemes_of(record.segments, lexicon.inventory())));
}

// A made-up word is to be no word in the accent of its lesson.
void index_sounds(const Lexicon& lexicon, PatternSections& sections) {
  HashSet said, elsewhere(HashSet::kFewBits);
  lexicon.each([&](const WordRecord& record) {
    said.add(said_hash_of(record, lexicon));
    return true;
  });
  for (const Accent accent : kAccents) {
    const Lexicon spoken = lexicon.with(speech_of(conventions_for(accent)));
    spoken.each([&](const WordRecord& record) {
      const std::uint32_t hash = said_hash_of(record, lexicon);
      if (!is_in_hash_set(said.bytes(), hash)) elsewhere.add(hash);
      return true;
    });
  }
  sections.said = said.bytes();
  sections.said_elsewhere = elsewhere.bytes();
}

}  // namespace

PatternSections index_patterns(const std::string& file) {
  const LexiconFile bytes(file);
  const Lexicon lexicon(bytes);
  const Phonics phonics(file);
  const std::size_t patterns = phonics.patterns().all().size();
  // By pattern: entries by their bits without accents, in the order of words.
  std::vector<std::map<std::uint32_t, PatternEntry>> entries(patterns);
  for (const Accent accent : kAccents) {
    phonics.each_word(
        Phonics::kCommonList, conventions_for(accent),
        [&](const Reading& reading, const WordInfo& info) {
          if (info.name) return true;
          for (const PatternPlace& place : reading.places) {
            const bool of_units = phonics.patterns()[place.pattern].of_units;
            PatternEntry entry;
            entry.word = lexicon.find(reading.word);
            if (of_units) {
              entry.place = place_of(place, reading);
              entry.twice = place.units.size() > 1;
            }
            entry.later = place.later;
            entries[place.pattern]
                .try_emplace(order_of(entry), entry)
                .first->second.accents |= index_bit(accent);
          }
          return true;
        });
  }
  PatternSections sections;
  auto begin = static_cast<std::uint32_t>(patterns + 1);
  for (const auto& words : entries) {
    sections.pattern_words.push_back(begin);
    begin += static_cast<std::uint32_t>(words.size());
  }
  sections.pattern_words.push_back(begin);
  for (const auto& words : entries) {
    for (const auto& [order, entry] : words) {
      sections.pattern_words.push_back(pack(entry));
    }
  }
  index_sounds(lexicon, sections);
  return sections;
}

}  // namespace sheaf
