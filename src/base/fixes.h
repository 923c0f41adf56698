#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostics.h"

namespace sheaf {

/// A text with fixes put in.
struct MendedText {
  std::string text;
  /// Those that were put in, in the order of their places. One that overlaps
  /// another, or begins where another does, is left for the next time.
  std::vector<Fix> put_in;
};

/// Puts fixes into the text of the file that they are about; everything else
/// stays byte for byte. Of fixes that overlap the one that begins first is
/// taken, of those that begin together the first in the list.
MendedText with_fixes(std::string_view text, std::vector<Fix> fixes);

}  // namespace sheaf
