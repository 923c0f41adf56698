#pragma once

#include <cstdint>
#include <span>

#include "phonics/pattern_catalogue.h"

namespace sheaf {

/// How a word stands to the rule by which two spellings of one sound are told
/// apart (tch straight after a short vowel, else ch).
enum class ContrastFit : std::uint8_t {
  shows,   ///< bench; also where there is no rule
  silent,  ///< chip, which says nothing about the ends of words
  breaks,  ///< much, an exception
};

/// How a word with a pattern fits a contrast with others, the worst of them
/// counting, by src/data/contrasts.tsv.
ContrastFit contrast_fit(const PatternCatalogue& catalogue,
                         const Reading& reading, const WordFacts& facts,
                         PatternId pattern, std::span<const PatternId> against);

/// Whether there is a rule for any of them.
bool has_contrast_rule(const PatternCatalogue& catalogue, PatternId pattern,
                       std::span<const PatternId> against);

}  // namespace sheaf
