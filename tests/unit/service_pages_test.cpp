// Pages that follow the text, and the way from them to its lines and back.

#include <gtest/gtest.h>

#include <algorithm>

#include "layout/mark_bounds.h"
#include "service_marked.h"

namespace sheaf::test {
namespace {

constexpr const char* kText =
    "pattern: sh\nwords: ship fish di^sh shed\n"
    "sentences: |\n  The fish is on a dish.\n  A ship!\n";

TEST(Pages, StayWhileTheTextHasErrorsAndSaySo) {
  Marked marked(kText);
  const ServicePages good = marked.service.pages(marked.path());
  ASSERT_FALSE(good.pages.empty());
  EXPECT_FALSE(good.stale);
  marked.service.change(marked.path(), "pattern: [sh\n");
  const ServicePages stale = marked.service.pages(marked.path());
  EXPECT_TRUE(stale.stale);
  EXPECT_FALSE(stale.why.empty());
  EXPECT_EQ(stale.pages.size(), good.pages.size());
  marked.service.change(marked.path(), marked.text());
  EXPECT_FALSE(marked.service.pages(marked.path()).stale);
}

TEST(Pages, AreNoneWhereThereNeverWereAny) {
  Marked marked("pattern: [sh\n");
  const ServicePages pages = marked.service.pages(marked.path());
  EXPECT_TRUE(pages.pages.empty());
  EXPECT_FALSE(pages.stale);
  EXPECT_FALSE(pages.why.empty());
}

// A remark in the file changes no page.
TEST(Pages, KeepTheirLookWhereNothingChanged) {
  Marked marked(kText);
  const auto looks = [&] {
    std::vector<std::uint64_t> all;
    for (const auto& page : marked.service.pages(marked.path()).pages) {
      all.push_back(page.look);
    }
    return all;
  };
  const auto before = looks();
  marked.service.change(marked.path(), "# a remark\n" + marked.text());
  EXPECT_EQ(looks(), before);
  std::string other = marked.text();
  other.replace(other.find("A ship!"), 7, "A shed!");
  marked.service.change(marked.path(), other);
  // The code at the foot of each page is another; a blank back has none.
  const auto after = looks();
  ASSERT_EQ(after.size(), before.size());
  const auto shown = marked.service.pages(marked.path()).pages;
  for (std::size_t i = 0; i < after.size(); ++i) {
    if (shown[i].label == "blank") continue;
    EXPECT_NE(after[i], before[i]) << shown[i].label;
  }
  marked.service.change(marked.path(), marked.text());
  EXPECT_EQ(looks(), before);
}

TEST(Pages, LeadToLinesAndBack) {
  Marked marked(kText);
  const TextRange word{marked.at() - 2, marked.at() + 2};
  const auto pages = marked.service.pages_of(marked.path(), word);
  ASSERT_GT(pages.size(), 2U);
  // Somewhere on each of these pages the word's own place is found.
  const ServicePages all = marked.service.pages(marked.path());
  for (const std::size_t page : pages) {
    bool found = false;
    const Size size = all.pages[page].size;
    for (int x = 1; x < 60 && !found; ++x) {
      for (int y = 1; y < 80 && !found; ++y) {
        const auto place = marked.service.at_point(
            marked.path(), page, {size.width * x / 60, size.height * y / 80});
        found = place && place->path == marked.path() &&
                place->range.begin <= word.begin &&
                place->range.end >= word.end;
      }
    }
    EXPECT_TRUE(found) << all.pages[page].label;
  }
}

TEST(Pages, AreDrawn) {
  Marked marked(kText);
  const PreviewImage image = marked.service.draw(marked.path(), 0, {.dpi = 40});
  EXPECT_EQ(image.width, 340);
  EXPECT_TRUE(std::ranges::any_of(image.pixels,
                                  [](std::uint8_t ink) { return ink < 64; }));
}

TEST(Pages, BecomeTheSamePacketsAsBuilt) {
  Marked marked(kText);
  marked.service.pages(marked.path());
  const MadePackets once = marked.service.packets(marked.path());
  Marked fresh(kText);
  const MadePackets again = fresh.service.packets(fresh.path());
  ASSERT_EQ(once.files.size(), 2U);
  EXPECT_EQ(once.files[0].bytes, again.files[0].bytes);
  EXPECT_EQ(once.files[1].bytes, again.files[1].bytes);
}

// A thousand keystrokes must not fill the memory: what is no longer shown goes.
TEST(Pages, ForgetWhatIsNoLongerShown) {
  Marked marked(kText);
  for (int i = 0; i < 30; ++i) {
    marked.service.change(marked.path(), "title: Week " + std::to_string(i) +
                                             "\n" + marked.text());
    EXPECT_FALSE(marked.service.pages(marked.path()).pages.empty());
  }
}

}  // namespace
}  // namespace sheaf::test
