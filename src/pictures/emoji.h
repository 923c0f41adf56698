#pragma once

#include <string>
#include <string_view>

namespace sheaf {

/// Whether a lesson's text for a picture looks like an emoji rather than a
/// file's name: it has no letter, digit or dot of ordinary text.
bool looks_like_emoji(std::string_view text);

/// The same emoji without what changes only its colours: skin tones and the
/// marks that ask for text or picture style (U+FE0E, U+FE0F).
std::string plain_emoji(std::string_view emoji);

/// False, with the reason in `why`, for a plain emoji that a learner could
/// read, such as one that shows letters, and for text that is more than one.
bool may_stand_on_a_page(std::string_view emoji, std::string& why);

/// "U+1F987 U+200D" as text.
std::string text_of_code_points(std::string_view names);

}  // namespace sheaf
