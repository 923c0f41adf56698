#include "lexicon/list_repairs.h"

#include <string_view>

#include "phonics/unit_rules.h"

namespace sheaf {
namespace {

// A prefix is one behind which a word of the lists up to this size stands.
constexpr int kLargestList = 60;

bool is_plain_word(const LexiconSources& sources, const std::string& word) {
  const auto found = sources.lists.find(word);
  return found != sources.lists.end() && !found->second.name &&
         found->second.tier <= kLargestList;
}

void set_sound(Segment& segment, std::string_view grapheme, Phoneme sound,
               const Inventory& inventory) {
  const Phoneme one[] = {sound};
  const int id = inventory.find(grapheme, one);
  if (id >= 0) segment.id = static_cast<CorrespondenceId>(id);
}

// firemen: said like the word men, so that it is told from fireman.
void sound_men(const LexiconSources& sources, const Inventory& inventory,
               WordRecord& record) {
  const std::string& word = record.spelling;
  if (!word.ends_with("men") || word.ends_with("women") ||
      record.segments.size() < 3 ||
      !sources.lists.contains(word.substr(0, word.size() - 2) + "an")) {
    return;
  }
  Segment& vowel = record.segments[record.segments.size() - 2];
  if (inventory[vowel.id].grapheme() == "e") {
    set_sound(vowel, "e", Phoneme::eh, inventory);
  }
}

// recall, restrict, demand: the e of a prefix that is none any more is weak,
// where the dictionary has the long one of redo and rebuild at random.
void weaken_prefix(const LexiconSources& sources, const Inventory& inventory,
                   WordRecord& record) {
  const std::string& word = record.spelling;
  if (record.segments.size() < 4 || (record.stress & 1) != 0) return;
  for (const std::string_view prefix : {"re", "de", "be", "pre"}) {
    if (!word.starts_with(prefix) || word.size() < prefix.size() + 3) continue;
    const std::string rest = word.substr(prefix.size());
    if (is_vowel_letter(rest[0])) continue;
    if (is_plain_word(sources, rest) && !sources.not_prefixed.contains(word)) {
      continue;
    }
    Segment& vowel = record.segments[prefix.size() - 1];
    const Correspondence& unit = inventory[vowel.id];
    if (unit.grapheme() == "e" && unit.sounds[0] == Phoneme::iy) {
      set_sound(vowel, "e", Phoneme::ih, inventory);
    }
  }
}

}  // namespace

void repair_by_lists(const LexiconSources& sources, const Inventory& inventory,
                     WordRecord& record) {
  sound_men(sources, inventory, record);
  weaken_prefix(sources, inventory, record);
}

}  // namespace sheaf
