#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "base/diagnostics.h"

namespace sheaf {

/// How sounds are written for people: plain letters (/sh/, /ee/), dictionary
/// marks (ă, ā) or the International Phonetic Alphabet.
enum class Notation : std::uint8_t { plain, marks, ipa };

enum class Accent : std::uint8_t {
  general_american,
  british,
  scottish,
  australian,
};

/// The language tag of pages whose words are said so (RFC 5646): a screen
/// reader takes its voice by it. Scottish English has no region of its own:
/// "en-GB".
std::string_view language_tag(Accent accent);

/// How sounds are counted into boxes and which accent they are said in. Each
/// switch changes a count or a label; none changes what a word's graphemes
/// are. The defaults are stated, with their sources, in `convention_switches`.
struct Conventions {
  Accent accent = Accent::general_american;
  Notation notation = Notation::plain;

  bool r_vowel_two = false;
  bool r_between_vowels_split = false;
  bool long_u_two = false;
  bool x_one = false;
  bool qu_one = false;
  bool final_le_two = false;
  bool nk_one = false;
  bool ed_syllable_one = false;
  bool syllabic_n_one = false;
  bool yod_keep = false;
  bool wh_hw = false;
  bool cot_caught_merged = false;
  bool bath_ah = false;
  bool silent_own_mark = false;

  /// Whether r is said after a vowel.
  bool rhotic() const {
    return accent == Accent::general_american || accent == Accent::scottish;
  }

  friend bool operator==(const Conventions&, const Conventions&) = default;
};

/// One switch that a lesson, sequence or layout may set.
struct ConventionSwitch {
  std::string_view name;
  bool Conventions::*setting;
  /// The value that stands for false, then for true.
  std::string_view off;
  std::string_view on;
  /// What it changes, with examples: "car: 2 boxes, else 3".
  std::string_view effect;
  /// Where the default comes from; says so where it is a judgement.
  std::string_view source;
};

std::span<const ConventionSwitch> convention_switches();

/// The switches as an accent has them.
Conventions conventions_for(Accent accent);

/// Sets one switch by name: a row of `convention_switches`, or one of the
/// presets `accent`, `count` (as-spoken, as-taught) and `notation`, which set
/// several. Presets overwrite single switches, so set them first. Gives
/// nothing, or a sentence that says what is wrong, with the nearest names.
struct ConventionFault {
  std::string text;
  Help help;
  bool in_name = false;
  explicit operator bool() const { return !text.empty(); }
};
ConventionFault set_convention(Conventions& conventions, std::string_view name,
                               std::string_view value);

/// The value of a switch or preset as a lesson would write it.
std::string convention_value(const Conventions& conventions,
                             std::string_view name);

}  // namespace sheaf
