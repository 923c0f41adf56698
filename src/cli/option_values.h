#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// What may stand for a value on the command line, for completions.
struct OfferedValues {
  enum class Kind {
    anything,  ///< nothing to offer: a number, a day, a code
    files,
    folders,
    words,  ///< one of `words`
  };
  Kind kind = Kind::anything;
  std::vector<std::string> words = {};
};

/// What an option takes, or what a verb takes without the name of one
/// ("RECORD"). Both as they are in the table of verbs.
OfferedValues values_of(std::string_view verb, std::string_view name);

}  // namespace sheaf
