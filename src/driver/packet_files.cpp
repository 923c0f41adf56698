#include "driver/packet_files.h"

#include "base/shuffle.h"
#include "driver/own_files.h"

namespace sheaf {

std::vector<std::string> packet_paths(const FilePath& folder,
                                      const std::vector<PacketFile>& packets) {
  std::vector<std::string> paths;
  for (const PacketFile& packet : packets) {
    paths.push_back((folder / packet.name).string());
  }
  return paths;
}

void add_packets(OutputFiles& files, const FilePath& folder,
                 const std::vector<PacketFile>& packets, MadeFrom* made) {
  for (const PacketFile& packet : packets) {
    files.add(folder / packet.name, packet.bytes, own_form(OwnKind::pdf),
              kPacketWayOut);
    if (made == nullptr) continue;
    made->pages[text_hash(packet.name.string())] = text_hash(packet.bytes);
  }
  if (made != nullptr) {
    files.add(folder / kMadeFromFile, made_from_text(*made),
              own_form(OwnKind::made_from), kPacketWayOut);
  }
}

}  // namespace sheaf
