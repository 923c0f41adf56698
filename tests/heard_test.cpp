// Learners' pages as someone hears them, in lessons of several kinds, every
// sheet with its options:
// - whatever is drawn to write on, to tick, to touch, to fold or to cut along
//   belongs to an element that says it;
// - nothing that is heard has signs which speech programs spell or swallow.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <set>

#include "files/disk_files.h"
#include "layout/mark_bounds.h"
#include "look_checks.h"
#include "project_files.h"
#include "sheets/sheet.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

using namespace literals;
using testing_support::TemporaryFolder;

bool says_something(const Document& document,
                    const std::set<ElementId>& with_text, ElementId id) {
  if (with_text.contains(id)) return true;
  for (; id != 0; id = document.element(id).parent) {
    const Element& element = document.element(id);
    const bool has_words =
        element.role == Role::figure || element.role == Role::span;
    if (has_words && !element.alternative.empty()) return true;
  }
  return false;
}

std::set<ElementId> elements_with_text(const Document& document) {
  std::set<ElementId> elements;
  for (const Page& page : document.pages) {
    for (const Mark& mark : page.marks) {
      const auto* text = std::get_if<GlyphMark>(&mark);
      if (text != nullptr) elements.insert(text->element);
    }
  }
  return elements;
}

// A line from side to side of frames is a wall of a table.
bool is_wall(const Page& page, const LineMark& line) {
  const auto ends_on_frame = [&](Point end) {
    return std::ranges::any_of(page.marks, [&](const Mark& mark) {
      const auto* frame = std::get_if<RectMark>(&mark);
      if (frame == nullptr || !frame->stroked) return false;
      const Rect& r = frame->rect;
      const auto near = [&](Length side) {
        return end.x - side < 0.2_mm && side - end.x < 0.2_mm;
      };
      return (near(r.x) || near(r.right())) && end.y >= r.y &&
             end.y <= r.bottom();
    });
  };
  return ends_on_frame(line.from) && ends_on_frame(line.to);
}

// Text, or other frames: then it is there for their sake.
bool has_something_inside(const Page& page, const Rect& room) {
  return std::ranges::any_of(page.marks, [&](const Mark& mark) {
    const auto* text = std::get_if<GlyphMark>(&mark);
    const auto* frame = std::get_if<RectMark>(&mark);
    if (text == nullptr && (frame == nullptr || !frame->stroked)) return false;
    const Rect place = bounds_of(mark);
    if (place.width >= room.width) return false;
    const Point at = text != nullptr ? text->at : Point{place.x, place.y};
    return at.x >= room.x && at.x < room.right() && at.y > room.y &&
           at.y < room.bottom();
  });
}

// What a learner does something with: rings and dots, lines of some length or
// dashed, empty boxes, dashed frames, letters in outline.
bool is_to_act_on(const Page& page, const Mark& mark) {
  if (std::holds_alternative<DotMark>(mark)) return true;
  if (const auto* path = std::get_if<PathMark>(&mark)) return path->stroked;
  if (const auto* line = std::get_if<LineMark>(&mark)) {
    const bool dashed = line->stroke.dash != Dash{};
    const bool level = line->from.y == line->to.y;
    return (dashed || (level && line->to.x - line->from.x > 15_mm)) &&
           !is_wall(page, *line);
  }
  const auto* frame = std::get_if<RectMark>(&mark);
  if (frame == nullptr || !frame->stroked) return false;
  return frame->stroke.dash != Dash{} ||
         !has_something_inside(page, frame->rect);
}

ElementId element_of(const Mark& mark) {
  return std::visit([](const auto& kind) { return kind.element; }, mark);
}

// Where the body of each sheet begins: below the direction on its first page.
class Bodies {
 public:
  explicit Bodies(const Document& document) {
    for (const Page& page : document.pages) {
      const std::string sheet = page.label.substr(0, page.label.rfind(' '));
      const auto begin = begins(document, page);
      if (begin != Length()) begin_ = begin;
      begins_.push_back(page.is_back ? Length() : begin_);
    }
  }
  Length begin(std::size_t page) const { return begins_[page]; }

 private:
  // The heading and the three paragraphs behind it, name, date and direction,
  // are the first children of a section; these lessons have no title.
  static Length begins(const Document& document, const Page& page) {
    ElementId heading = 0;
    Length lowest;
    for (const Mark& mark : page.marks) {
      const auto* text = std::get_if<GlyphMark>(&mark);
      if (text == nullptr || is_artifact(text->element)) continue;
      if (document.element(text->element).role == Role::heading1) {
        heading = text->element;
      }
      if (heading != 0 && text->element >= heading &&
          text->element <= heading + 3) {
        lowest = std::max(lowest, text->at.y);
      }
    }
    // The sign before the direction hangs a little lower.
    return heading == 0 ? Length() : lowest + 3_mm;
  }

  Length begin_;
  std::vector<Length> begins_;
};

// What is drawn on a page to act on, and said nowhere.
std::vector<std::string> unsaid(const Document& document) {
  std::vector<std::string> faults;
  const std::set<ElementId> with_text = elements_with_text(document);
  const Bodies bodies(document);
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    const Page& page = document.pages[i];
    for (const Mark& mark : page.marks) {
      const Rect place = bounds_of(mark);
      if (place.y < bodies.begin(i) || !is_to_act_on(page, mark)) continue;
      const ElementId element = element_of(mark);
      if (is_artifact(element) ||
          !says_something(document, with_text, element)) {
        faults.push_back(page.label + " at " +
                         std::to_string(place.x.mils() / 1000) + "," +
                         std::to_string(place.y.mils() / 1000));
      }
    }
  }
  return faults;
}

// Everything that is heard: what elements say, and texts for which nothing else
// is said.
std::vector<std::string> heard_texts(const Document& document) {
  std::vector<std::string> heard;
  for (const Element& element : document.elements) {
    if (!element.alternative.empty()) heard.push_back(element.alternative);
  }
  for (const Page& page : document.pages) {
    for (const Mark& mark : page.marks) {
      const auto* text = std::get_if<GlyphMark>(&mark);
      if (text == nullptr || is_artifact(text->element)) continue;
      if (says_something(document, {}, text->element)) continue;
      heard.push_back(text->run.shape->text);
    }
  }
  return heard;
}

std::vector<std::string> with_bad_signs(const Document& document) {
  constexpr std::array<std::string_view, 6> kSigns = {"_", "·", "/",
                                                      "+", "=", "–"};
  std::vector<std::string> found;
  for (const std::string& text : heard_texts(document)) {
    const bool bad = std::ranges::any_of(kSigns, [&](std::string_view sign) {
      return text.find(sign) != std::string::npos;
    });
    if (bad) found.push_back(text);
  }
  return found;
}

constexpr const char* kLessons[] = {
    "pattern: sh\nwords: ship shed shell fish dish brush shelf wishes fox\n"
    "taught: ee, ai, i_e\n"
    "sight-words: said one\n"
    "sentences: |\n  The fish is in the dish.\n  She said it was his wish!\n"
    "dictate-sentences: |\n  The fish is in the dish.\n"
    "rhyme: |\n  I see a {ship} on the sea.\n"
    "passage:\n  title: A Wish\n  text: |\n    A fish, a big fish!\n\n"
    "    I wish I had it.\n  questions: |\n    Is it big?\n    Is it red?\n",
    "pattern: i_e\nwords: kite bike time slide five smile\n"
    "sentences: |\n  I like to ride my bike.\n"
    "dictate-sentences: |\n  I like the kite, Mike.\n"
    "passage:\n  text: |\n    I ride a bike.\n  questions: |\n    Do you?\n",
    "pattern: ing_double\nwords: hopping running sitting swimming\n",
    "pattern: ing_drop\nwords: making hoping riding\n",
    "pattern: ed_t\nwords: jumped helped asked\n",
    "pattern: double_middle\nwords: rabbit happy button dinner apple\n",
    "pattern: prefix_un\nwords: unhappy untie unlock\n",
    "pattern: compound\nwords: sunset bedroom rainbow\n",
    "pattern: contraction\nwords: [\"don't\", \"can't\", \"I'm\"]\n",
    "pattern: blend_l\nwords: flag clap plan slip\n",
    "pattern: [ai, ay, a_e]\nwords: rain sail day play cake make come\n",
    "sequence:\n  steps: [short i, sh, ee]\n"
    "placement:\n  part-one: {2: ship}\n"
    "  part-two: {1: hip rid, 2: shop dish, 3: seek feet}\n",
};

constexpr const char* kOtherOptions =
    "  - blending: {marks: none, pattern: outlined}\n"
    "  - blending: {marks: none, arrow: no, readings: 0}\n"
    "  - blending: {marks: lines, pattern: tinted, arrow: no}\n"
    "  - sound-boxes: {given: first, prompt: dictated}\n"
    "  - sound-boxes: {given: pattern, prompt: word, word-line: no}\n"
    "  - sound-boxes: {given: everything}\n"
    "  - word-sort: {cards: no}\n"
    "  - word-sort: {mat: yes}\n"
    "  - picture-sort: {mat: yes}\n"
    "  - word-cards: {back: graphemes}\n"
    "  - dictation: {sentence-form: gaps, mending-line: no}\n"
    "  - cover-write: {fold-line: no, tries: 3}\n"
    "  - compose: {pictures: yes, word-bank: no}\n"
    "  - passage: {readings: 1, answer-lines: 3, find: 1}\n";

class Heard : public testing::Test {
 protected:
  Heard() {
    std::string layout = "sheets:\n";
    for (const SheetKind* kind : sheet_kinds()) {
      if (kind->for_teacher) continue;
      layout += "  - " + std::string(kind->name) + "\n";
    }
    layout_ = folder_.write("layout.yaml", layout + kOtherOptions);
  }

  Made made_of(const std::string& lesson) {
    Made made = make(workspace_, folder_.write("lesson.yaml", lesson), layout_,
                     "letter", {});
    made.about = lesson;
    EXPECT_EQ(made.faults, "") << lesson;
    return made;
  }

  const TemporaryFolder folder_;
  std::string layout_;
  Workspace workspace_{disk(), shipped_folder()};
};

TEST_F(Heard, WhatIsDrawnToActOnIsSaid) {
  std::set<std::string> sheets;
  for (const char* lesson : kLessons) {
    const Made made = made_of(lesson);
    ASSERT_NE(made.lesson, nullptr);
    const Document& learner = made.packet.learner;
    for (const Page& page : learner.pages) {
      sheets.insert(page.label.substr(0, page.label.rfind(' ')));
    }
    for (const std::string& fault : unsaid(learner)) {
      ADD_FAILURE() << lesson << fault << " is said nowhere";
    }
  }
  for (const SheetKind* kind : sheet_kinds()) {
    if (kind->for_teacher) continue;
    EXPECT_TRUE(sheets.contains(std::string(kind->name)))
        << kind->name << " was never looked at";
  }
}

TEST_F(Heard, NoSignIsReadBadly) {
  for (const char* lesson : kLessons) {
    const Made made = made_of(lesson);
    ASSERT_NE(made.lesson, nullptr);
    for (const std::string& text : with_bad_signs(made.packet.learner)) {
      ADD_FAILURE() << lesson << "heard: " << text;
    }
  }
}

// Each check finds what it is for: one thing that is silenced, one bad sign.
TEST_F(Heard, ChecksFindWhatIsSilenced) {
  const Made made = made_of(kLessons[0]);
  ASSERT_NE(made.lesson, nullptr);
  const Document& learner = made.packet.learner;
  ASSERT_TRUE(unsaid(learner).empty());
  // Marks of each kind, one after the other made decoration.
  std::set<std::size_t> kinds;
  for (std::size_t i = 0; i < learner.pages.size(); ++i) {
    const Bodies bodies(learner);
    const auto& marks = learner.pages[i].marks;
    for (std::size_t k = 0; k < marks.size(); ++k) {
      if (bounds_of(marks[k]).y < bodies.begin(i) ||
          !is_to_act_on(learner.pages[i], marks[k]) ||
          !kinds.insert(marks[k].index()).second) {
        continue;
      }
      Document silenced = learner;
      std::visit([](auto& kind) { kind.element = kDecoration; },
                 silenced.pages[i].marks[k]);
      EXPECT_EQ(unsaid(silenced).size(), 1U) << learner.pages[i].label;
      // An element that says nothing is no better.
      silenced = learner;
      std::visit([](auto& kind) { kind.element = kDocumentElement; },
                 silenced.pages[i].marks[k]);
      EXPECT_EQ(unsaid(silenced).size(), 1U) << learner.pages[i].label;
    }
  }
  EXPECT_EQ(kinds.size(), 4U) << "lines, frames, dots and paths";
  Document signs = learner;
  signs.add({.role = Role::span,
             .parent = kDocumentElement,
             .alternative = "rain + ing"});
  EXPECT_EQ(with_bad_signs(signs), std::vector<std::string>{"rain + ing"});
}

}  // namespace
}  // namespace sheaf::test
