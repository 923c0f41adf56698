#pragma once

#include <string_view>

namespace sheaf {

/// Stands on every page on which a teacher notes how words went.
inline constexpr std::string_view kCaution =
    "What a learner writes shows how these words went. It does not screen for "
    "or diagnose dyslexia or anything else: that takes an evaluation by "
    "qualified professionals.";

}  // namespace sheaf
