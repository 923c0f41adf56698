#include "driver/packet_files.h"

#include "base/shuffle.h"
#include "driver/own_files.h"
#include "files/output_files.h"

namespace sheaf {

std::vector<std::string> write_packets(Files& files, const FilePath& folder,
                                       const std::vector<PacketFile>& packets,
                                       MadeFrom* made) {
  const auto output = files.write();
  std::vector<std::string> paths;
  for (const PacketFile& packet : packets) {
    output->add(folder / packet.name, packet.bytes, own_form(OwnKind::pdf),
                kPacketWayOut);
    paths.push_back((folder / packet.name).string());
    if (made == nullptr) continue;
    made->pages[text_hash(packet.name.string())] = text_hash(packet.bytes);
  }
  if (made != nullptr) {
    output->add(folder / kMadeFromFile, made_from_text(*made),
                own_form(OwnKind::made_from), kPacketWayOut);
  }
  output->finish();
  return paths;
}

}  // namespace sheaf
