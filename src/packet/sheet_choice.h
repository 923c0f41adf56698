#pragma once

#include <span>
#include <string>
#include <vector>

#include "packet/bindery.h"
#include "packet/layout_plan.h"

namespace sheaf {

/// Which sheets one of a packet's two documents gets. Those that the lesson has
// nothing for are noted and left out.
struct SheetChoice {
  const Bindery& b;
  const LayoutPlan& layout;
  bool for_teacher = false;
  /// The learner's sheets, which teacher's sheets speak of.
  std::span<const PlannedSheet> packet = {};

  /// The sheets of the layout, or those among them that are asked for by name.
  std::vector<PlannedSheet> of_layout(const std::vector<std::string>& only,
                                      Diagnostics& diagnostics) const;
  /// Sheets that are asked for by name although the layout lacks them: with all
  /// options as they come, and on no day, since the week does not plan them.
  std::vector<PlannedSheet> beside_layout(const std::vector<std::string>& only,
                                          Diagnostics& diagnostics) const;
};

/// All of the first, then all of `more`.
void append(std::vector<PlannedSheet>& sheets, std::vector<PlannedSheet> more);

/// Drops the sheets that were not asked for; an empty `only` asks for all.
void keep_only(std::vector<PlannedSheet>& sheets,
               const std::vector<std::string>& only);

/// The learner's sheets with their days, which also fills `b.week`. Those for
/// more practice come last.
std::vector<PlannedSheet> plan_week(const Bindery& b, const LayoutPlan& layout,
                                    const std::vector<std::string>& only,
                                    Diagnostics& diagnostics);

}  // namespace sheaf
