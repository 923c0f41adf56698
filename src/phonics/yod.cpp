#include "phonics/yod.h"

#include <algorithm>
#include <array>

namespace sheaf {
namespace {

using P = Phoneme;

bool spells_long_u(std::string_view grapheme) {
  constexpr std::array<std::string_view, 9> kLongU = {
      "u", "u_e", "ew", "ue", "eu", "ui", "ur", "ure", "eur"};
  return std::ranges::find(kLongU, grapheme) != kLongU.end();
}

}  // namespace

bool keeps_yod(const LongU& vowel) {
  if (vowel.sound != P::uw && vowel.sound != P::uh) return false;
  if (!spells_long_u(vowel.grapheme)) return false;
  switch (vowel.sound_before) {
    case P::t:
    case P::n:
    case P::th:
      return true;
    case P::d:
      return vowel.stressed;
    case P::z:
      return !vowel.grapheme_before.starts_with('z');
    default:
      return false;
  }
}

}  // namespace sheaf
