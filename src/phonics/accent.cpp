#include "phonics/accent.h"

#include <algorithm>

#include "phonics/yod.h"

namespace sheaf {
namespace {

using P = Phoneme;

bool one_of(std::string_view text,
            std::initializer_list<std::string_view> all) {
  return std::ranges::find(all, text) != all.end();
}

bool vowel_follows(const std::vector<Unit>& units, std::size_t i) {
  return i + 1 < units.size() && is_vowel(units[i + 1].phonemes[0]);
}

// The centring vowels of near, hair and tour.
P with_lost_r(P vowel) {
  switch (vowel) {
    case P::ih:
      return P::ia;
    case P::eh:
      return P::ea;
    case P::uh:
      return P::ua;
    default:
      return vowel;
  }
}

// The r of "fur" is heard again before a vowel: furry.
void link_r(Unit& unit) {
  unit.phonemes.back() = unit.stressed ? P::er : P::ax;
  unit.phonemes.push_back(P::r);
}

// The e of hero and period is the vowel of near, though its r stands by itself.
bool is_near_before_r(const std::vector<Unit>& units, std::size_t i) {
  return units[i].stressed && units[i].grapheme[0] == 'e' &&
         units[i].phonemes == std::vector{P::ih} && i + 1 < units.size() &&
         units[i + 1].phonemes[0] == P::r;
}

// Scotland says every r, and hears the one of furry by itself.
void part_r(std::vector<Unit>& units) {
  for (std::size_t i = 0; i < units.size(); ++i) {
    std::vector<P>& p = units[i].phonemes;
    if (is_near_before_r(units, i)) p[0] = P::iy;
    if (p.back() == P::er && vowel_follows(units, i)) link_r(units[i]);
  }
}

void lose_r(std::vector<Unit>& units) {
  for (std::size_t i = 0; i < units.size(); ++i) {
    std::vector<P>& p = units[i].phonemes;
    if (is_near_before_r(units, i)) p[0] = P::ia;
    const bool linked = vowel_follows(units, i);
    if (p.back() == P::er) {
      if (linked) link_r(units[i]);
      continue;
    }
    for (std::size_t k = 0; k + 1 < p.size(); ++k) {
      if (!is_vowel(p[k]) || p[k + 1] != P::r) continue;
      p[k] = with_lost_r(p[k]);
      if (!(linked && k + 2 == p.size())) {
        p.erase(p.begin() + static_cast<std::ptrdiff_t>(k) + 1);
      }
    }
  }
}

// The end of sister: weak, with its r or without. The or of firework is not,
// whatever stress the word list gives it.
void weaken_er(std::vector<Unit>& units, bool rhotic) {
  for (std::size_t i = 0; i < units.size(); ++i) {
    Unit& unit = units[i];
    const bool work =
        unit.grapheme == "or" && i > 0 && units[i - 1].grapheme == "w";
    if (unit.stressed || unit.given || work) continue;
    std::ranges::replace(unit.phonemes, P::er, rhotic ? P::axr : P::ax);
  }
}

void keep_yod(std::vector<Unit>& units) {
  for (std::size_t i = 1; i < units.size(); ++i) {
    Unit& unit = units[i];
    std::vector<P>& p = unit.phonemes;
    if (unit.given) continue;
    const Unit& before = units[i - 1];
    if (keeps_yod({.grapheme = unit.grapheme,
                   .sound = p[0],
                   .stressed = unit.stressed,
                   .grapheme_before = before.grapheme,
                   .sound_before = before.phonemes.back()})) {
      p.insert(p.begin(), P::y);
    }
  }
}

// Whether a unit spells the short o of pond: by o, ou of cough, a behind w.
bool is_short_o(const std::vector<Unit>& units, std::size_t i) {
  const Unit& unit = units[i];
  if (unit.given || unit.phonemes.size() != 1) return false;
  const P p = unit.phonemes[0];
  const std::string_view g = unit.grapheme;
  if ((p == P::aa || p == P::ao) &&
      one_of(g, {"o", "ho", "oh", "ow", "o_e", "ou", "ach", "e", "eau"})) {
    return true;
  }
  return g == "a" && i > 0 && p == P::aa &&
         one_of(units[i - 1].grapheme, {"w", "wh", "qu"});
}

}  // namespace

void apply_accent(std::vector<Unit>& units, const Conventions& c) {
  for (std::size_t i = 0; i < units.size(); ++i) {
    std::vector<P>& p = units[i].phonemes;
    const bool merged = c.cot_caught_merged && p.size() == 1 && p[0] == P::ao;
    if (merged || is_short_o(units, i)) p[0] = P::oh;
    units[i].father = (c.accent != Accent::general_american || c.bath_ah) &&
                      units[i].grapheme == "a" && p == std::vector{P::aa};
    if (c.wh_hw && units[i].grapheme == "wh" && p.size() == 1 && p[0] == P::w) {
      p[0] = P::hw;
    }
  }
  if (c.yod_keep) keep_yod(units);
  if (c.accent == Accent::scottish) part_r(units);
  if (!c.rhotic()) lose_r(units);
  weaken_er(units, c.rhotic());
}

std::vector<Phoneme> in_accent(std::string_view grapheme,
                               const std::vector<Phoneme>& listed,
                               const Conventions& conventions) {
  std::vector<Unit> units(1);
  units[0].grapheme = grapheme;
  units[0].phonemes = listed;
  units[0].stressed = true;
  apply_accent(units, conventions);
  return std::move(units[0].phonemes);
}

std::vector<Phoneme> as_listed(std::vector<Phoneme> phonemes) {
  for (P& p : phonemes) {
    if (p == P::oh) p = P::aa;
    if (p == P::axr) p = P::er;
  }
  return phonemes;
}

}  // namespace sheaf
