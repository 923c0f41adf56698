#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostics.h"

namespace sheaf {

/// Steps (a letter put in, left out, changed, or two neighbours swapped) from
/// one text to the other, counted in bytes; stops early and gives `limit` + 1
/// where it is more than `limit`. (Optimal string alignment distance.)
int edit_distance(std::string_view a, std::string_view b, int limit);

/// The names that a mistyped `name` most likely meant, nearest first, at most
/// `count`; empty where none is near. Case, spaces, hyphens and underscores
/// are not counted as differences.
std::vector<std::string_view> nearest_names(
    std::string_view name, std::span<const std::string_view> names,
    std::size_t count = 3);

/// What a suggestion is about.
enum class Suggests {
  fixed_choice,  ///< a key, or one of a few values: one that is near is meant
  anything,      ///< what only the teacher can know
};

/// The question "did you mean `a`, `b` or `c`?" with a fix for each, or
/// nothing. The fixes take the place of the message's span. One is certain
/// where it is the only one and `suggests` a fixed choice.
Help ask_for(std::string_view wrong, std::span<const std::string_view> names,
             Suggests suggests = Suggests::anything);
/// The same for those of `names` that are near to `wrong`.
Help did_you_mean(std::string_view wrong,
                  std::span<const std::string_view> names,
                  Suggests suggests = Suggests::anything);

}  // namespace sheaf
