#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "marking/mark_attempt.h"
#include "phonics/pattern_rule.h"
#include "phonics/phonics.h"

namespace sheaf {

/// What a teacher says of a pattern's rule when a learner has missed it: a row
/// of src/data/cue_rules.tsv.
struct CueRule {
  /// At which grapheme of the word it holds: the places of its patterns, all of
  /// a word that has one of them, or where the conditions are met.
  enum class Where : std::uint8_t { at_pattern, in_word, by_conditions };

  int line = 0;                            ///< of the table, from 1
  std::vector<std::string_view> patterns;  ///< their ids
  Where where = Where::by_conditions;
  std::string_view conditions;  ///< as in patterns.tsv
  /// What was written: graphemes, or names of causes.
  std::vector<std::string_view> errors;
  std::string_view text;  ///< one sentence
  std::string_view source;
};

/// All rows, in their order; read once.
std::span<const CueRule> cue_rules();

/// A rule that can be said of an error, and the pattern of the word that it is
/// about (of those that the rule names, the first one that the word has).
struct FoundRule {
  std::string_view text;
  std::string_view pattern;

  explicit operator bool() const { return !text.empty(); }
};

/// Finds the rule for an error. `Phonics` must outlive it.
class CueRules {
 public:
  explicit CueRules(const Phonics& phonics)
      : phonics_(phonics), read_(cue_rules().size()) {}

  /// The first rule that holds at unit `index` of the word and decides against
  /// what was written for it; nothing where the trade has no rule.
  FoundRule find(const Reading& word, std::size_t index, Cause cause,
                 std::string_view written) const;

  /// What is wrong with a row, for the tests; empty where it is good.
  std::string fault(std::size_t row) const;

 private:
  // A row's patterns and conditions, read when it is first asked for.
  struct Read {
    std::vector<PatternId> patterns;
    std::vector<RuleCondition> conditions;
    std::string fault;
  };
  const Read& read(std::size_t row) const;

  const Phonics& phonics_;
  mutable std::vector<std::unique_ptr<const Read>> read_;
};

}  // namespace sheaf
