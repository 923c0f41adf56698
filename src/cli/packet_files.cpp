#include "cli/packet_files.h"

#include "base/shuffle.h"
#include "pdf/pdf_writer.h"

namespace sheaf {

namespace fs = std::filesystem;

void PacketFiles::add(const Document& document, const fs::path& name) {
  if (!document.pages.empty()) add(write_pdf(document), name);
}

void PacketFiles::add(std::string_view pdf, const fs::path& name) {
  files_.add(folder_ / name, pdf, OwnKind::pdf, kPacketWayOut);
  paths_.push_back((folder_ / name).string());
  pages_[text_hash(name.string())] = text_hash(pdf);
}

void PacketFiles::finish(Workspace& workspace, MadeFrom* made) {
  if (made != nullptr) {
    add_inputs(workspace.files_read().take(), workspace.shipped(), *made);
    made->pages = pages_;
    files_.add(folder_ / kMadeFromFile, made_from_text(*made),
               OwnKind::made_from, kPacketWayOut);
  }
  files_.finish();
}

}  // namespace sheaf
