#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "marking/error_cue.h"
#include "phonics/conventions.h"

namespace sheaf {

/// A misspelling to be ready for. For the teacher only: misspellings are never
/// printed for learners.
struct LikelyError {
  std::string written;
  /// The grapheme it is about; their number where it is about an apostrophe.
  std::size_t grapheme = 0;
  Cause cause = Cause::none;
  /// How likely it is beside others, in thousandths; no probability.
  int weight = 0;
  ErrorCue cue;
};

struct LikelyErrorOptions {
  /// Units that show the lesson's pattern: errors there come first.
  std::span<const std::uint8_t> pattern_units;
  LearnerSpeech speech;
  WordTest is_word;
  /// Tells other words that learners may know; may be empty.
  WordTest is_common_word = {};
  /// A sentence with the word, for cues to what it means; may be empty.
  std::string sentence = {};
  Conventions conventions;
  /// The rules that cues say; without it they say none.
  const CueRules* rules = nullptr;
};

/// The likeliest misspellings of a word, those of the pattern first, then the
/// likeliest, at most `most`, no two about the same grapheme with the same
/// cause. Computed from how often each grapheme spells the sound where English
/// could put it, and from what learners are known to do: near vowels taken for
/// each other, sounds of a blend left out, long vowels written with one letter,
/// endings written as they sound, joints missed. The weights of the latter are
/// ours.
std::vector<LikelyError> likely_errors(const SoundSpellings& spellings,
                                       const Reading& word,
                                       const LikelyErrorOptions& options = {},
                                       std::size_t most = 2);

}  // namespace sheaf
