#include "packet/binder.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <iterator>
#include <span>
#include <utility>
#include <variant>

namespace sheaf {

namespace {

Page blank_page(Size size) {
  Page blank;
  blank.size = size;
  blank.label = "blank";
  return blank;
}

// Brings the elements from `first` on to the front of the document's, so that
// they are read before the others, as their pages come before them.
void read_first(Document& document, std::span<Page> own_pages,
                ElementId first) {
  const auto end = static_cast<ElementId>(document.elements.size() + 1);
  const ElementId begin = kDocumentElement + 1;
  const auto moved = [&](ElementId id) {
    if (id < begin || id >= end) return id;
    return id < first ? id + (end - first) : id - (first - begin);
  };
  std::ranges::rotate(document.elements.begin() + kDocumentElement,
                      document.elements.begin() + (first - 1),
                      document.elements.end());
  for (Element& element : document.elements) {
    element.parent = moved(element.parent);
  }
  const auto move_marks = [&](Page& page) {
    for (Mark& mark : page.marks) {
      std::visit([&](auto& m) { m.element = moved(m.element); }, mark);
    }
  };
  std::ranges::for_each(document.pages, move_marks);
  std::ranges::for_each(own_pages, move_marks);
}

}  // namespace

// A layout may have a sheet twice, with other options; no two bookmarks are
// alike.
std::string Binder::bookmark(std::string_view title) {
  const int count = ++sheets_[std::string(title)];
  return count == 1 ? std::string(title) : fmt::format("{} ({})", title, count);
}

bool Binder::last_needs_blank_back() const {
  return !document_.pages.empty() && document_.pages.back().own_leaf;
}

void Binder::start_leaf(Size size) {
  if (document_.pages.size() % 2 == 0 || !on_paper_) return;
  document_.pages.push_back(blank_page(size));
}

void Binder::add_sheet(std::string_view name, std::string_view title,
                       std::vector<Page> pages) {
  if (pages.empty()) return;
  int number = 0;
  for (Page& page : pages) {
    if (!page.is_back && (page.own_leaf || last_needs_blank_back())) {
      start_leaf(page.size);
    }
    page.label = fmt::format("{} {}", name, ++number);
    if (number == 1) {
      document_.outline.push_back(
          {bookmark(title),
           static_cast<std::uint32_t>(document_.pages.size())});
    }
    document_.pages.push_back(std::move(page));
  }
}

void Binder::add_cut_leaf(std::string_view name, std::string_view title,
                          std::vector<Page> pages, ElementId first_element) {
  const bool fits_behind =
      !on_paper_ || document_.pages.size() % 2 == 0 || last_needs_blank_back();
  if (fits_behind || pages.empty()) {
    add_sheet(name, title, std::move(pages));
    return;
  }
  read_first(document_, pages, first_element);
  std::vector<Page> leaves;
  int number = 0;
  for (Page& page : pages) {
    page.label = fmt::format("{} {}", name, ++number);
    const Size size = page.size;
    leaves.push_back(std::move(page));
    leaves.push_back(blank_page(size));
  }
  for (OutlineEntry& entry : document_.outline) {
    entry.page += static_cast<std::uint32_t>(leaves.size());
  }
  document_.outline.insert(document_.outline.begin(), {bookmark(title), 0});
  document_.pages.insert(document_.pages.begin(),
                         std::make_move_iterator(leaves.begin()),
                         std::make_move_iterator(leaves.end()));
}

}  // namespace sheaf
