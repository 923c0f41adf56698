#include <fmt/format.h>

#include "packet/packet.h"

namespace sheaf {

namespace {

// The document itself stands as element 1 in both; the added one becomes a
// section there.
void append_elements(Document& all, const Document& packet, ElementId section) {
  const ElementId shift = section - kDocumentElement;
  for (std::size_t i = 1; i < packet.elements.size(); ++i) {
    Element element = packet.elements[i];
    element.parent += shift;
    all.add(std::move(element));
  }
}

void move_elements(Page& page, ElementId shift) {
  for (Mark& mark : page.marks) {
    std::visit(
        [&](auto& m) {
          if (m.element != kDecoration) m.element += shift;
        },
        mark);
  }
}

}  // namespace

void append_packet(Document& all, Document packet, std::string_view learner) {
  if (packet.pages.empty()) return;
  if (all.pages.size() % 2 != 0) {
    Page blank;
    blank.size = all.pages.back().size;
    blank.label = "blank";
    all.pages.push_back(std::move(blank));
  }
  const auto first = static_cast<std::uint32_t>(all.pages.size());
  for (OutlineEntry& entry : packet.outline) {
    all.outline.push_back(
        {fmt::format("{}: {}", learner, entry.title), entry.page + first});
  }
  const ElementId section = all.add({Role::section, kDocumentElement});
  append_elements(all, packet, section);
  for (Page& page : packet.pages) {
    move_elements(page, section - kDocumentElement);
    page.label = fmt::format("{} {}", learner, page.label);
    all.pages.push_back(std::move(page));
  }
}

}  // namespace sheaf
