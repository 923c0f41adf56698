#pragma once

#include <string>
#include <vector>

#include "driver/made_from.h"
#include "driver/packets.h"
#include "files/output_files.h"
#include "files/path.h"

namespace sheaf {

/// The paths of packets in a folder of their own.
std::vector<std::string> packet_paths(const FilePath& folder,
                                      const std::vector<PacketFile>& packets);

/// Adds the files of one lesson or class to those that are written together,
/// for a folder of their own. With `made`, which says what they are made with
/// and from, it comes beside them. Throws MachineError.
void add_packets(OutputFiles& files, const FilePath& folder,
                 const std::vector<PacketFile>& packets, MadeFrom* made);

}  // namespace sheaf
