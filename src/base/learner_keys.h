#pragma once

#include <string_view>

namespace sheaf {

/// The keys under which learners stand in class and record files: what is
/// beneath or behind one may be somebody's name until it is known to be a code.
inline constexpr std::string_view kLearnerKeys[] = {
    "learners", "wrong", "written", "writing", "marked", "absent"};

}  // namespace sheaf
