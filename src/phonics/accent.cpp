#include "phonics/accent.h"

#include <algorithm>
#include <array>

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

// The r of "fur" is heard again before a vowel; where the letters are doubled
// or ou, the vowel before it is short: hurry, worry, squirrel, courage.
void link_r(Unit& unit) {
  const std::string& g = unit.grapheme;
  P vowel = unit.stressed ? P::er : P::ax;
  if (unit.stressed && one_of(g, {"urr", "orr", "our"})) vowel = P::ah;
  if (unit.stressed && one_of(g, {"irr", "yr"})) vowel = P::ih;
  unit.phonemes.back() = vowel;
  unit.phonemes.push_back(P::r);
}

void lose_r(std::vector<Unit>& units) {
  for (std::size_t i = 0; i < units.size(); ++i) {
    std::vector<P>& p = units[i].phonemes;
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

bool spells_long_u(const Unit& unit) {
  return one_of(unit.grapheme,
                {"u", "u_e", "ew", "ue", "eu", "ui", "ur", "ure", "eur"});
}

void keep_yod(std::vector<Unit>& units) {
  for (std::size_t i = 1; i < units.size(); ++i) {
    std::vector<P>& p = units[i].phonemes;
    const P before = units[i - 1].phonemes.back();
    const bool takes_y = before == P::t || before == P::d || before == P::n;
    if (takes_y && spells_long_u(units[i]) &&
        (p[0] == P::uw || p[0] == P::uh) && units[i].stressed) {
      p.insert(p.begin(), P::y);
    }
  }
}

// Before f, s, th, or n and m with another consonant: bath, dance, sample.
bool before_bath_sound(const std::vector<Unit>& units, std::size_t i) {
  if (i + 1 >= units.size()) return false;
  switch (units[i + 1].phonemes[0]) {
    case P::f:
    case P::s:
    case P::th:
    case P::dh:
    case P::n:
    case P::m:
    case P::v:
      return true;
    default:
      return false;
  }
}

// Whether a unit spells the short o of pond: by o, ou of cough, a behind w.
bool is_short_o(const std::vector<Unit>& units, std::size_t i,
                const Conventions& c) {
  const Unit& unit = units[i];
  if (unit.given || unit.phonemes.size() != 1) return false;
  const P p = unit.phonemes[0];
  const std::string_view g = unit.grapheme;
  if ((p == P::aa || p == P::ao) &&
      one_of(g, {"o", "ho", "oh", "ow", "o_e", "ou", "ach", "e", "eau"})) {
    return true;
  }
  // was, what and of, which General American says with short u
  const bool weak = p == P::ah && c.accent != Accent::general_american;
  if (weak && g == "o" && units.size() == 2 && i == 0) return true;
  return g == "a" && i > 0 && (p == P::aa || weak) &&
         one_of(units[i - 1].grapheme, {"w", "wh", "qu"});
}

}  // namespace

void apply_accent(std::vector<Unit>& units, bool bath_word,
                  const Conventions& c) {
  for (std::size_t i = 0; i < units.size(); ++i) {
    std::vector<P>& p = units[i].phonemes;
    const bool merged = c.cot_caught_merged && p.size() == 1 && p[0] == P::ao;
    if (merged || is_short_o(units, i, c)) p[0] = P::oh;
    if (c.bath_ah && bath_word && p.size() == 1 && p[0] == P::ae &&
        before_bath_sound(units, i)) {
      p[0] = P::aa;
    }
    if (c.wh_hw && units[i].grapheme == "wh" && p.size() == 1 && p[0] == P::w) {
      p[0] = P::hw;
    }
  }
  if (c.yod_keep) keep_yod(units);
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
  apply_accent(units, false, conventions);
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
