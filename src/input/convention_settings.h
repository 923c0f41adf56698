#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/value.h"

namespace sheaf {

/// A short text of a teacher's file with its place.
using PlacedWord = Spanned<std::string>;

/// What a file says about counting and saying sounds, unread: an accent, and
/// switches with their values.
struct ConventionSettings {
  PlacedWord accent;
  std::vector<std::pair<PlacedWord, PlacedWord>> conventions;
};

}  // namespace sheaf
