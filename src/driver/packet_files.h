#pragma once

#include <string>
#include <vector>

#include "driver/made_from.h"
#include "driver/packets.h"
#include "files/path.h"

namespace sheaf {

/// Writes the files of one lesson or class together into a folder of their own
/// and gives their paths. With `made`, which says what they are made with and
/// from, it comes beside them. Throws MachineError.
std::vector<std::string> write_packets(Files& files, const FilePath& folder,
                                       const std::vector<PacketFile>& packets,
                                       MadeFrom* made);

}  // namespace sheaf
