#pragma once

#include <span>
#include <vector>

#include "phonics/conventions.h"
#include "phonics/reading.h"

namespace sheaf {

/// The sounds of a word as taught, one a box. A phoneme is a sound but for
/// the groups that the conventions keep together.
std::vector<Sound> count_boxes(std::span<const Unit> units,
                               const Conventions& conventions);

}  // namespace sheaf
