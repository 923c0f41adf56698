#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace sheaf {

/// The sounds of English that Sheaf tells apart. The names are those of the
/// word list it is built from (ARPAbet, with `ax` for the weak vowel); `oh`,
/// `ia`, `ea`, `ua` and `hw` are made by accents only: the British short o, the
/// vowels of near, hair and tour without r, and wh with a puff of breath.
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
};

inline constexpr int kPhonemeCount = static_cast<int>(Phoneme::zh) + 1;

constexpr bool is_vowel(Phoneme p) { return p < Phoneme::b; }
/// The vowels that English teaching calls short, the weak vowel among them.
constexpr bool is_short_vowel(Phoneme p) { return p <= Phoneme::ax; }

/// "ae", "ch".
std::string_view phoneme_name(Phoneme phoneme);
std::optional<Phoneme> phoneme_from_name(std::string_view name);

/// International Phonetic Alphabet, as General American is usually written:
/// "æ", "tʃ". `er` is ɝ where stressed, ɚ elsewhere.
std::string_view to_ipa(Phoneme phoneme, bool stressed = true);

}  // namespace sheaf
