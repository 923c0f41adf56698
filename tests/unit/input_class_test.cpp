#include <gtest/gtest.h>

#include "input/class_file.h"
#include "input/class_text.h"
#include "input_mistakes.h"

namespace sheaf {
namespace {

TEST(ClassFile, ReadsLearnersGroupsAndTheClass) {
  const SourceFile file("class.yaml",
                        "sheaf: 1\n"
                        "title: Room 4\n"
                        "lesson: oa.yaml\n"
                        "line-size: 6 mm\n"
                        "groups:\n"
                        "  Tuesday: {step: 12, layout: older-learners, "
                        "picture-names: numbered}\n"
                        "  Thursday:\n"
                        "learners:\n"
                        "  B7:\n"
                        "    group: Tuesday\n"
                        "    layout: large-print\n"
                        "    amount: 6\n"
                        "    spacing: wide\n"
                        "    picture-names: left-out\n"
                        "    extra: trace, cover-write\n"
                        "    review-words: ship shed\n"
                        "  C3: {group: Tuesday, line-size: 0.4 in}\n"
                        "  NO:\n");
  Diagnostics d;
  const ClassFile all = read_class(file, d);
  EXPECT_EQ(to_text(d), "");
  EXPECT_EQ(all.title.value, "Room 4");
  ASSERT_EQ(all.groups.size(), 2U);
  ASSERT_EQ(all.learners.size(), 3U);
  EXPECT_EQ(all.learners[2].code.value.text(), "NO");
  const LearnerSettings b7 = settings_for(all, all.learners[0]);
  EXPECT_EQ(b7.lesson.value, "oa.yaml");
  EXPECT_EQ(b7.layout.value, "large-print");
  EXPECT_EQ(b7.step.value, "12");
  EXPECT_EQ(b7.amount.value, 6);
  EXPECT_EQ(b7.spacing.value, "wide");
  EXPECT_EQ(b7.picture_names.value, "left-out");
  EXPECT_EQ(b7.line_size.value, Length::from_mm(6));
  ASSERT_EQ(b7.extra.size(), 2U);
  EXPECT_EQ(b7.extra[1].value, "cover-write");
  ASSERT_EQ(b7.review_words.size(), 2U);
  EXPECT_EQ(b7.review_words[1].span.text(), "shed");
  const LearnerSettings c3 = settings_for(all, all.learners[1]);
  EXPECT_EQ(c3.layout.value, "older-learners");
  EXPECT_EQ(c3.picture_names.value, "numbered");
  EXPECT_EQ(c3.line_size.value, Length::from_pt(28.8));
  EXPECT_FALSE(c3.amount.given());
}

TEST(ClassFile, TakesAPlainListOfLearners) {
  for (const char* text : {"learners: B7, C3\n", "learners: [B7, C3]\n",
                           "learners:\n  - B7\n  - C3\n"}) {
    const SourceFile file("class.yaml", text);
    Diagnostics d;
    const ClassFile all = read_class(file, d);
    EXPECT_EQ(to_text(d), "") << text;
    ASSERT_EQ(all.learners.size(), 2U) << text;
    EXPECT_EQ(all.learners[1].code.value.text(), "C3");
  }
}

TEST(ClassFile, KnowsItsSchoolYear) {
  const SourceFile file("class.yaml",
                        "school-year: 2026-09-01 to 2027-07-16\n"
                        "learners: [B7]\n");
  Diagnostics d;
  const ClassFile all = read_class(file, d);
  EXPECT_EQ(to_text(d), "");
  ASSERT_TRUE(all.school_year);
  EXPECT_FALSE(all.school_year->has({2026, 8, 31}));
  EXPECT_TRUE(all.school_year->has({2026, 9, 1}));
  EXPECT_TRUE(all.school_year->has({2027, 7, 16}));
  EXPECT_FALSE(all.school_year->has({2027, 7, 17}));
  for (const char* year :
       {"2026", "2026-09-01", "2027-07-16 to 2026-09-01",
        "2026-09-01 to 2026-09-31", "2026-09-01 until 2027-07-16"}) {
    const SourceFile wrong("class.yaml", std::string("school-year: ") + year +
                                             "\nlearners: [B7]\n");
    Diagnostics found;
    EXPECT_FALSE(read_class(wrong, found).school_year) << year;
    EXPECT_EQ(found.error_count(), 1) << year;
    EXPECT_NE(to_text(found).find("as in `school-year: 2026-09-01 to"),
              std::string::npos)
        << to_text(found);
  }
}

TEST(ClassFile, KnowsFromWhenAndUntilWhen) {
  const SourceFile file("class.yaml",
                        "learners:\n"
                        "  B7: {from: 2026-10-05}\n"
                        "  C3: {until: 2026-10-04}\n"
                        "  D1:\n");
  Diagnostics d;
  const ClassFile all = read_class(file, d);
  EXPECT_EQ(to_text(d), "");
  ASSERT_EQ(all.learners.size(), 3U);
  EXPECT_FALSE(all.learners[0].is_here_on({2026, 10, 4}));
  EXPECT_TRUE(all.learners[0].is_here_on({2026, 10, 5}));
  EXPECT_TRUE(all.learners[1].is_here_on({2026, 10, 4}));
  EXPECT_FALSE(all.learners[1].is_here_on({2026, 10, 5}));
  EXPECT_TRUE(all.learners[2].is_here_on({2026, 10, 5}));
}

TEST(ClassFile, KnowsTheGoalsOfProbes) {
  const SourceFile file("class.yaml",
                        "goal-date: 2027-06-18\n"
                        "learners:\n"
                        "  B7: {goal: 70}\n"
                        "  C3:\n");
  Diagnostics d;
  const ClassFile all = read_class(file, d);
  EXPECT_EQ(to_text(d), "");
  ASSERT_TRUE(all.goal_date.has_value());
  EXPECT_EQ(all.goal_date->value, (Date{2027, 6, 18}));
  EXPECT_EQ(all.learners[0].goal.value, 70);
  EXPECT_FALSE(all.learners[1].goal.given());
  EXPECT_EQ(class_text(all, {}),
            "sheaf: 1\ngoal-date: 2027-06-18\nlearners:\n  B7:\n    goal: 70\n"
            "  C3:\n");
}

TEST(LearnerCode, HasOneForm) {
  const auto text = [](std::string_view written) {
    return LearnerCode::read(written).value_or(LearnerCode()).text();
  };
  EXPECT_EQ(text("b7"), "B7");
  EXPECT_EQ(text("B7"), "B7");
  EXPECT_EQ(text("\u00E9"
                 "2"),
            "\u00C9"
            "2");
  EXPECT_EQ(text("e\u0301"
                 "2"),
            "\u00C9"
            "2");               // e and its mark
  EXPECT_EQ(text("beth"), "");  // no code
  EXPECT_EQ(text("all"), "");   // everyone
  EXPECT_EQ(LearnerCode::read("b7"), LearnerCode::read("B7"));
  EXPECT_EQ(codes_text({*LearnerCode::read("c3"), *LearnerCode::read("AB")}),
            "C3, AB");
}

TEST(ClassFile, KnowsACodeFromAName) {
  for (const char* code :
       {"B7", "K", "é2", "A-1", "kl2", "17", "ÀBC", "123456789-12"}) {
    EXPECT_TRUE(is_learner_code(code)) << code;
  }
  for (const char* code :
       {"", "Beth Smith", "Beth", "Ed", "ed", "MARY", "Beth2", "123456789-123",
        "-1", "a-", "a--b", "../x", "a.b", "a/b", "日"}) {
    EXPECT_FALSE(is_learner_code(code)) << code;
  }
}

const Mistake kMistakes[] = {
    {"no learners", "layout: week\n",
     "class.yaml:1:1: error: the class has no learners [missing-key]\n"
     "   1 | layout: week\n"
     "     | ^~~~~~\n"
     "  help: add a line such as `learners: B7, C3, D1`\n"},
    {"a full name",
     "learners:\n"
     "  B7:\n"
     "  Beth Smith: {layout: large-print}\n",
     "class.yaml:1:1: error: the learner in line 3 has no short code "
     "[wrong-value]\n"
     "   1 | learners:\n"
     "     | ^~~~~~~~\n"
     "  help: use a code: up to three capital letters, as in `AB`, or "
     "figures with up to three letters, as in `B7`; Sheaf wants no "
     "names\n"},
    {"a full name in the line of its key", "learners: B7, Beth Smith\n",
     "class.yaml: error: the learner in line 1 has no short code "
     "[wrong-value]\n"
     "  help: use a code: up to three capital letters, as in `AB`, or "
     "figures with up to three letters, as in `B7`; Sheaf wants no "
     "names\n"},
    {"a learner who leaves before the first day",
     "learners:\n"
     "  B7: {from: 2026-10-05, until: 2026-10-01}\n",
     "class.yaml:2:33: error: `B7` leaves the class before joining it "
     "[wrong-value]\n"
     "   2 |   B7: {from: 2026-10-05, until: 2026-10-01}\n"
     "     |                                 ^~~~~~~~~~\n"
     "class.yaml:2:14: note: the first day\n"
     "   2 |   B7: {from: 2026-10-05, until: 2026-10-01}\n"
     "     |              ^~~~~~~~~~\n"
     "  help: make `until` a later day than `from`\n"},
    {"a first day that is none",
     "learners:\n"
     "  B7: {from: week 6}\n",
     "class.yaml:2:14: error: `week 6` is not a date in the calendar "
     "[wrong-value]\n"
     "   2 |   B7: {from: week 6}\n"
     "     |              ^~~~~~\n"
     "  help: write year, month and day with hyphens, as in `from: "
     "2026-10-05`\n"},
    {"a code twice", "learners: B7, C3, b7\n",
     "class.yaml:1:19: error: two learners have the code `B7` "
     "[repeated-word]\n"
     "   1 | learners: B7, C3, b7\n"
     "     |                   ^~\n"
     "class.yaml:1:11: note: the first one\n"
     "   1 | learners: B7, C3, b7\n"
     "     |           ^~\n"
     "  help: give each learner a code of their own; capital letters make no "
     "difference\n"},
    {"a group that is not there",
     "groups:\n"
     "  Tuesday: {step: 12}\n"
     "learners:\n"
     "  B7: {group: Tusday}\n",
     "class.yaml:4:15: error: there is no group `…` [wrong-value]\n"
     "   4 |   B7: {group: …}\n"
     "     |               ^\n"
     "  help: did you mean `Tuesday`?\n"},
    {"a group without any groups",
     "learners:\n"
     "  B7: {group: Tuesday}\n",
     "class.yaml:2:15: error: there is no group `…` [wrong-value]\n"
     "   2 |   B7: {group: …}\n"
     "     |               ^\n"
     "  help: write the group under `groups:` as well\n"},
    {"a name that stands twice, which no message shows",
     "learners:\n"
     "  Beth Smith: {layout: large-print}\n"
     "  Beth Smith: {layout: week}\n",
     "class.yaml:3:3: error: the key `… …` is here a second time "
     "[repeated-key]\n"
     "   3 |   … …: {layout: week}\n"
     "     |   ^~~\n"
     "  help: keep everything that belongs to it in one place\n"},
    {"a name where a key belongs",
     "learners: B7, C3\n"
     "Beth: {layout: large-print}\n"
     "layuot: week\n",
     "class.yaml:2:1: error: this is not a key of a class [unknown-key]\n"
     "   2 | …: {layout: large-print}\n"
     "     | ^\n"
     "  help: take it out, or begin the line with `#` if it is a note to "
     "yourself\n"
     "class.yaml:3:1: error: this is not a key of a class [unknown-key]\n"
     "   3 | …: week\n"
     "     | ^\n"
     "  help: did you mean `layout`?\n"},
    {"a name in a remark",
     "learners:\n"
     "  B7: {spacing: odd} # Beth\n",
     "class.yaml:2:17: error: this does not fit `spacing` [wrong-value]\n"
     "   2 |   B7: {spacing: …}\n"
     "     |                 ^\n"
     "  help: write `normal`, `wide` or `wider`\n"},
    {"a name in a list within the list", "learners: [B7, [Beth]]\n",
     "class.yaml:1:16: error: there is a list inside the list under "
     "`learners` [wrong-value]\n"
     "   1 | learners: [B7, […]]\n"
     "     |                ^~~\n"
     "  help: put a text with brackets or dashes in quotes\n"},
    {"a name in the line of another fault",
     "learners: {B7: {spacing: odd, Beth: week}}\n",
     "class.yaml:1:26: error: this does not fit `spacing` [wrong-value]\n"
     "   1 | learners: {B7: {spacing: …, …: week}}\n"
     "     |                          ^ word 4 of this line\n"
     "  help: write `normal`, `wide` or `wider`\n"
     "class.yaml:1:31: error: this is not a key of a learner [unknown-key]\n"
     "   1 | learners: {B7: {spacing: …, …: week}}\n"
     "     |                             ^ word 5 of this line\n"
     "  help: take it out, or begin the line with `#` if it is a note to "
     "yourself\n"},
    {"a name after a sign", "learners: *Beth\n",
     "class.yaml:1:11: error: this text begins with `*`, which has a special "
     "meaning at the start of a text [special-sign]\n"
     "   1 | learners: *…\n"
     "     |           ^~\n"
     "  help: put the text in quotes, as in `\"*…\"`, or write it as a line "
     "under `|`\n"},
    {"a name in a line that is none",
     "learners:\n"
     "  Beth Smith: {layout: [week}\n",
     "class.yaml:2:29: error: this `}` closes a bracket that was never opened "
     "[unclosed-bracket]\n"
     "   2 |   … …: {layout: [week}\n"
     "     |                      ^\n"
     "  help: take it out, or put the text in quotes if it belongs there\n"},
    {"text where settings should be",
     "learners:\n"
     "  B7: large-print\n",
     "class.yaml:2:7: error: `B7` has text after it [wrong-value]\n"
     "   2 |   B7: large-print\n"
     "     |       ^~~~~~~~~~~\n"
     "  help: write it like this: `B7: {layout: large-print}`\n"},
    {"a mistyped setting",
     "learners:\n"
     "  B7: {layuot: large-print}\n",
     "class.yaml:2:8: error: this is not a key of a learner [unknown-key]\n"
     "   2 |   B7: {…: large-print}\n"
     "     |        ^\n"
     "  help: did you mean `layout`?\n"},
    {"a line size without its unit",
     "learners:\n"
     "  B7: {line-size: 8}\n",
     "class.yaml:2:19: error: `8` is not a size with its unit [wrong-value]\n"
     "   2 |   B7: {line-size: 8}\n"
     "     |                   ^\n"
     "  help: write a number with mm, cm, in or pt, as in `line-size: 8 mm`\n"},
    {"a line size out of range",
     "learners:\n"
     "  B7: {line-size: 8 cm}\n",
     "class.yaml:2:19: error: the letters on a line cannot be `8 cm` high "
     "[value-out-of-range]\n"
     "   2 |   B7: {line-size: 8 cm}\n"
     "     |                   ^~~~\n"
     "  help: choose from 3 mm to 20 mm\n"},
    {"a spacing nobody knows",
     "learners:\n"
     "  B7: {spacing: huge}\n",
     "class.yaml:2:17: error: this does not fit `spacing` [wrong-value]\n"
     "   2 |   B7: {spacing: …}\n"
     "     |                 ^\n"
     "  help: write `normal`, `wide` or `wider`\n"},
    {"an amount in letters",
     "learners:\n"
     "  B7: {amount: few}\n",
     "class.yaml:2:16: error: this is not a whole number written in figures "
     "[wrong-value]\n"
     "   2 |   B7: {amount: …}\n"
     "     |                ^\n"
     "  help: write it like this: `amount: 6`\n"},
    {"settings beside a learner",
     "learners:\n"
     "  B7:\n"
     "  layout: large-print\n"
     "  amount: 6\n",
     "class.yaml:3:3: error: `layout` is level with the learners, not under "
     "one of them [wrong-indentation]\n"
     "   3 |   layout: large-print\n"
     "     |   ^~~~~~\n"
     "  help: begin a learner's settings two spaces further right than the "
     "code\n"
     "class.yaml:4:3: error: `amount` is level with the learners, not under "
     "one of them [wrong-indentation]\n"
     "   4 |   amount: 6\n"
     "     |   ^~~~~~\n"
     "  help: begin a learner's settings two spaces further right than the "
     "code\n"},
};

TEST(ClassFile, SaysWhatIsWrong) {
  expect_messages("class.yaml", kMistakes, read_class);
}

}  // namespace
}  // namespace sheaf
