#include "layout/page_places.h"

#include <algorithm>
#include <map>
#include <optional>

#include "layout/mark_bounds.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kNear = 3_mm;

ElementId element_of(const Mark& mark) {
  return std::visit([](const auto& m) { return m.element; }, mark);
}

// Text has no height of its own here; what a reader points at is the letters.
Rect seen(const Mark& mark) {
  Rect rect = bounds_of(mark);
  if (const auto* text = std::get_if<GlyphMark>(&mark)) {
    rect.y -= text->run.size * 3 / 4;
    rect.height = text->run.size;
  }
  return rect;
}

Rect both(const Rect& a, const Rect& b) {
  const Length left = std::min(a.x, b.x), top = std::min(a.y, b.y);
  return {left, top, std::max(a.right(), b.right()) - left,
          std::max(a.bottom(), b.bottom()) - top};
}

using Places = std::map<ElementId, Rect>;

// What the marks of each element of a page cover.
Places own_places(const Page& page) {
  Places places;
  for (const Mark& mark : page.marks) {
    const ElementId element = element_of(mark);
    if (is_artifact(element)) continue;
    const Rect rect = seen(mark);
    const auto [known, fresh] = places.try_emplace(element, rect);
    if (!fresh) known->second = both(known->second, rect);
  }
  return places;
}

// How far a point is from a rectangle; 0 within it.
Length distance(const Rect& rect, Point at) {
  const Length x = std::max({rect.x - at.x, at.x - rect.right(), Length()});
  const Length y = std::max({rect.y - at.y, at.y - rect.bottom(), Length()});
  return std::max(x, y);
}

double area(const Rect& rect) {
  return static_cast<double>(rect.width.mils()) *
         static_cast<double>(rect.height.mils());
}

bool overlap(const Span& a, const Span& b) {
  return a.file == b.file && a.begin < b.end && b.begin < a.end;
}

}  // namespace

Span source_of(const Document& document, ElementId element) {
  while (element != kDecoration) {
    const Element& own = document.element(element);
    if (own.span) return own.span;
    element = own.parent;
  }
  return {};
}

ElementId element_at(const Document& document, std::uint32_t page, Point at) {
  Places places = own_places(document.pages[page]);
  // Parts come after what they are in, so that they are added first.
  for (auto id = static_cast<ElementId>(document.elements.size()); id > 0;
       --id) {
    const auto own = places.find(id);
    const ElementId parent = document.element(id).parent;
    if (own == places.end() || parent == kDecoration) continue;
    const Rect rect = own->second;
    const auto [known, fresh] = places.try_emplace(parent, rect);
    if (!fresh) known->second = both(known->second, rect);
  }
  ElementId best = kDecoration;
  std::pair<Length, double> least;
  for (const auto& [id, rect] : places) {
    const std::pair<Length, double> found = {distance(rect, at), area(rect)};
    if (found.first > kNear) continue;
    // Of two that cover the same, the inner one.
    if (best == kDecoration || found <= least) {
      best = id;
      least = found;
    }
  }
  return best;
}

std::vector<PagePlace> places_from(const Document& document, const Span& span) {
  std::vector<bool> wanted(document.elements.size() + 1);
  for (ElementId id = 1; id < wanted.size(); ++id) {
    const Span from = source_of(document, id);
    wanted[id] = from && overlap(from, span);
  }
  std::vector<PagePlace> found;
  for (std::uint32_t page = 0; page < document.pages.size(); ++page) {
    for (const auto& [id, rect] : own_places(document.pages[page])) {
      if (wanted[id]) found.push_back({page, rect, id});
    }
  }
  return found;
}

}  // namespace sheaf
