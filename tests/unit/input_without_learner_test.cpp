// A learner is taken out of a file: what is left is as it was, byte for byte,
// and reads without faults.

#include <gtest/gtest.h>

#include "input/class_text.h"
#include "input/without_learner.h"
#include "learner_codes.h"

namespace sheaf {
namespace {

struct Case {
  const char* what;
  std::string before;
  std::string after;
};

const std::string kHead =
    "date: 2026-03-12   # a Thursday\n"
    "lesson: ai.yaml\n"
    "class: class.yaml\n"
    "marked: D1\n";

const Case kCases[] = {
    {"in brackets, first",
     kHead + "wrong: {B7: {rain: rane, tail: .}, C3: {rain: ran}}\n",
     kHead + "wrong: {C3: {rain: ran}}\n"},
    {"in brackets, last",
     kHead + "wrong: {C3: {rain: ran},  B7: {rain: rane}}  # both\n",
     kHead + "wrong: {C3: {rain: ran}}  # both\n"},
    {"in lines",
     kHead + "wrong:\n  B7:\n    rain: rane\n    tail: .\n"
             "  C3: {rain: ran}\n",
     kHead + "wrong:\n  C3: {rain: ran}\n"},
    {"in lines, last, with a comment",
     kHead + "wrong:\n  C3: {rain: ran}  # twice\n  B7: {rain: rane}  # once\n"
             "note: Wet.\n",
     kHead + "wrong:\n  C3: {rain: ran}  # twice\nnote: Wet.\n"},
    {"the only one", kHead + "wrong:\n  B7: {rain: rane}\nabsent: C3\n",
     kHead + "absent: C3\n"},
    {"an absent one", kHead + "absent: [C3, B7]\n", kHead + "absent: [C3]\n"},
    {"an absent one with commas", kHead + "absent: C3, B7, D1\n",
     kHead + "absent: C3, D1\n"},
    {"the only absent one", kHead + "absent: [B7]\n", kHead},
    {"absent ones in lines", kHead + "absent:\n  - C3\n  - B7\n",
     kHead + "absent:\n  - C3\n"},
    {"windows lines",
     "date: 2026-03-12\r\nlesson: a.yaml\r\nmarked: B7, C3\r\nwrong:\r\n"
     "  B7: {rain: rane}\r\n  C3: {rain: ran}\r\n",
     "date: 2026-03-12\r\nlesson: a.yaml\r\nmarked: C3\r\nwrong:\r\n"
     "  C3: {rain: ran}\r\n"},
    {"without a last line break",
     kHead + "wrong:\n  C3: {rain: ran}\n  B7: {rain: rane}",
     kHead + "wrong:\n  C3: {rain: ran}\n"},
    {"several records",
     "lesson: ai.yaml\nrecords:\n"
     "  - date: 2026-03-12\n    written: {B7: {rain: rain}, C3: {rain: ran}}\n"
     "  - date: 2026-03-13\n    writing:\n      B7: {ai: 3/5}\n"
     "      C3: {ai: 1/2}\n",
     "lesson: ai.yaml\nrecords:\n"
     "  - date: 2026-03-12\n    written: {C3: {rain: ran}}\n"
     "  - date: 2026-03-13\n    writing:\n      C3: {ai: 1/2}\n"},
    {"a target of that name stays", kHead + "wrong: {C3: {B7: bee}}\n",
     kHead + "wrong: {C3: {B7: bee}}\n"},
    {"a class", "learners:\n  B7:\n    layout: large\n  C3:\n",
     "learners:\n  C3:\n"},
    {"a class as a list", "learners: [B7, C3]\n", "learners: [C3]\n"},
    {"in small letters", kHead + "wrong: {b7: {rain: rane}, C3: {rain: ran}}\n",
     kHead + "wrong: {C3: {rain: ran}}\n"},
    {"first and last",
     kHead + "wrong: {B7: {rain: rane}, C3: {rain: ran}}\nwritten: {b7: {tail: "
             ".}}\n",
     kHead + "wrong: {C3: {rain: ran}}\n"},
    {"in quotes", kHead + "wrong: {'B7': {rain: rane}, \"C3\": {rain: ran}}\n",
     kHead + "wrong: {\"C3\": {rain: ran}}\n"},
    {"in quotes with a backslash",
     kHead + "wrong: {\"\\x42\\u0037\": {rain: rane}, C3: {rain: ran}}\n",
     kHead + "wrong: {C3: {rain: ran}}\n"},
    {"a text of lines before another learner",
     kHead + "wrong:\n  B7:\n    rain: |\n      rane\n  C3: {rain: ran}\n",
     kHead + "wrong:\n  C3: {rain: ran}\n"},
    {"a text of lines at the end",
     kHead + "wrong:\n  C3: {rain: ran}\n  B7:\n    rain: |\n      rane\n"
             "note: Wet.\n",
     kHead + "wrong:\n  C3: {rain: ran}\nnote: Wet.\n"},
    {"several codes in one part of a list",
     kHead + "absent: [\"B7, C3\", D1]\n", kHead + "absent: [\"C3\", D1]\n"},
    {"a part of a list in quotes", kHead + "absent: [\"B7\", D1]\n",
     kHead + "absent: [D1]\n"},
    {"codes as lines of a text", kHead + "absent: |\n  C3\n  B7\n  D1\n",
     kHead + "absent: |\n  C3\n  D1\n"},
    {"the last line of a text", kHead + "absent: |\n  C3,\n  B7\nnote: Wet.\n",
     kHead + "absent: |\n  C3,\nnote: Wet.\n"},
    {"a text that runs on", kHead + "absent: C3,\n  B7, D1\n",
     kHead + "absent: C3,\n  D1\n"},
    {"a text that runs on, first", kHead + "absent: B7,\n  C3, D1\n",
     kHead + "absent: \n  C3, D1\n"},
    {"a text that runs on, last, with a remark",
     kHead + "absent: C3,\n  B7 # both\n", kHead + "absent: C3 # both\n"},
    {"a text in quotes", kHead + "absent: \"C3, b7\"\n",
     kHead + "absent: \"C3\"\n"},
    {"twice in one text", kHead + "absent: B7, b7, C3\n",
     kHead + "absent: C3\n"},
    {"brackets over lines",
     kHead + "wrong: {\n  B7: {rain: rane},  # once\n  # of C3\n"
             "  C3: {rain: ran}\n}\n",
     kHead + "wrong: {\n  # of C3\n  C3: {rain: ran}\n}\n"},
    {"brackets over lines, last",
     kHead + "wrong: {\n  C3: {rain: ran},\n  B7: {rain: rane}\n}\n",
     kHead + "wrong: {\n  C3: {rain: ran}\n}\n"},
    {"brackets over lines, last, behind a remark",
     kHead + "wrong: {\n  C3: {rain: ran}, # x\n  B7: {rain: rane}\n}\n",
     kHead + "wrong: {\n  C3: {rain: ran}, # x\n}\n"},
    {"commas at the beginnings of lines",
     kHead + "wrong: {\n  B7: {rain: rane}\n  , C3: {rain: ran}\n}\n",
     kHead + "wrong: {\n  C3: {rain: ran}\n}\n"},
    {"several records, the key behind the dash",
     "lesson: ai.yaml\nrecords:\n"
     "  - written:\n      B7: {rain: rain}\n    date: 2026-03-12\n"
     "  - written: {C3: {rain: ran}}\n    date: 2026-03-13\n",
     "lesson: ai.yaml\nrecords:\n"
     "  - date: 2026-03-12\n"
     "  - written: {C3: {rain: ran}}\n    date: 2026-03-13\n"},
    {"several records, the key behind the dash, then a remark",
     "lesson: ai.yaml\nrecords:\n"
     "  - written:\n      B7: {rain: rain}\n    # of the day\n"
     "    date: 2026-03-12\n",
     "lesson: ai.yaml\nrecords:\n"
     "  - # of the day\n    date: 2026-03-12\n"},
    {"several keys behind the dash",
     "lesson: ai.yaml\nrecords:\n"
     "  - written: {B7: {rain: rain}}\n    writing: {b7: {ai: 1/2}}\n"
     "    date: 2026-03-12\n",
     "lesson: ai.yaml\nrecords:\n  - date: 2026-03-12\n"},
    {"a record of one learner, among others",
     "lesson: ai.yaml\ndate: 2026-03-12\nrecords:\n"
     "  - written: {B7: {rain: rain}}\n  - written: {C3: {rain: ran}}\n",
     "lesson: ai.yaml\ndate: 2026-03-12\nrecords:\n"
     "  - written: {C3: {rain: ran}}\n"},
    {"a record under a dash in a line of its own",
     "lesson: ai.yaml\ndate: 2026-03-12\nrecords:\n"
     "  -\n    written: {B7: {rain: rain}}\n"
     "  -\n    written: {C3: {rain: ran}}\n",
     "lesson: ai.yaml\ndate: 2026-03-12\nrecords:\n"
     "  -\n    written: {C3: {rain: ran}}\n"},
    {"records in brackets",
     "lesson: ai.yaml\nrecords: [{date: 2026-03-12, written: {B7: {rain: "
     "rain}}},"
     " {date: 2026-03-13, written: {C3: {rain: ran}}}]\n",
     "lesson: ai.yaml\nrecords: [{date: 2026-03-12}, {date: 2026-03-13, "
     "written: {C3: {rain: ran}}}]\n"},
    {"a whole file in brackets",
     "{date: 2026-03-12, lesson: a.yaml, written: {B7: {a: b}, C3: {a: b}}}\n",
     "{date: 2026-03-12, lesson: a.yaml, written: {C3: {a: b}}}\n"},
    {"in what holds for several records",
     "lesson: ai.yaml\nabsent: B7\nrecords:\n  - date: 2026-03-12\n"
     "    marked: C3\n",
     "lesson: ai.yaml\nrecords:\n  - date: 2026-03-12\n    marked: C3\n"},
    {"old Macintosh lines",
     "date: 2026-03-12\rlesson: a.yaml\rwritten:\r  B7: {a: b}\r"
     "  C3: {a: b}\r",
     "date: 2026-03-12\rlesson: a.yaml\rwritten:\r  C3: {a: b}\r"},
    {"Windows lines of a text",
     kHead + "absent: |\r\n  C3\r\n  B7\r\nnote: Wet.\r\n",
     kHead + "absent: |\r\n  C3\r\nnote: Wet.\r\n"},
    {"a class with groups and settings",
     "groups:\n  Tuesday: {step: 2}\nlearners:\n  \"B7\":\n"
     "    group: Tuesday\n    review-words: |\n      ship\n      shed\n"
     "  C3: {group: Tuesday}\n",
     "groups:\n  Tuesday: {step: 2}\nlearners:\n  C3: {group: Tuesday}\n"},
    {"a class as lines of a text", "learners: |\n  B7\n  C3\n",
     "learners: |\n  C3\n"},
    {"a longer code stays", "learners: [B7-2, B77, AB7, C3]\n",
     "learners: [B7-2, B77, AB7, C3]\n"},
};

TEST(WithoutLearner, LeavesAllElseAsItWas) {
  for (const Case& one : kCases) {
    const SourceFile file("record.yaml", one.before);
    Diagnostics d;
    const auto without = without_learner(file, code_of("B7"), d);
    EXPECT_EQ(to_text(d), "") << one.what;
    if (!without) {
      ADD_FAILURE() << one.what;
      continue;
    }
    EXPECT_EQ(without->text, one.after) << one.what;
    EXPECT_EQ(without->removed.empty(), one.before == one.after) << one.what;
    EXPECT_TRUE(without->still_named.empty() || one.before == one.after)
        << one.what;
  }
}

// All who were marked are no learner, whatever the code.
TEST(WithoutLearner, LeavesTheWordForAll) {
  const std::string text = kHead + "absent: [ALL, C3]\n";
  const SourceFile file("record.yaml", text);
  Diagnostics d;
  const auto without = without_learner(file, code_of("ALL"), d);
  ASSERT_TRUE(without.has_value()) << to_text(d);
  EXPECT_EQ(without->text, kHead + "absent: [C3]\n");
}

std::vector<int> lines_of(const WithoutLearner& without, bool after) {
  std::vector<int> lines;
  for (const WithoutLearner::Named& named : without.still_named) {
    lines.push_back(after ? named.after : named.before);
  }
  return lines;
}

TEST(WithoutLearner, SaysWhereTheCodeStillStands) {
  const SourceFile file("record.yaml", kHead +
                                           "wrong:\n  B7:\n    rain: rane\n"
                                           "  C3: {rain: ran}  # as b7 did\n"
                                           "note: B7's chair, and B77.\n");
  Diagnostics d;
  const auto without = without_learner(file, code_of("B7"), d);
  ASSERT_TRUE(without.has_value());
  EXPECT_EQ(without->removed.size(), 1U);
  EXPECT_EQ(lines_of(*without, false), (std::vector<int>{8, 9}));
  EXPECT_EQ(lines_of(*without, true), (std::vector<int>{6, 7}));
}

// *it* is a word, and so are *A* and *I*.
TEST(WithoutLearner, LooksForInitialsWhereNoWordsAreWritten) {
  const SourceFile file("record.yaml",
                        "# IT was ill, and it rained.\n" + kHead +
                            "wrong: {C3: {\"I saw IT.\": I sor IT.}}\n"
                            "note: |\n  it was\n  with IT\n");
  Diagnostics d;
  const auto without = without_learner(file, code_of("IT"), d);
  ASSERT_TRUE(without.has_value());
  EXPECT_EQ(lines_of(*without, false), (std::vector<int>{1, 9}));
  const SourceFile lesson("lesson.yaml",
                          "pattern: sh\nwords: ship\nsentences: IT is a ship.\n"
                          "teacher-note: Sit by IT.\n# IT\n");
  const auto other = without_learner(lesson, code_of("IT"), d);
  ASSERT_TRUE(other.has_value());
  EXPECT_EQ(lines_of(*other, false), (std::vector<int>{4, 5}));
}

TEST(WithoutLearner, LeavesOtherFilesAlone) {
  for (const std::string text :
       {"pattern: sh\nwords: ship\n", "", "# nothing yet\n", "steps: [sh]\n",
        "sheets: [trace]\n", "services: {web: 1}\n"}) {
    const SourceFile file("other.yaml", text);
    Diagnostics d;
    const auto without = without_learner(file, code_of("B7"), d);
    EXPECT_EQ(to_text(d), "") << text;
    ASSERT_TRUE(without.has_value()) << text;
    EXPECT_EQ(without->text, text);
    EXPECT_TRUE(without->removed.empty() && without->still_named.empty());
  }
  const SourceFile slip("slip.yaml", "wrnog: {B7: {a: b}}\n");
  Diagnostics d;
  const auto without = without_learner(slip, code_of("B7"), d);
  ASSERT_TRUE(without.has_value());
  EXPECT_EQ(lines_of(*without, false), (std::vector<int>{1}));
}

TEST(WithoutLearner, PassesNoFileOverThatItCannotRead) {
  for (const std::string text :
       {"- B7\n", "B7\n", "wrong: {B7: {rain: rane}\n", "a: *b\n",
        "date: 2026-03-12\n--- \ndate: 2026-03-13\n",
        "\xFF\xFE"
        "B7",
        "date: 2026-02-30\nwrong: {B7: {a: b}}\n",
        "pattern: sh\nwrong: {B7: {a: b}}\n",
        "learners: {B7: {lyaout: x}, C3: }\n"}) {
    const SourceFile file("record.yaml", text);
    Diagnostics d;
    EXPECT_FALSE(without_learner(file, code_of("B7"), d).has_value()) << text;
    EXPECT_GT(d.error_count(), 0) << text;
  }
}

TEST(WithoutLearner, DoesNotLeaveABrokenFile) {
  for (const std::string text :
       {"learners: [B7]\n", "title: Room 4\nlearners:\n  B7: {amount: 3}\n",
        "lesson: a.yaml\nrecords: [{date: 2026-03-12, marked: B7, wrong: "
        "{B7: {a: b}, C3: {a: b}}}]\n"}) {
    const SourceFile file("class.yaml", text);
    Diagnostics d;
    const auto without = without_learner(file, code_of("B7"), d);
    ASSERT_TRUE(without.has_value()) << text << to_text(d);
    EXPECT_TRUE(without->nothing_left) << text;
    EXPECT_FALSE(without->removed.empty());
    report_nothing_left(*without, d);
    EXPECT_EQ(d.error_count(), 1);
  }
}

TEST(ClassText, ReadsToTheSameClass) {
  const SourceFile file("class.yaml",
                        "title: \"Room 4: mornings\"\n"
                        "school-year: 2026-09-01 to 2027-07-16\n"
                        "review-weeks: 1, 3\n"
                        "no-school: [2026-10-26, 2026-12-21]\n"
                        "lesson: oa.yaml\n"
                        "groups:\n"
                        "  Tuesday: {step: 12, layout: older-learners}\n"
                        "learners:\n"
                        "  B7: {group: Tuesday, line-size: 0.4 in, amount: 6}\n"
                        "  NO: {review-words: ship shed, "
                        "picture-names: left-out}\n"
                        "  C3: {extra: [trace, cover-write]}\n");
  Diagnostics d;
  const ClassFile before = read_class(file, d);
  const std::string text =
      class_text(before, {{code_of("C3"), {"null", "boat"}}});
  const SourceFile again("class.yaml", text);
  const ClassFile after = read_class(again, d);
  ASSERT_EQ(to_text(d), "") << text;
  EXPECT_EQ(after.title.value, "Room 4: mornings");
  EXPECT_EQ(after.settings.lesson.value, "oa.yaml");
  EXPECT_EQ(after.school_year->first, (Date{2026, 9, 1}));
  EXPECT_EQ(after.school_year->last, (Date{2027, 7, 16}));
  EXPECT_EQ(after.review_weeks, (std::vector<int>{1, 3}));
  EXPECT_EQ(after.no_school,
            (std::vector<Date>{{2026, 10, 26}, {2026, 12, 21}}));
  ASSERT_EQ(after.learners.size(), 3U);
  EXPECT_EQ(after.learners[0].group.value, "Tuesday");
  EXPECT_EQ(after.learners[1].settings.picture_names.value, "left-out");
  const LearnerSettings b7 = settings_for(after, after.learners[0]);
  EXPECT_EQ(b7.layout.value, "older-learners");
  EXPECT_EQ(b7.step.value, "12");
  EXPECT_EQ(b7.line_size.value, Length::from_pt(28.8));
  EXPECT_EQ(b7.amount.value, 6);
  EXPECT_EQ(after.learners[1].code.value.text(), "NO");
  ASSERT_EQ(after.learners[1].settings.review_words.size(), 2U);
  const auto& c3 = after.learners[2].settings;
  ASSERT_EQ(c3.review_words.size(), 2U);
  EXPECT_EQ(c3.review_words[0].value, "null");
  ASSERT_EQ(c3.extra.size(), 2U);
}

}  // namespace
}  // namespace sheaf
