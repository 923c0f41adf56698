#include "cli/packet_files.h"

#include "base/shuffle.h"
#include "cli/output_files.h"

namespace sheaf {

namespace fs = std::filesystem;

std::vector<std::string> write_packets(const fs::path& folder,
                                       const std::vector<PacketFile>& packets,
                                       MadeFrom* made) {
  OutputFiles files;
  std::vector<std::string> paths;
  for (const PacketFile& packet : packets) {
    files.add(folder / packet.name, packet.bytes, OwnKind::pdf, kPacketWayOut);
    paths.push_back((folder / packet.name).string());
    if (made == nullptr) continue;
    made->pages[text_hash(packet.name.string())] = text_hash(packet.bytes);
  }
  if (made != nullptr) {
    files.add(folder / kMadeFromFile, made_from_text(*made), OwnKind::made_from,
              kPacketWayOut);
  }
  files.finish();
  return paths;
}

}  // namespace sheaf
