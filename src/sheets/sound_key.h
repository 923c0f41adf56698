#pragma once

#include <vector>

#include "phonics/notation.h"
#include "sheets/sheet.h"

namespace sheaf {

/// The key to all sounds that the pages of a packet name: that of the notation,
/// then what stands there for several sounds at once (/ks/, /id/), with a word
/// of the packet that has it.
std::vector<NotationKeyLine> sound_key(const SheetInput& in);

}  // namespace sheaf
