#pragma once

#include "layout/page.h"

namespace sheaf {

/// The rectangle that a mark covers on its page: of text the ink sideways and
/// the base line alone; of a line or an outline the middle of its stroke.
Rect bounds_of(const Mark& mark);

}  // namespace sheaf
