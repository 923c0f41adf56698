// From a point of a page to the place that made what is there, and back.

#include <gtest/gtest.h>

#include "layout/page_places.h"

namespace sheaf {
namespace {

using namespace literals;

// A sheet with a list of two words, each in a box, and a dot that is nobody's.
class Places : public testing::Test {
 protected:
  Places() {
    document_.source = &file_;
    section_ = document_.add({.role = Role::section,
                              .parent = kDocumentElement,
                              .span = {&file_, 0, 11}});
    list_ = document_.add({.role = Role::list, .parent = section_});
    ship_ = document_.add(
        {.role = Role::list_item, .parent = list_, .span = {&file_, 19, 23}});
    inner_ = document_.add({.role = Role::span, .parent = ship_});
    fish_ = document_.add(
        {.role = Role::list_item, .parent = list_, .span = {&file_, 24, 28}});
    Page page{.size = {200_mm, 100_mm}};
    page.marks = {box({10_mm, 10_mm, 40_mm, 20_mm}, inner_),
                  box({60_mm, 10_mm, 40_mm, 20_mm}, fish_),
                  DotMark{.centre = {150_mm, 80_mm}, .diameter = 4_mm}};
    document_.pages = {page, Page{.size = {200_mm, 100_mm}}};
    document_.pages[1].marks = {box({10_mm, 10_mm, 5_mm, 5_mm}, fish_)};
  }
  static Mark box(const Rect& rect, ElementId element) {
    return RectMark{.rect = rect, .element = element};
  }
  // What stands in the file where an element comes from.
  std::string_view from(ElementId element) const {
    const Span span = source_of(document_, element);
    return span ? span.text() : std::string_view();
  }

  const SourceFile file_{"lesson.yaml", "pattern: sh\nwords: ship fish\n"};
  Document document_;
  ElementId section_ = 0, list_ = 0, ship_ = 0, inner_ = 0, fish_ = 0;
};

TEST_F(Places, AnElementComesFromItsOwnPlaceOrThatOfWhatItIsIn) {
  EXPECT_EQ(from(ship_), "ship");
  EXPECT_EQ(from(inner_), "ship");
  EXPECT_EQ(from(list_), "pattern: sh");
  EXPECT_EQ(from(kDocumentElement), "");
  EXPECT_EQ(from(kDecoration), "");
}

TEST_F(Places, APointHasTheSmallestElementThatIsThere) {
  EXPECT_EQ(element_at(document_, 0, {20_mm, 15_mm}), inner_);
  EXPECT_EQ(element_at(document_, 0, {70_mm, 15_mm}), fish_);
  // A little beside it; between both; and where nothing is.
  EXPECT_EQ(element_at(document_, 0, {102_mm, 15_mm}), fish_);
  EXPECT_EQ(from(element_at(document_, 0, {55_mm, 20_mm})), "pattern: sh");
  EXPECT_EQ(element_at(document_, 0, {150_mm, 80_mm}), kDecoration);
  EXPECT_EQ(element_at(document_, 1, {12_mm, 12_mm}), fish_);
  EXPECT_EQ(element_at(document_, 1, {70_mm, 15_mm}), kDecoration);
}

TEST_F(Places, AWordIsFoundOnAllItsPages) {
  const std::vector<PagePlace> fish = places_from(document_, {&file_, 25, 26});
  ASSERT_EQ(fish.size(), 2U);
  EXPECT_EQ(fish[0].page, 0U);
  EXPECT_EQ(fish[0].element, fish_);
  EXPECT_EQ(fish[0].rect.x, 60_mm);
  EXPECT_EQ(fish[1].page, 1U);
  // The line of words has both, and another file's line has neither.
  EXPECT_EQ(places_from(document_, {&file_, 12, 28}).size(), 3U);
  const SourceFile other("layout.yaml", file_.text());
  EXPECT_EQ(places_from(document_, {&other, 12, 28}).size(), 0U);
}

}  // namespace
}  // namespace sheaf
