#include "phonics/conventions.h"

#include <array>
#include <optional>
#include <vector>

#include "base/diagnostics.h"
#include "base/nearest.h"

namespace sheaf {
namespace {

using C = Conventions;

// Default first. CCSS: Common Core State Standards for English Language Arts,
// Appendix A (2010). NC: National curriculum in England, English Appendix 1
// (2013). "memory": known to the authors, not looked up.
constexpr std::array kSwitches = {
    ConventionSwitch{"r-vowel", &C::r_vowel_two, "one", "two",
                     "a vowel with its r is one box: car 2, else 3; fork 3, "
                     "else 4; her stays 2",
                     "CCSS lists er, ar, or as vowels; NC has single vowels; "
                     "Treiman and Cassar 1997: people count fewer sounds where "
                     "a syllable ends in r"},
    ConventionSwitch{"r-between-vowels", &C::r_between_vowels_split, "joined",
                     "split",
                     "an r between vowels gets a box of its own: story 4, "
                     "else 5; hearing 4, else 5",
                     "split in british and scottish, as said there; joined "
                     "elsewhere is a judgement"},
    ConventionSwitch{"long-u", &C::long_u_two, "one", "two",
                     "u as /yoo/ is one box: cube 3, else 4; music 5, else 6",
                     "NC calls it one sound, CCSS lists two; the default is a "
                     "judgement"},
    ConventionSwitch{"x", &C::x_one, "two", "one",
                     "x is written across two boxes: box 4, else 3",
                     "common practice, no source"},
    ConventionSwitch{"qu", &C::qu_one, "two", "one",
                     "qu is written across two boxes: queen 4, else 3",
                     "CCSS lists queen under /w/"},
    ConventionSwitch{"final-le", &C::final_le_two, "one", "two",
                     "-le after a consonant is one box: table 4, else 5",
                     "NC allows /l/ and /el/; the default is a judgement"},
    ConventionSwitch{"nk", &C::nk_one, "two", "one",
                     "n and k have a box each: sink 4, else 3",
                     "NC year 1: /ng/ spelled n before k"},
    ConventionSwitch{"ed-syllable", &C::ed_syllable_one, "two", "one",
                     "-ed as /id/ is written across two boxes: landed 6, "
                     "else 5",
                     "NC: /id/ is an extra syllable"},
    ConventionSwitch{"syllabic-n", &C::syllabic_n_one, "two", "one",
                     "weak vowel and n after t or d: button 5, else 4",
                     "common practice, no source"},
    ConventionSwitch{"yod", &C::yod_keep, "drop", "keep",
                     "tune, new and due said with /y/; counts change with "
                     "long-u only",
                     "drop in general-american, keep elsewhere (memory)"},
    ConventionSwitch{"wh", &C::wh_hw, "w", "hw",
                     "how wh is said in when; no count changes",
                     "CCSS lists /wh/ by itself; most say /w/ (memory)"},
    ConventionSwitch{"cot-caught", &C::cot_caught_merged, "distinct", "merged",
                     "whether cot and caught have one vowel; no count changes",
                     "the word list mixes both; distinct is a judgement"},
    ConventionSwitch{"bath", &C::bath_ah, "short-a", "ah",
                     "the vowel of bath, grass, dance; no count changes",
                     "ah in british and australian (memory)"},
    ConventionSwitch{"silent-letter", &C::silent_own_mark, "join-next",
                     "own-mark",
                     "a silent letter shares its neighbour's mark; never a "
                     "box of its own",
                     "a judgement"},
};

struct AccentName {
  std::string_view name;
  Accent accent;
};
constexpr std::array kAccents = {
    AccentName{"general-american", Accent::general_american},
    AccentName{"british", Accent::british},
    AccentName{"scottish", Accent::scottish},
    AccentName{"australian", Accent::australian},
};
constexpr std::array<std::string_view, 3> kNotations = {"plain", "marks",
                                                        "ipa"};
constexpr std::array<std::string_view, 2> kCounts = {"as-spoken", "as-taught"};

// The count presets: as-taught has a box for each mark, as-spoken one for
// each sound that a dictionary counts but for the r of r-vowels and -le.
void set_count(Conventions& c, bool as_taught) {
  c.r_vowel_two = false;
  c.long_u_two = false;
  c.final_le_two = false;
  c.x_one = as_taught;
  c.qu_one = as_taught;
  c.ed_syllable_one = as_taught;
  c.nk_one = false;
  c.syllabic_n_one = false;
}

bool is_as_taught(const Conventions& c) {
  Conventions other = c;
  set_count(other, true);
  return other == c;
}

ConventionFault unknown_value(std::string_view name, std::string_view value,
                              std::span<const std::string_view> values) {
  ConventionFault fault;
  fault.text = "`" + std::string(name) + "` cannot be " + quoted(value);
  fault.help = did_you_mean(value, values, Suggests::fixed_choice);
  if (fault.help.empty()) {
    std::string& help = fault.help.text;
    help = "write ";
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (i > 0) help += i + 1 == values.size() ? " or " : ", ";
      help += "`" + std::string(values[i]) + "`";
    }
  }
  return fault;
}

template <typename Values>
std::optional<std::size_t> index_of(const Values& values,
                                    std::string_view value) {
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values[i] == value) return i;
  }
  return std::nullopt;
}

ConventionFault set_accent(Conventions& conventions, std::string_view value) {
  std::array<std::string_view, kAccents.size()> names;
  for (std::size_t i = 0; i < kAccents.size(); ++i) names[i] = kAccents[i].name;
  const auto found = index_of(names, value);
  if (!found) return unknown_value("accent", value, names);
  const Notation notation = conventions.notation;
  conventions = conventions_for(kAccents[*found].accent);
  conventions.notation = notation;
  return {};
}

}  // namespace

std::span<const ConventionSwitch> convention_switches() { return kSwitches; }

std::string_view language_tag(Accent accent) {
  switch (accent) {
    case Accent::general_american:
      return "en-US";
    case Accent::british:
    case Accent::scottish:
      return "en-GB";
    case Accent::australian:
      return "en-AU";
  }
  return "en-US";
}

Conventions conventions_for(Accent accent) {
  Conventions c;
  c.accent = accent;
  if (accent == Accent::general_american) return c;
  c.r_between_vowels_split = true;
  c.yod_keep = true;
  c.bath_ah = accent != Accent::scottish;
  c.wh_hw = accent == Accent::scottish;
  c.cot_caught_merged = accent == Accent::scottish;
  return c;
}

ConventionFault set_convention(Conventions& conventions, std::string_view name,
                               std::string_view value) {
  if (name == "accent") return set_accent(conventions, value);
  if (name == "count") {
    const auto found = index_of(kCounts, value);
    if (!found) return unknown_value(name, value, kCounts);
    set_count(conventions, *found == 1);
    return {};
  }
  if (name == "notation") {
    const auto found = index_of(kNotations, value);
    if (!found) return unknown_value(name, value, kNotations);
    conventions.notation = static_cast<Notation>(*found);
    return {};
  }
  for (const ConventionSwitch& s : kSwitches) {
    if (s.name != name) continue;
    const std::array values = {s.off, s.on};
    const auto found = index_of(values, value);
    if (!found) return unknown_value(name, value, values);
    conventions.*s.setting = *found == 1;
    return {};
  }
  std::vector<std::string_view> names = {"accent", "count", "notation"};
  for (const ConventionSwitch& s : kSwitches) names.push_back(s.name);
  ConventionFault fault;
  fault.in_name = true;
  fault.text = "there is no convention named " + quoted(name);
  fault.help = did_you_mean(name, names, Suggests::fixed_choice);
  return fault;
}

std::string convention_value(const Conventions& conventions,
                             std::string_view name) {
  if (name == "accent") {
    return std::string(
        kAccents[static_cast<std::size_t>(conventions.accent)].name);
  }
  if (name == "notation") {
    return std::string(
        kNotations[static_cast<std::size_t>(conventions.notation)]);
  }
  if (name == "count") {
    return std::string(kCounts[is_as_taught(conventions) ? 1 : 0]);
  }
  for (const ConventionSwitch& s : kSwitches) {
    if (s.name == name) {
      return std::string(conventions.*s.setting ? s.on : s.off);
    }
  }
  return {};
}

}  // namespace sheaf
