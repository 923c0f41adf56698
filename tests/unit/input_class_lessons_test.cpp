// Other lessons in a class file whose remarks and order are the teacher's.

#include "input/class_lessons.h"

#include <gtest/gtest.h>

#include "learner_codes.h"

namespace sheaf {
namespace {

constexpr std::string_view kClass =
    "# Room 4, mornings.\n"
    "title: Room 4\n"
    "groups:\n"
    "  Red: {lesson: red/week-1.yaml, layout: week}   # before lunch\n"
    "  Blue:\n"
    "    lesson: \"blue/week 1.yaml\"\n"
    "learners:\n"
    "  A1: {group: Red}   # reads at home\n"
    "  A2:\n"
    "    # glasses\n"
    "    group: Red\n"
    "    spacing: wide\n"
    "  A3: {}\n"
    "  A4:\n"
    "  B7: {group: Blue}\n";

struct Read {
  explicit Read(std::string text) : file("class.yaml", std::move(text)) {
    pupils = read_class(file, diagnostics);
  }
  SourceFile file;
  Diagnostics diagnostics;
  ClassFile pupils;
};

TEST(ClassLessons, OnlyLessonsChange) {
  const Read read{std::string(kClass)};
  ASSERT_EQ(to_text(read.diagnostics), "");
  const auto text = with_lessons(
      read.pupils,
      {{read.pupils.groups[0].settings.lesson.span, "red/week-2.yaml"},
       {read.pupils.groups[1].settings.lesson.span, "blue/week 2.yaml"}},
      {{code_of("A1"), "red/week-1-set-2.yaml"},
       {code_of("A2"), "red/week-1-set-2.yaml"},
       {code_of("A3"), "a.yaml"},
       {code_of("A4"), "b.yaml"}});
  ASSERT_TRUE(text);
  EXPECT_EQ(*text,
            "# Room 4, mornings.\n"
            "title: Room 4\n"
            "groups:\n"
            "  Red: {lesson: red/week-2.yaml, layout: week}   # before lunch\n"
            "  Blue:\n"
            "    lesson: \"blue/week 2.yaml\"\n"
            "learners:\n"
            "  A1: {lesson: red/week-1-set-2.yaml, group: Red}   # reads at "
            "home\n"
            "  A2:\n"
            "    # glasses\n"
            "    lesson: red/week-1-set-2.yaml\n"
            "    group: Red\n"
            "    spacing: wide\n"
            "  A3: {lesson: a.yaml}\n"
            "  A4: {lesson: b.yaml}\n"
            "  B7: {group: Blue}\n");
}

TEST(ClassLessons, APlainListHasNoRoom) {
  for (const char* text : {"lesson: a.yaml\nlearners: [B7, C3]\n",
                           "lesson: a.yaml\nlearners: B7, C3\n",
                           "lesson: a.yaml\nlearners:\n  - B7\n  - C3\n"}) {
    const Read read{text};
    ASSERT_EQ(to_text(read.diagnostics), "");
    const Span place = read.pupils.settings.lesson.span;
    EXPECT_FALSE(with_lessons(read.pupils, {{place, "b.yaml"}},
                              {{code_of("C3"), "a-set-2.yaml"}}))
        << text;
    EXPECT_TRUE(with_lessons(read.pupils, {{place, "b.yaml"}}, {})) << text;
  }
}

}  // namespace
}  // namespace sheaf
