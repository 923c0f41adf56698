#pragma once

#include "driver/marking_desk.h"

namespace sheaf {

/// Leaves of a marked record of a placement check what each learner was asked,
/// so that nothing counts that was not dictated; it is a check, which teaches
/// nothing, whatever kind the record says. Does nothing to other records.
void mark_placement(MarkedRecord& marked, const PatternCatalogue& catalogue);

/// Tells what of the record fits no part of the check: a step at which part two
/// cannot begin, errors in words that were not asked for.
void report_placement_marks(const MarkedRecord& marked,
                            Diagnostics& diagnostics);

}  // namespace sheaf
