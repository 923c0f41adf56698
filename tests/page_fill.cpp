#include "page_fill.h"

#include <algorithm>

#include "layout/mark_bounds.h"
#include "project_files.h"

namespace sheaf::test {

namespace {

ElementId element_of(const Mark& mark) {
  return std::visit([](const auto& kind) { return kind.element; }, mark);
}

// From the first ink in the body of a page to the last; 0 where there is none.
Length ink_height(const Page& page) {
  Length top = page.body.bottom(), bottom = page.body.y;
  for (const Mark& mark : page.marks) {
    if (element_of(mark) >= kPageHeader) continue;
    const auto* text = std::get_if<GlyphMark>(&mark);
    const Rect ink = text != nullptr ? ink_of_text(*text) : bounds_of(mark);
    // The frame of a sheet's first page is heard, so that it has elements, but
    // all of it stands above the body.
    if (ink.bottom() <= page.body.y) continue;
    top = std::min(top, ink.y);
    bottom = std::max(bottom, ink.bottom());
  }
  return std::max(Length(), bottom - top);
}

}  // namespace

std::vector<PageFill> page_fill(const Document& packet) {
  std::vector<PageFill> pages;
  for (std::size_t i = 0; i < packet.pages.size(); ++i) {
    const Page& page = packet.pages[i];
    PageFill fill;
    fill.sheet = page.label.substr(0, page.label.rfind(' '));
    fill.blank = page.marks.empty();
    if (!fill.blank) {
      fill.share = static_cast<double>(ink_height(page).mils()) /
                   static_cast<double>(page.body.height.mils());
    }
    fill.back_of_cut = fill.blank && i > 0 && packet.pages[i - 1].own_leaf;
    pages.push_back(std::move(fill));
  }
  return pages;
}

std::vector<std::string> measured_lessons() {
  std::vector<std::string> lessons;
  for (const char* name :
       {"sh-ship", "ai-ay-rain", "i-e-kite", "year/04-short-i-short-o",
        "year/09-sh", "year/13-sh-ch", "year/18-a-e-short-a", "year/23-ee",
        "year/28-ea-long", "year/33-er"}) {
    lessons.push_back(
        (project() / "lessons" / (std::string(name) + ".yaml")).string());
  }
  return lessons;
}

}  // namespace sheaf::test
