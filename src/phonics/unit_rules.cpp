#include "phonics/unit_rules.h"

namespace sheaf {
namespace {

bool swallows_e(const Correspondence& unit) {
  return !unit.has_vowel() && unit.length > 1 &&
         unit.letters[unit.length - 1] == 'e' &&
         (unit.length == 2 || unit.grapheme() == "the" ||
          unit.grapheme() == "che");
}

// ve, ce, ge, se, ze, xe and che.
bool keeps_e(const Correspondence& unit) {
  return std::string_view("cgsvxzh").find(unit.letters[unit.length - 2]) !=
         std::string_view::npos;
}

// ce, ge, che, te, se: said otherwise than without the e.
bool softens(const Correspondence& unit) {
  return std::string_view("cghst").find(unit.letters[unit.length - 2]) !=
         std::string_view::npos;
}

}  // namespace

LastUnit kind_of(const Correspondence& unit) {
  const Phoneme sound = unit.sounds[unit.sound_count - 1];
  if (unit.length != 1 || !is_vowel(sound)) return kOther;
  return is_short_vowel(sound) || sound == Phoneme::ao ? kShortLetter
                                                       : kLongLetter;
}

bool may_follow(const Correspondence& unit, LastUnit last,
                std::string_view letters, std::size_t end) {
  if (unit.has_vowel() || unit.length < 2) return true;
  const char end_letter = unit.letters[unit.length - 1];
  if (end_letter == 'i') {  // nation, special, legion; not fragile
    return end < letters.size() && std::string_view("aeou").find(
                                       letters[end]) != std::string_view::npos;
  }
  if (end_letter != 'e') return true;
  // A silent e does not stand before another vowel (liqueur is qu and eur) but
  // where it softens its consonant: ocean, courageous.
  if (end < letters.size() && is_vowel_letter(letters[end])) {
    return softens(unit) &&
           std::string_view("aou").find(letters[end]) != std::string_view::npos;
  }
  if (last == kOther || !swallows_e(unit)) return true;
  return last == kShortLetter && keeps_e(unit);
}

bool may_stand_at(const Correspondence& unit, std::string_view letters,
                  std::size_t at) {
  const char before = at > 0 ? letters[at - 1] : '\0';
  if (unit.grapheme() == "re") return at > 0 && !is_vowel_letter(before);
  const bool syllabic = unit.length == 1 && unit.sound_count == 2 &&
                        unit.sounds[0] == Phoneme::ax;
  if (!syllabic) return true;
  return unit.letters[0] == 'm' ? before == 's' || before == 'h'
                                : at > 0 && !is_vowel_letter(before);
}

bool may_stand_in_split(const Correspondence& unit) {
  if (unit.grapheme() == "r") return true;  // fire, with r as its own beat
  if (unit.has_vowel()) return false;
  if (unit.length == 1) return unit.letters[0] != 'x';
  return unit.grapheme() == "th" || unit.grapheme() == "ch";
}

bool split_is_possible(std::string_view letters, std::size_t at,
                       bool short_vowel) {
  const auto letter = [&](std::size_t i) {
    return i < letters.size() ? letters[i] : '\0';
  };
  if (is_vowel_letter(letter(at + 1)) || letter(at + 1) == '\0') return false;
  if (letter(at + 2) == 'e') {
    constexpr std::string_view kKeepTheirE = "cgsvxz";
    return !short_vowel ||
           kKeepTheirE.find(letter(at + 1)) == std::string_view::npos;
  }
  const std::string_view two = letters.substr(at + 1, 2);
  return letter(at + 3) == 'e' && (two == "th" || two == "ch" || two == "st");
}

}  // namespace sheaf
