#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "phonics/inventory.h"

namespace sheaf {

/// What it costs to lay a word's letters out one by one where readers take them
/// together, in the unit of `GuessStep::cost`. The word list teaches the
/// guesser which graphemes stand behind which, but a team behind a grapheme
/// that few words have before it would lose against two common letters there
/// (zoam). These are rules of the trade (common practice, no source), with
/// weights, since *create* and *lion* are words too:
/// - Two vowel letters that make a team (ai, oa, igh) are one grapheme, those
///   with w and y where no vowel follows. The more so where the word has no
///   other vowel letters but a final e.
/// - sh, ch, th, ph, wh, ck, qu and dge are one grapheme, so are kn, gn, wr and
///   rh at the beginning and ng at the end.
/// - A final e behind a vowel and a consonant is silent.
/// - A final re behind a consonant is one grapheme (centre).
/// - The e of a split grapheme stands at the end of the word or its base.
/// - The l of a final alk, alm and alf is part of the vowel (walk, calm, half).
/// - The vowel of a word of one beat is no weak one, so or is not said as in
///   doctor, unless w makes it so (word); single letters are short before a
///   consonant and long at the end, and what a grapheme says less often is
///   said where the letters around it ask for it only.
class LetterTeams {
 public:
  /// `letters` must outlive it.
  explicit LetterTeams(std::string_view letters);

  /// For a unit that begins at `at` directly behind `before` (nothing at the
  /// beginning of the word and behind a split e).
  int cost(const Correspondence& unit, const Correspondence* before,
           std::size_t at) const;
  /// For the e of a split grapheme at `at`.
  int split_end_cost(std::size_t at) const;

 private:
  int vowel_team_cost(std::size_t at) const;
  int apart_cost(std::size_t at) const;
  bool is_silent_end(std::size_t at) const;

  std::string_view letters_;
  bool one_beat_ = false;
  /// `apart_cost` of each place: a guess asks for it for every unit that may
  /// begin there.
  std::vector<int> apart_;
};

}  // namespace sheaf
