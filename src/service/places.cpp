// From a point of a page to the line that made it, and back.

#include <algorithm>
#include <set>

#include "layout/page_places.h"
#include "service/state.h"

namespace sheaf {

std::optional<PlaceInFile> Service::at_point(const std::string& path,
                                             std::size_t page, Point point) {
  const TextReading* shown = state_with_pages(path).with_pages();
  if (shown == nullptr) return std::nullopt;
  const Packet& packet = shown->packet;
  const std::size_t own = packet.learner.pages.size();
  const Document& document = page < own ? packet.learner : packet.teacher;
  const std::size_t index = page < own ? page : page - own;
  if (index >= document.pages.size()) return std::nullopt;
  const ElementId element =
      element_at(document, static_cast<std::uint32_t>(index), point);
  if (element == kDecoration) return std::nullopt;
  const Span span = source_of(document, element);
  if (!span || span.is_whole()) return std::nullopt;
  return PlaceInFile{span.file->name(), {span.begin, span.end}};
}

std::vector<std::size_t> Service::pages_of(const std::string& path,
                                           TextRange range) {
  const TextReading* shown = state_with_pages(path).with_pages();
  if (shown == nullptr) return {};
  const Span span{shown->file, range.begin, range.end};
  std::set<std::size_t> pages;
  std::size_t first = 0;
  for (const Document* document :
       {&shown->packet.learner, &shown->packet.teacher}) {
    for (const PagePlace& place : places_from(*document, span)) {
      pages.insert(first + place.page);
    }
    first += document->pages.size();
  }
  return {pages.begin(), pages.end()};
}

}  // namespace sheaf
