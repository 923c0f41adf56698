#include <fmt/format.h>

#include "packet/packet.h"

namespace sheaf {

void PrintRun::add(Document& packet, std::string_view learner) {
  if (packet.pages.empty()) return;
  for (OutlineEntry& entry : packet.outline) {
    entry.title = fmt::format("{}: {}", learner, entry.title);
  }
  for (Page& page : packet.pages) {
    page.label = fmt::format("{} {}", learner, page.label);
  }
  const Size size = packet.pages.back().size;
  if (pages_ % 2 != 0) {
    Page blank;
    blank.size = last_size_;
    blank.label = "blank";
    packet.pages.insert(packet.pages.begin(), std::move(blank));
    for (OutlineEntry& entry : packet.outline) ++entry.page;
  }
  pages_ += packet.pages.size();
  last_size_ = size;
}

}  // namespace sheaf
