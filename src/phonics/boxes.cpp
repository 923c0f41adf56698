#include "phonics/boxes.h"

namespace sheaf {
namespace {

using P = Phoneme;

// How many phonemes from `at` on make one sound.
std::size_t group_size(const Unit& unit, std::size_t at, bool vowel_follows,
                       const Conventions& c) {
  const std::vector<P>& p = unit.phonemes;
  const std::size_t left = p.size() - at;
  if (left < 2) return left;
  // "car": the vowel with its r; the r of "story" may stand by itself.
  const auto with_r = [&](std::size_t i) {
    return i + 1 < p.size() && is_vowel(p[i]) && p[i + 1] == P::r;
  };
  const bool r_joins =
      !c.r_vowel_two && !(vowel_follows && c.r_between_vowels_split);
  if (with_r(at)) return r_joins ? 2 : 1;
  // u as /yoo/, and cure as one with its r.
  if (p[at] == P::y && is_vowel(p[at + 1])) {
    if (c.long_u_two) return 1;
    return with_r(at + 1) && r_joins ? 3 : 2;
  }
  // -le, and the m of "rhythm".
  if (p[at] == P::ax && (p[at + 1] == P::l || p[at + 1] == P::m)) {
    return c.final_le_two ? 1 : 2;
  }
  if (unit.grapheme == "ed") return c.ed_syllable_one ? 2 : 1;
  const bool with_w = p[at + 1] == P::w || p[at] == P::w;
  if (with_w) return c.qu_one ? 2 : 1;
  // What is longer is an abbreviation: the letters of Mr say its whole word.
  return c.x_one && p.size() == 2 && !is_vowel(p[1]) ? 2 : 1;
}

bool begins_with_vowel(const Unit& unit) {
  return is_vowel(unit.phonemes.front());
}

}  // namespace

std::vector<Sound> count_boxes(std::span<const Unit> units,
                               const Conventions& conventions) {
  std::vector<Sound> sounds;
  sounds.reserve(units.size());
  for (std::size_t i = 0; i < units.size(); ++i) {
    const Unit& unit = units[i];
    const bool vowel_follows =
        i + 1 < units.size() && begins_with_vowel(units[i + 1]);
    const std::size_t first = sounds.size();
    for (std::size_t at = 0; at < unit.phonemes.size();) {
      const std::size_t size = group_size(unit, at, vowel_follows, conventions);
      Sound sound;
      sound.phonemes.assign(unit.phonemes.begin() + at,
                            unit.phonemes.begin() + at + size);
      // The vowel of story by itself, where caught is said as cot.
      if (conventions.cot_caught_merged && size == 1 &&
          sound.phonemes[0] == P::ao) {
        sound.phonemes[0] = P::oh;
      }
      sound.unit = static_cast<std::uint8_t>(i);
      sounds.push_back(std::move(sound));
      at += size;
    }
    const std::size_t parts = sounds.size() - first;
    for (std::size_t k = first; k < sounds.size(); ++k) {
      sounds[k].part = static_cast<std::uint8_t>(k - first);
      sounds[k].parts = static_cast<std::uint8_t>(parts);
    }
    // Two units in one box: n before k, and a weak vowel before n.
    if (i == 0 || parts != 1 || first == 0) continue;
    const Unit& before = units[i - 1];
    if (before.phonemes.size() != 1 || unit.phonemes.size() != 1) continue;
    const P a = before.phonemes[0], b = unit.phonemes[0];
    const bool nk = conventions.nk_one && a == P::ng && b == P::k;
    const bool syllabic = conventions.syllabic_n_one && a == P::ax &&
                          b == P::n && i >= 2 &&
                          (units[i - 2].phonemes.back() == P::t ||
                           units[i - 2].phonemes.back() == P::d);
    if (nk || syllabic) {
      sounds[first - 1].phonemes.push_back(b);
      ++sounds[first - 1].units;
      sounds.pop_back();
    }
  }
  return sounds;
}

}  // namespace sheaf
