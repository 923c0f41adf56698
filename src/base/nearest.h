#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

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

/// "did you mean `a`, `b` or `c`?" or nothing.
std::string did_you_mean(std::span<const std::string_view> names);
std::string did_you_mean(std::string_view name,
                         std::span<const std::string_view> names);

}  // namespace sheaf
