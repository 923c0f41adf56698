#pragma once

#include <string>

#include "names/marked_files.h"

namespace sheaf::test {

/// ESC, a new line, a right-to-left override, an isolate, DEL and a C1 sign, as
/// the name of a file may have them.
inline const std::string kOddName =
    "od\x1B[31md\nna\xE2\x80\xAEme\xE2\x81\xA6"
    "x\x7Fy\xC2\x9Bz";

/// Where a text has what a terminal would obey, or a line of it that a name of
/// a file began; else nothing.
std::string obeyed(const std::string& text);

}  // namespace sheaf::test
