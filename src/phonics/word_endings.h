#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "phonics/endings.h"
#include "phonics/lexicon.h"

namespace sheaf {

/// A base is a word that people meet: in SCOWL's lists up to this size. Larger
/// lists have "ton" and "et" and nearly any other string.
inline constexpr int kLargestBaseList = 50;

/// An ending taken off a word, with the record of the base it leaves; without
/// one where the base is not in the word list (Quinlan's) or only behind a
/// prefix (unhelpful: there is help, and no unhelp).
struct TakenEnding {
  EndingAnalysis analysis;
  std::optional<WordRecord> base;
};

/// The regular endings of a word of these letters and sounds, one after the
/// other, the outermost first: `teachers` is `teacher` and -s, then `teach` and
/// -er. An ending counts where its base is a word that people meet, or a prefix
/// and such a word, and sounds as it does in the word. No possessives.
std::vector<TakenEnding> peel_endings(std::string_view spelling,
                                      std::span<const Phoneme> sounds,
                                      const Lexicon& lexicon);

/// The prefixes that patterns know, longer ones first.
std::span<const std::string_view> known_prefixes();

}  // namespace sheaf
