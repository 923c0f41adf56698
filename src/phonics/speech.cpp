#include "phonics/speech.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <vector>

#include "phonics/inventory.h"
#include "phonics/word_record.h"

namespace sheaf {
namespace {

using P = Phoneme;

void lengthen_bath_vowels(WordRecord& record, const Inventory& inventory,
                          bool australian) {
  constexpr P kFather[] = {P::aa};
  unsigned rest = record.bath_vowels(australian);
  for (Segment& segment : record.segments) {
    if (rest == 0) return;
    if (!is_short_a(segment, inventory)) continue;
    if ((rest & 1) != 0) {
      const int id = inventory.find(inventory[segment.id].grapheme(), kFather);
      if (id >= 0) segment.id = static_cast<CorrespondenceId>(id);
    }
    rest >>= 1;
  }
}

bool takes_yod(const Correspondence& before, bool stressed) {
  switch (before.phonemes().back()) {
    case P::t:
    case P::n:
    case P::th:
      return true;
    case P::d:
      return stressed;
    case P::z:
      return before.grapheme()[0] != 'z';
    default:
      return false;
  }
}

bool spells_long_u(std::string_view grapheme) {
  constexpr std::array<std::string_view, 9> kLongU = {
      "u", "u_e", "ew", "ue", "eu", "ui", "ur", "ure", "eur"};
  return std::ranges::find(kLongU, grapheme) != kLongU.end();
}

void keep_yod(WordRecord& record, const Inventory& inventory) {
  int beat = 0;
  for (std::size_t i = 0; i < record.segments.size(); ++i) {
    Segment& segment = record.segments[i];
    const auto sounds = inventory[segment.id].phonemes();
    const int own_beat = beat;
    beat += static_cast<int>(std::ranges::count_if(sounds, is_vowel));
    if (i == 0 || (sounds[0] != P::uw && sounds[0] != P::uh)) continue;
    const std::string_view grapheme = inventory[segment.id].grapheme();
    const bool stressed = (record.stress >> own_beat & 1) != 0;
    if (!spells_long_u(grapheme) ||
        !takes_yod(inventory[record.segments[i - 1].id], stressed)) {
      continue;
    }
    std::vector<P> with_y = {P::y};
    with_y.insert(with_y.end(), sounds.begin(), sounds.end());
    const int id = inventory.find(grapheme, with_y);
    if (id >= 0) segment.id = static_cast<CorrespondenceId>(id);
  }
}

}  // namespace

void say_as(const Speech& speech, const Inventory& inventory,
            WordRecord& record) {
  if (speech.bath_ah) {
    lengthen_bath_vowels(record, inventory,
                         speech.accent == Accent::australian);
  }
  if (speech.yod_keep) keep_yod(record, inventory);
}

}  // namespace sheaf
