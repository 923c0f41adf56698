#include "lexicon/pattern_words.h"

#include <algorithm>
#include <array>
#include <map>

#include "phonics/accent.h"
#include "phonics/lexicon.h"
#include "phonics/pattern_index.h"
#include "phonics/phonics.h"
#include "phonics/word_facts.h"

namespace sheaf {

namespace {

constexpr Accent kAccents[] = {Accent::general_american, Accent::british,
                               Accent::scottish, Accent::australian};

PatternWord::Place place_of(const PatternPlace& place, const Reading& reading) {
  if (place.units.front() == 0) return PatternWord::Place::first;
  // The ending of shops or fishing is not the word's own.
  const std::size_t last = place.units.back();
  const bool at_end = last + 1 == reading.units.size() ||
                      (last + 2 == reading.units.size() &&
                       (reading.units.back().grapheme == "s" ||
                        reading.units.back().grapheme == "ed"));
  return at_end ? PatternWord::Place::last : PatternWord::Place::middle;
}

std::uint32_t said_hash_of(const WordRecord& record, const Lexicon& lexicon) {
  return said_hash(
      as_listed(phonemes_of(record.segments, lexicon.inventory())));
}

// A made-up word is to be no word in the accent of its lesson. The sounds of
// rare forms would fill the set, and cost more made-up words than they spare.
void index_sounds(const Lexicon& lexicon, PatternSections& sections) {
  constexpr int kLargestSaid = 70;
  HashSet said, elsewhere(HashSet::kFewBits);
  lexicon.each([&](const WordRecord& record) {
    if (record.tier <= kLargestSaid) said.add(said_hash_of(record, lexicon));
    return true;
  });
  for (const Accent accent : kAccents) {
    const Lexicon spoken = lexicon.with(speech_of(conventions_for(accent)));
    spoken.each([&](const WordRecord& record) {
      if (record.tier > kLargestSaid) return true;
      const std::uint32_t hash = said_hash_of(record, lexicon);
      if (!is_in_hash_set(said.bytes(), hash)) elsewhere.add(hash);
      return true;
    });
  }
  sections.said = said.bytes();
  sections.said_elsewhere = elsewhere.bytes();
}

using Sounds = std::vector<Phoneme>;

Sounds sounds_of(const Reading& reading) {
  Sounds sounds;
  for (const Unit& unit : reading.units) {
    sounds.insert(sounds.end(), unit.listed.begin(), unit.listed.end());
  }
  return sounds;
}

// A vowel that a weak beat may have: what is heard of it there is little.
bool is_weak_vowel(const Unit& unit) {
  constexpr std::array kWeak = {Phoneme::ax, Phoneme::ah, Phoneme::ih,
                                Phoneme::uh, Phoneme::er};
  return !unit.stressed && has_vowel(unit) &&
         std::ranges::all_of(unit.listed, [&](Phoneme p) {
           return !is_vowel(p) || std::ranges::find(kWeak, p) != kWeak.end();
         });
}

// The entries of one accent.
class Indexer {
 public:
  Indexer(const Phonics& phonics, const Lexicon& lexicon, Accent accent)
      : phonics_(phonics),
        conventions_(conventions_for(accent)),
        lexicon_(lexicon.with(speech_of(conventions_))),
        entries_(phonics.patterns().all().size()),
        tallies_(entries_.size()) {}

  std::vector<std::vector<PatternIndexEntry>> run() {
    phonics_.each_word(Phonics::kCommonList, conventions_,
                       [&](const Reading& reading, const WordInfo& info) {
                         if (!info.name) note_sounds(reading, info);
                         return true;
                       });
    phonics_.each_word(Phonics::kCommonList, conventions_,
                       [&](const Reading& reading, const WordInfo& info) {
                         if (!info.name) add(reading, info);
                         return true;
                       });
    // In button, sister, lesson the weak beat is what the pattern is about.
    for (std::size_t p = 0; p < entries_.size(); ++p) {
      if (tallies_[p].weak * 2 < tallies_[p].all) continue;
      for (PatternIndexEntry& entry : entries_[p]) entry.weak = false;
    }
    return std::move(entries_);
  }

 private:
  static int rank(const WordInfo& info) {
    return info.first ? 0 : info.everyday ? 1 : 1 + info.tier;
  }

  void note_sounds(const Reading& reading, const WordInfo& info) {
    const auto [entry, is_new] =
        best_of_sounds_.try_emplace(sounds_of(reading), rank(info));
    if (!is_new) entry->second = std::min(entry->second, rank(info));
  }

  void add(const Reading& reading, const WordInfo& info) {
    const std::uint32_t word = lexicon_.find(reading.word);
    const int best = best_of_sounds_.at(sounds_of(reading));
    const bool twin = best < 2 && best < rank(info);
    const auto all = phonics_.read(reading.word, conventions_);
    const WordFacts facts =
        find_facts(reading, map_letters(reading.word), lexicon_);
    const bool beats = reading.syllables() > 1;
    for (const PatternPlace& place : reading.places) {
      const bool of_units = phonics_.patterns()[place.pattern].of_units;
      PatternIndexEntry entry;
      entry.word = word;
      entry.later = place.later;
      entry.twin = twin;
      entry.unsure = std::ranges::any_of(all, [&](const Reading& other) {
        return other.find(place.pattern) == nullptr;
      });
      if (of_units) {
        entry.place = place_of(place, reading);
        entry.twice = place.units.size() > 1;
        entry.weak = beats && std::ranges::all_of(place.units, [&](auto unit) {
                       return is_weak_vowel(reading.units[unit]);
                     });
        entry.affix = is_affix(place, facts);
      }
      if (info.everyday) {
        ++tallies_[place.pattern].all;
        tallies_[place.pattern].weak += entry.weak ? 1 : 0;
      }
      entries_[place.pattern].push_back(entry);
    }
  }

  // Whether all places lie in endings and prefixes.
  static bool is_affix(const PatternPlace& place, const WordFacts& facts) {
    const std::size_t prefix = facts.prefix.size();
    return std::ranges::all_of(place.units, [&](std::size_t unit) {
      return unit >= facts.base_units || facts.at[unit].end <= prefix;
    });
  }

  struct Tally {
    int all = 0, weak = 0;
  };
  const Phonics& phonics_;
  const Conventions conventions_;
  const Lexicon lexicon_;
  std::vector<std::vector<PatternIndexEntry>> entries_;
  std::vector<Tally> tallies_;  // of everyday words
  std::map<Sounds, int> best_of_sounds_;
};

}  // namespace

PatternSections index_patterns(const ByteSource& source,
                               const std::string& file) {
  const LexiconFile bytes(source.keep(file), file);
  const Lexicon lexicon(bytes);
  const Phonics phonics(source, file);
  // By pattern: what stands in the index, and the accents that have it so.
  std::vector<std::map<PatternIndexEntry, std::uint8_t>> entries(
      phonics.patterns().all().size());
  for (const Accent accent : kAccents) {
    const auto own = Indexer(phonics, lexicon, accent).run();
    for (std::size_t pattern = 0; pattern < own.size(); ++pattern) {
      for (const PatternIndexEntry& entry : own[pattern]) {
        entries[pattern][entry] |= index_bit(accent);
      }
    }
  }
  PatternSections sections;
  auto begin = static_cast<std::uint32_t>(entries.size() + 1);
  for (const auto& words : entries) {
    sections.pattern_words.push_back(begin);
    begin += static_cast<std::uint32_t>(words.size());
  }
  sections.pattern_words.push_back(begin);
  for (const auto& words : entries) {
    for (const auto& [entry, accents] : words) {
      sections.pattern_accents.push_back(accents);
      sections.pattern_words.push_back(pack(entry));
    }
  }
  index_sounds(lexicon, sections);
  return sections;
}

}  // namespace sheaf
