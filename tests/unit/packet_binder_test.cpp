// How sheets and the leaf to cut are bound into a packet.

#include "packet/binder.h"

#include <gtest/gtest.h>

#include <string>
#include <variant>
#include <vector>

namespace sheaf {
namespace {

// Pages of a sheet, each with a mark of an element in a section of its own.
std::vector<Page> pages_of(Document& document, int count, bool cut = false) {
  const ElementId section =
      document.add({.role = Role::section, .parent = kDocumentElement});
  std::vector<Page> pages;
  for (int i = 0; i < count; ++i) {
    const ElementId text =
        document.add({.role = Role::paragraph, .parent = section});
    Page page;
    page.own_leaf = cut;
    page.marks.push_back(LineMark{.element = text});
    page.marks.push_back(LineMark{.element = kPageFooter});
    pages.push_back(std::move(page));
  }
  return pages;
}

void add_sheet(Binder& binder, Document& document, const char* name,
               int pages) {
  binder.add_sheet(name, name, pages_of(document, pages));
}

void add_leaf(Binder& binder, Document& document, int pages) {
  const auto first = static_cast<ElementId>(document.elements.size() + 1);
  auto leaf = pages_of(document, pages, true);
  binder.add_cut_leaf("cards", "Cut these out", std::move(leaf), first);
}

std::vector<std::string> labels_of(const Document& document) {
  std::vector<std::string> labels;
  for (const Page& page : document.pages) labels.push_back(page.label);
  return labels;
}

using Labels = std::vector<std::string>;

// Elements are read in the order of the pages that they stand on, and each mark
// is still part of the section that it was made for.
void expect_in_order(const Document& document) {
  ElementId before = 0;
  for (const Page& page : document.pages) {
    for (const Mark& mark : page.marks) {
      const ElementId element =
          std::visit([](const auto& m) { return m.element; }, mark);
      if (is_artifact(element)) continue;
      EXPECT_GT(element, before) << page.label;
      before = element;
      EXPECT_EQ(document.element(element).role, Role::paragraph) << page.label;
      const ElementId section = document.element(element).parent;
      EXPECT_LT(section, element) << page.label;
      EXPECT_EQ(document.element(section).role, Role::section) << page.label;
    }
  }
}

TEST(Binder, PutsWhatIsCutBehindWholeLeaves) {
  Document document;
  Binder binder(document, true);
  add_sheet(binder, document, "blending", 1);
  add_sheet(binder, document, "compose", 1);
  add_leaf(binder, document, 1);
  EXPECT_EQ(labels_of(document),
            (Labels{"blending 1", "compose 1", "cards 1"}));
  EXPECT_EQ(document.outline.back().page, 2U);
  expect_in_order(document);
}

TEST(Binder, PutsItFirstWhereAPageWouldElseBeBlankBehindOneThatIsKept) {
  Document document;
  Binder binder(document, true);
  add_sheet(binder, document, "blending", 2);
  add_sheet(binder, document, "compose", 1);
  add_leaf(binder, document, 1);
  EXPECT_EQ(labels_of(document), (Labels{"cards 1", "blank", "blending 1",
                                         "blending 2", "compose 1"}));
  ASSERT_EQ(document.outline.size(), 3U);
  EXPECT_EQ(document.outline[0].title, "Cut these out");
  EXPECT_EQ(document.outline[0].page, 0U);
  EXPECT_EQ(document.outline[1].page, 2U);
  EXPECT_EQ(document.outline[2].page, 4U);
  expect_in_order(document);
}

TEST(Binder, GivesEachOfSeveralLeavesABlankBack) {
  Document first;
  Binder odd(first, true);
  add_sheet(odd, first, "blending", 1);
  add_leaf(odd, first, 2);
  EXPECT_EQ(labels_of(first),
            (Labels{"cards 1", "blank", "cards 2", "blank", "blending 1"}));
  expect_in_order(first);
  Document last;
  Binder even(last, true);
  add_sheet(even, last, "blending", 2);
  add_leaf(even, last, 2);
  EXPECT_EQ(labels_of(last), (Labels{"blending 1", "blending 2", "cards 1",
                                     "blank", "cards 2"}));
}

TEST(Binder, PutsItLastOnAScreenAndAlone) {
  Document screen;
  Binder slides(screen, false);
  add_sheet(slides, screen, "blending", 1);
  add_leaf(slides, screen, 1);
  EXPECT_EQ(labels_of(screen), (Labels{"blending 1", "cards 1"}));
  Document alone;
  Binder binder(alone, true);
  add_leaf(binder, alone, 1);
  EXPECT_EQ(labels_of(alone), (Labels{"cards 1"}));
  binder.add_cut_leaf("cards", "Cut these out", {}, 2);
  EXPECT_EQ(labels_of(alone), (Labels{"cards 1"}));
}

}  // namespace
}  // namespace sheaf
