#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace sheaf {

/// The sounds of English that Sheaf tells apart. The names are those of the
/// word list it is built from (ARPAbet, with `ax` for the weak vowel). `oh`,
/// `axr`, `ia`, `ea`, `ua` and `hw` are in no word list; they are made when a
/// reading is: short o, the weak vowel with its r (sister, in accents that say
/// it), the vowels of near, hair and tour without r, and wh with a puff of
/// breath.
enum class Phoneme : std::uint8_t {
  // Short vowels.
  ae,
  eh,
  ih,
  aa,
  ah,
  uh,
  oh,
  ax,
  // Long ones and glides.
  ey,
  iy,
  ay,
  ow,
  uw,
  ao,
  aw,
  oy,
  er,
  ia,
  ea,
  ua,
  // Consonants.
  b,
  ch,
  d,
  dh,
  f,
  g,
  hh,
  hw,
  jh,
  k,
  l,
  m,
  n,
  ng,
  p,
  r,
  s,
  sh,
  t,
  th,
  v,
  w,
  y,
  z,
  zh,
  // A vowel again: the numbers of the others stand in the list of what is
  // blocked, so they stay.
  axr,
};

inline constexpr int kPhonemeCount = static_cast<int>(Phoneme::axr) + 1;

constexpr bool is_vowel(Phoneme p) {
  return p < Phoneme::b || p == Phoneme::axr;
}
/// The vowels that English teaching calls short, the weak vowel among them.
constexpr bool is_short_vowel(Phoneme p) { return p <= Phoneme::ax; }

/// "ae", "ch".
std::string_view phoneme_name(Phoneme phoneme);
std::optional<Phoneme> phoneme_from_name(std::string_view name);

}  // namespace sheaf
