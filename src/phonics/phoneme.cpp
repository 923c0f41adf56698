#include "phonics/phoneme.h"

#include <array>

namespace sheaf {
namespace {

// In the order of the enumeration.
constexpr std::array<std::string_view, kPhonemeCount> kNames = {
    "ae", "eh", "ih", "aa", "ah", "uh", "oh", "ax", "ey", "iy",  "ay", "ow",
    "uw", "ao", "aw", "oy", "er", "ia", "ea", "ua", "b",  "ch",  "d",  "dh",
    "f",  "g",  "hh", "hw", "jh", "k",  "l",  "m",  "n",  "ng",  "p",  "r",
    "s",  "sh", "t",  "th", "v",  "w",  "y",  "z",  "zh", "axr",
};

}  // namespace

std::string_view phoneme_name(Phoneme phoneme) {
  return kNames[static_cast<std::size_t>(phoneme)];
}

std::optional<Phoneme> phoneme_from_name(std::string_view name) {
  for (std::size_t i = 0; i < kNames.size(); ++i) {
    if (kNames[i] == name) return static_cast<Phoneme>(i);
  }
  return std::nullopt;
}

}  // namespace sheaf
