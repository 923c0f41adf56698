#pragma once

#include "phonics/phoneme.h"

namespace sheaf {

/// Whether the two are easily mistaken for each other, by ear or by mouth:
/// same place or same manner (common practice, no source).
bool are_near(Phoneme a, Phoneme b);

}  // namespace sheaf
