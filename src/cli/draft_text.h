#pragma once

#include <string>
#include <vector>

#include "planning/word_search.h"

namespace sheaf {

/// A lesson file to start from.
struct Draft {
  std::string name;  ///< for the file: "oa-boat"
  std::string text;
  std::size_t words = 0;
  std::size_t sentences = 0;  ///< to read
};

/// Words from the search, a place for everything that Sheaf cannot write, and
/// remarks that say what to do there. `sequence` is the file to name in the
/// lesson; may be empty.
Draft draft_lesson(const SearchGround& source,
                   const std::vector<PatternId>& patterns,
                   const std::string& sequence);

}  // namespace sheaf
