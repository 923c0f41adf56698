#pragma once

#include <string>
#include <vector>

#include "input/file_kind.h"
#include "service/text_context.h"

namespace sheaf {

/// A key that may stand in a file, as its own table describes it.
struct KeyFact {
  std::string name;
  std::string meaning;
  std::string example;   ///< a whole line; empty where the table has none
  std::string fallback;  ///< what holds without it; empty: not known here
  std::vector<std::string> choices;  ///< what may stand there, if few
};

/// The keys that may stand below `above`, outermost first, in a file of a kind.
std::vector<KeyFact> keys_below(FileKind kind,
                                const std::vector<std::string>& above);

}  // namespace sheaf
