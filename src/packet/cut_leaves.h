#pragma once

#include <span>
#include <vector>

#include "layout/cut_leaf.h"
#include "packet/binder.h"
#include "packet/bindery.h"

namespace sheaf {

/// The sheets that have cards to cut out, and what stands around all of them.
/// The cards of one sheet alone stand under its own heading.
struct CutFrame {
  std::vector<const PlannedSheet*> sheets;
  FrameText frame;

  bool several() const { return sheets.size() > 1; }
};
CutFrame cut_frame(const Bindery& b, std::span<const PlannedSheet> sheets,
                   std::span<const PlannedSheet> packet);

/// The cards of each of the sheets, drawn in the composer's style.
std::vector<CutSet> cut_sets(const Bindery& b,
                             std::span<const PlannedSheet* const> sheets,
                             std::span<const PlannedSheet> packet,
                             Composer& composer);

/// Adds the leaf with the cards of all sheets that have some.
void compose_cut_leaf(const Bindery& b, std::span<const PlannedSheet> sheets,
                      std::span<const PlannedSheet> packet, Document& document,
                      Binder& binder, Diagnostics& diagnostics);

}  // namespace sheaf
