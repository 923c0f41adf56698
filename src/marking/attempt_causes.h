#pragma once

#include <span>

#include "marking/grapheme_alignment.h"
#include "marking/grapheme_costs.h"
#include "marking/mark_attempt.h"

namespace sheaf {

/// An attempt laid against its target, for what lies behind its errors. The
/// parts must outlive it.
struct LaidAttempt {
  std::span<const TargetUnit> target;
  const GraphemeAlignment& alignment;
  const WrittenGraphemes& written;
};

struct Judged {
  GraphemeResult result = GraphemeResult::correct;
  Cause cause = Cause::none;
};

/// What unit `index` of the target came to, and why.
Judged judge_unit(const LaidAttempt& attempt, std::size_t index);

/// Why the letter at `at` is there, which belongs to no grapheme; `before` as
/// in `ExtraLetter`.
Cause cause_of_extra(const LaidAttempt& attempt, std::size_t at,
                     std::size_t before);

/// A single vowel letter with the sound that it has in the target: whether it
/// reads long where that is short, or the other way round, at `at` of the
/// letters that were written. Only where the target's own letters say how it
/// is read: lemon does not.
bool vowel_reads_otherwise(std::span<const TargetUnit> target, std::size_t unit,
                           std::string_view letters, std::size_t at);

/// Letters that are a consonant letter doubled: pp for p, ck for k.
bool is_doubled_form(std::string_view letters, std::string_view grapheme);

}  // namespace sheaf
