#include "sheets/given_letters.h"

#include <algorithm>

#include "phonics/phoneme.h"

namespace sheaf {

std::vector<bool> half_given(const AnalyzedWord& word) {
  const std::vector<Unit>& units = word.reading.units;
  std::vector<bool> given(units.size(), false);
  if (units.size() < 2) return given;
  std::size_t own = 0;
  for (std::size_t i = 0; i < units.size(); ++i) {
    given[i] = !word.is_pattern_unit(i);
    if (!given[i]) ++own;
  }
  if (own == units.size()) {
    given.front() = true;
  } else if (own == 0) {
    const bool long_word = word.parts.size() > 1;
    for (std::size_t i = 0; i < units.size(); ++i) {
      given[i] = long_word ? units[i].begin < word.parts[1].begin : i == 0;
    }
  }
  return given;
}

std::vector<bool> one_given(const AnalyzedWord& word) {
  const std::vector<Unit>& units = word.reading.units;
  const std::vector<bool> half = half_given(word);
  std::size_t chosen = units.size();
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (!half[i]) continue;
    if (chosen == units.size()) chosen = i;
    if (!is_vowel(units[i].phonemes.front())) {
      chosen = i;
      break;
    }
  }
  std::vector<bool> given(units.size(), false);
  if (chosen < units.size()) given[chosen] = true;
  return given;
}

std::vector<bool> given_bytes(const AnalyzedWord& word,
                              const std::vector<bool>& units) {
  std::vector<bool> flags(word.reading.word.size(), true);
  for (std::size_t i = 0; i < word.reading.units.size(); ++i) {
    if (units[i]) continue;
    const Unit& unit = word.reading.units[i];
    for (std::size_t k = unit.begin; k < unit.end; ++k) flags[k] = false;
    if (unit.is_split()) flags[static_cast<std::size_t>(unit.split_e)] = false;
  }
  return flags;
}

}  // namespace sheaf
