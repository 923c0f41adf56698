#pragma once

#include "sheets/sheet.h"

namespace sheaf {

/// The part of the script for the sheet `discovery` of this packet: what to ask
/// and what to listen for. Nothing where the packet has none.
void add_discovery_steps(const SheetInput& in, Composer& composer);

}  // namespace sheaf
