// How pages look, checked in numbers: every layout with every demo lesson, on
// both papers. Texts do not stand on each other or on pictures, type and rules
// are not smaller than readers and copiers can take, cards meet their backs,
// and every mark is still there on a black and white copy.

#include <gtest/gtest.h>

#include <fstream>
#include <set>

#include "files/disk_files.h"
#include "layout/mark_bounds.h"
#include "look_checks.h"
#include "preview/preview.h"
#include "project_files.h"
#include "sheets/sheet.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

using namespace literals;
namespace fs = std::filesystem;

std::vector<std::string> names_in(const std::string& folder) {
  std::vector<std::string> names;
  for (const fs::path& path : files_below(project() / folder, {".yaml"})) {
    const std::string name = path.stem().string();
    // Those of the demo term, a folder further down, are not looked at here.
    if (path.parent_path().filename() != folder) continue;
    if (!name.ends_with("class")) names.push_back(name);
  }
  return names;
}

std::string demo_lesson(const std::string& name) {
  return (project() / "lessons" / (name + ".yaml")).string();
}

std::vector<std::string> all_kinds() {
  std::vector<std::string> names;
  for (const SheetKind* kind : sheet_kinds()) names.emplace_back(kind->name);
  return names;
}

void check_page(const Page& page, const Style& style, bool for_learner,
                const std::string& where) {
  check_overlaps(page, where);
  check_lines(page, where);
  check_edges(page, where);
  check_type(page, style, for_learner, where);
}

class Look : public testing::Test {
 protected:
  Workspace workspace_{disk(), shipped_folder()};
};

TEST_F(Look, NothingIsTooSmallOrOnSomethingElse) {
  for (const std::string& layout : names_in("layouts")) {
    for (const std::string& lesson : names_in("lessons")) {
      for (const char* paper : {"letter", "a4"}) {
        const Made made =
            make(workspace_, demo_lesson(lesson), layout, paper, {});
        ASSERT_NE(made.lesson, nullptr);
        ASSERT_EQ(made.faults, "") << made.about;
        const Document& learner = made.packet.learner;
        for (const Page& page : learner.pages) {
          check_page(page, made.lesson->style, true,
                     made.about + ", " + page.label);
        }
        for (const Page& page : made.packet.teacher.pages) {
          check_page(page, made.lesson->style, false,
                     made.about + ", " + page.label);
        }
      }
    }
  }
}

// The part of a list's item to which an element belongs; 0 for no item's.
ElementId part_of_item(const Document& document, ElementId id) {
  for (; id != 0 && !is_artifact(id); id = document.elements[id - 1].parent) {
    const Role role = document.elements[id - 1].role;
    if (role == Role::list_label || role == Role::list_body) return id;
  }
  return 0;
}

// Readers that do not heed tags read and copy in the order of drawing: a number
// that came after its step would stand at the end of it ("Learners repeat
// it.1.").
std::string labels_drawn_late(const Document& document) {
  std::string late;
  std::set<ElementId> begun;
  for (const Page& page : document.pages) {
    for (const Mark& mark : page.marks) {
      const ElementId part = part_of_item(
          document,
          std::visit([](const auto& kind) { return kind.element; }, mark));
      if (part == 0) continue;
      const Element& element = document.elements[part - 1];
      if (element.role == Role::list_body) {
        begun.insert(element.parent);
      } else if (begun.contains(element.parent)) {
        late += page.label + " ";
      }
    }
  }
  return late;
}

TEST_F(Look, LabelsAreDrawnBeforeWhatTheyLabel) {
  for (const std::string& lesson : names_in("lessons")) {
    const Made made =
        make(workspace_, demo_lesson(lesson), "week", "a4", all_kinds());
    ASSERT_NE(made.lesson, nullptr);
    EXPECT_EQ(labels_drawn_late(made.packet.learner), "") << made.about;
    EXPECT_EQ(labels_drawn_late(made.packet.teacher), "") << made.about;
  }
}

TEST_F(Look, CodesOfCardsMeetTheirBacks) {
  const std::vector<std::string> cards = {"word-cards", "picture-cards",
                                          "grapheme-cards"};
  for (const std::string& lesson : names_in("lessons")) {
    const Made made =
        make(workspace_, demo_lesson(lesson), "week", "letter", cards);
    ASSERT_NE(made.lesson, nullptr);
    ASSERT_EQ(made.faults, "") << made.about;
    const auto& pages = made.packet.learner.pages;
    int backs = 0;
    for (std::size_t i = 0; i < pages.size(); ++i) {
      if (!pages[i].is_back) continue;
      ++backs;
      ASSERT_EQ(i % 2, 1U) << "a back stands on the back of a leaf";
      // Code and number of a card, and where its left edge is.
      std::map<std::string, Point> fronts;
      for (const Mark& mark : pages[i - 1].marks) {
        const auto* text = std::get_if<GlyphMark>(&mark);
        if (text != nullptr) fronts[text->run.shape->text] = text->at;
      }
      const std::string code = made.lesson->analyzed.code + " ";
      std::set<Length> columns;
      for (const auto& [text, at] : fronts) {
        if (text.starts_with(code)) columns.insert(at.x);
      }
      for (const Mark& mark : pages[i].marks) {
        const auto* text = std::get_if<GlyphMark>(&mark);
        if (text == nullptr || !text->run.shape->text.starts_with(code)) {
          continue;
        }
        const Point front = fronts.at(text->run.shape->text);
        EXPECT_EQ(front.y, text->at.y);
        // As far from the right as its front is from the left, in columns.
        const auto place =
            std::distance(columns.begin(), columns.find(front.x));
        const auto mirrored =
            std::distance(columns.begin(), columns.find(text->at.x));
        EXPECT_EQ(place + mirrored + 1,
                  static_cast<std::ptrdiff_t>(columns.size()))
            << made.about << ", " << text->run.shape->text;
      }
    }
    EXPECT_GE(backs, 2) << made.about;
  }
}

// What is heard in place of each picture, by the name of the picture.
std::vector<std::pair<std::string, std::string>> heard_pictures(
    const Document& document) {
  std::vector<std::pair<std::string, std::string>> heard;
  for (const Page& page : document.pages) {
    for (const Mark& mark : page.marks) {
      const auto* shown = std::get_if<PictureMark>(&mark);
      if (shown == nullptr) continue;
      if (is_artifact(shown->element)) {
        heard.emplace_back(shown->picture->name, "");
        continue;
      }
      const Element& figure = document.element(shown->element);
      EXPECT_EQ(figure.role, Role::figure) << shown->picture->name;
      heard.emplace_back(shown->picture->name, figure.alternative);
    }
  }
  return heard;
}

// Every sheet that shows pictures, in each demo lesson.
TEST_F(Look, PicturesAreHeardAsTheLayoutSays) {
  const testing_support::TemporaryFolder folder;
  const std::string sheets =
      "\nsheets:\n  - picture-sort\n  - sound-card\n  - sound-boxes\n"
      "  - picture-cards\n  - grapheme-cards\n"
      "  - word-cards: {back: picture}\n  - compose: {pictures: yes}\n";
  for (const char* names : {"said", "numbered", "left-out"}) {
    const std::string layout =
        folder.write(std::string(names) + ".yaml",
                     "picture-names: " + std::string(names) + sheets);
    std::size_t seen = 0;
    for (const std::string& lesson : names_in("lessons")) {
      const Made made =
          make(workspace_, demo_lesson(lesson), layout, "letter", {});
      ASSERT_NE(made.lesson, nullptr);
      for (const auto& [name, text] : heard_pictures(made.packet.learner)) {
        ++seen;
        if (names == std::string("left-out")) {
          EXPECT_EQ(text, "") << made.about << ", " << name;
        } else if (names == std::string("said")) {
          // "ship", "key picture: ship, crossed out"
          EXPECT_NE((": " + text).find(": " + name), std::string::npos)
              << made.about << ", " << text;
          EXPECT_FALSE(text.starts_with("picture")) << made.about;
        } else {
          EXPECT_EQ(text.find(name), std::string::npos)
              << made.about << ", " << text;
          EXPECT_NE(text.find_first_of("123456789"), std::string::npos)
              << made.about << ", " << text;
        }
      }
    }
    EXPECT_GE(seen, 100U) << names;
  }
}

// A page as a black and white copier of 150 dots an inch sees it, one that
// drops what is lighter than a middle grey.
class Copy {
 public:
  explicit Copy(const Page& page)
      : image_(
            draw_page(page, {.dpi = kDots, .colours = PreviewColours::grey})) {}
  bool has_ink(const Rect& rect) const {
    const auto dot = [](Length length) {
      return static_cast<int>(length.mils() * kDots / 72000);
    };
    for (int y = std::max(0, dot(rect.y) - 1);
         y <= std::min(image_.height - 1, dot(rect.bottom()) + 1); ++y) {
      for (int x = std::max(0, dot(rect.x) - 1);
           x <= std::min(image_.width - 1, dot(rect.right()) + 1); ++x) {
        if (is_black(x, y)) return true;
      }
    }
    return false;
  }

 private:
  static constexpr int kDots = 150;

  bool is_black(int x, int y) const {
    const auto at =
        static_cast<std::size_t>(y) * static_cast<std::size_t>(image_.width) +
        static_cast<std::size_t>(x);
    return image_.pixels[at] < 160;
  }

  PreviewImage image_;
};

// White fills and light grounds carry no meaning.
bool must_survive(const Mark& mark) {
  const auto* rect = std::get_if<RectMark>(&mark);
  if (rect != nullptr) return rect->stroked;
  const auto* text = std::get_if<GlyphMark>(&mark);
  if (text != nullptr) return bounds_of(mark).width > 0_mm;
  return true;
}

TEST_F(Look, EveryMarkSurvivesACopier) {
  for (const std::string& layout : names_in("layouts")) {
    const Made made =
        make(workspace_, demo_lesson("sh-ship"), layout, "letter",
             layout == "week" ? all_kinds() : std::vector<std::string>());
    ASSERT_NE(made.lesson, nullptr);
    ASSERT_EQ(made.faults, "") << made.about;
    const Document& document = made.packet.learner;
    for (const Page& page : document.pages) {
      const Copy copy(page);
      for (const Mark& mark : page.marks) {
        if (!must_survive(mark)) continue;
        const auto* text = std::get_if<GlyphMark>(&mark);
        EXPECT_TRUE(copy.has_ink(text == nullptr ? bounds_of(mark)
                                                 : ink_of_text(*text)))
            << layout << ", " << page.label;
      }
    }
  }
}

}  // namespace
}  // namespace sheaf::test
