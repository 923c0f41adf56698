#pragma once

#include <functional>
#include <string>
#include <vector>

#include "phonics/word_record.h"

namespace sheaf {

/// Gives each compound of the dictionary the graphemes of its two words, which
/// are common ones: fire and arm, not f i r ear m. Taken where the sounds of
/// the parts, one behind the other, are about its own; where the dictionary
/// has another sound (the oo of showroom), that of the part is taken.
void align_compounds(std::vector<WordRecord>& records,
                     const Inventory& inventory,
                     const std::function<bool(const std::string&)>& is_common);

}  // namespace sheaf
