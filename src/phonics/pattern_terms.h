#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// What teachers call a pattern or a group of patterns beside the catalogue's
/// names: a row of src/data/pattern_terms.tsv.
struct PatternTerm {
  std::vector<std::string_view> terms;  ///< the commonest first
  std::vector<std::string_view> ids;    ///< in the order of teaching
  std::string_view family;              ///< where they are shown
  std::string_view source;
};

std::span<const PatternTerm> pattern_terms();

/// The row with a term, or null. Capitals, hyphens, the -s of a plural and
/// words that say nothing ("words", "pattern") make no difference.
const PatternTerm* find_pattern_term(std::string_view written);

/// A name as it is compared: in lower case, with one space for what parts
/// words in it.
std::string plain_name(std::string_view text);

/// The words of a name, each without the -s of a plural.
std::vector<std::string> name_words(std::string_view text);

}  // namespace sheaf
