#pragma once

#include <cstdint>
#include <string_view>

#include "phonics/segment.h"

namespace sheaf {

/// Replaces what the dictionary hears and teaching does not: correspondences
/// of the class `heard` and some that are wrong in their place. Each repair
/// has its reason beside it in the code. Segments that no repair fits
/// stay; stress follows where a syllable comes in.
void repair_segments(std::string_view letters, const Inventory& inventory,
                     std::uint16_t& stress, Segments& segments);

}  // namespace sheaf
