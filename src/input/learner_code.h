#pragma once

#include <string>
#include <string_view>

namespace sheaf {

/// Stands for all learners where codes are listed.
inline constexpr std::string_view kAll = "all";

/// Whether a text can be a learner's code: initials (up to three capital
/// letters), or up to 12 figures of which up to three may be letters of either
/// case; hyphens may stand inside. What could well be a name is none.
bool is_learner_code(std::string_view text);
inline constexpr std::string_view kLearnerCodeForm =
    "up to three capital letters, as in `AB`, or figures with up to three "
    "letters, as in `B7`";

/// The one form in which a code is kept and compared, whatever a file or a
/// command says: `b7` is `B7`. A text that is no code comes back as it is,
/// composed (Unicode's form C).
std::string learner_code(std::string_view text);

}  // namespace sheaf
