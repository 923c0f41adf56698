#pragma once

#include <cstddef>

#include "base/diagnostics.h"
#include "packet/bindery.h"

namespace sheaf {

/// The most pages of one packet, the learner's or the teacher's.
inline constexpr std::size_t kMostPacketPages = 1500;

/// Says that a document would have more pages than that, with `sheet` as the
/// last of `sheets` sheets, and which file asks for them: the layout where it
/// has more sheets than is usual, else the lesson.
void report_many_pages(const Bindery& b, const PlannedSheet& sheet,
                       std::size_t sheets, Diagnostics& diagnostics);

}  // namespace sheaf
