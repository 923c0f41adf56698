#pragma once

#include <vector>

#include "layout/page.h"

namespace sheaf {

/// From a place on a page to the line that made it, and back.

/// Where something of an element stands on a page.
struct PagePlace {
  std::uint32_t page = 0;  ///< index into `Document::pages`
  Rect rect;               ///< that its marks there cover
  ElementId element = kDecoration;
};

/// The element that a reader sees at a point of a page: the smallest one whose
/// marks, with those of its parts, have the point between them, or one that
/// ends up to 3 mm from it. `kDecoration` where there is none.
ElementId element_at(const Document& document, std::uint32_t page, Point at);

/// The place in a file that an element comes from: its own, or that of the
/// element that it is in.
Span source_of(const Document& document, ElementId element);

/// Everything that comes from a stretch of a file, in the order of the pages:
/// a place for each element on each page where it stands. What comes from a
/// part of the stretch counts, and what comes from more than it as well (a
/// sentence, for a word in it).
std::vector<PagePlace> places_from(const Document& document, const Span& span);

}  // namespace sheaf
