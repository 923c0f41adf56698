#include "phonics/speech.h"

#include <algorithm>
#include <string_view>
#include <vector>

#include "phonics/inventory.h"
#include "phonics/word_record.h"
#include "phonics/yod.h"

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

void keep_yod(WordRecord& record, const Inventory& inventory) {
  int beat = 0;
  for (std::size_t i = 0; i < record.segments.size(); ++i) {
    Segment& segment = record.segments[i];
    const auto sounds = inventory[segment.id].phonemes();
    const int own_beat = beat;
    beat += static_cast<int>(std::ranges::count_if(sounds, is_vowel));
    if (i == 0) continue;
    const std::string_view grapheme = inventory[segment.id].grapheme();
    const Correspondence& before = inventory[record.segments[i - 1].id];
    if (!keeps_yod(
            {.grapheme = grapheme,
             .sound = sounds[0],
             .stressed = own_beat < 16 && (record.stress >> own_beat & 1) != 0,
             .grapheme_before = before.grapheme(),
             .sound_before = before.phonemes().back()})) {
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
