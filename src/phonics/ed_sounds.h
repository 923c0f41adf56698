#pragma once

#include <array>
#include <string_view>

#include "phonics/pattern_catalogue.h"

namespace sheaf {

/// The three sounds of -ed, by the ids of their patterns.
inline constexpr std::array<std::string_view, 3> kEdSounds = {"ed_t", "ed_d",
                                                              "ed_id"};

/// Whether a pattern is about -ed, by its sound or by what changes before it.
bool is_about_ed(std::string_view pattern_id);

/// Which of `kEdSounds` the -ed of a word says: 0, 1 or 2; -1 where the word
/// has no -ed (bed, need).
int ed_sound(const Reading& reading, const PatternCatalogue& patterns);

}  // namespace sheaf
