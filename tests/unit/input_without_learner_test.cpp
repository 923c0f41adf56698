// A learner is taken out of a file: what is left is as it was, byte for byte,
// and reads without faults.

#include <gtest/gtest.h>

#include "input/class_text.h"
#include "input/without_learner.h"

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
};

TEST(WithoutLearner, LeavesAllElseAsItWas) {
  for (const Case& one : kCases) {
    const SourceFile file("record.yaml", one.before);
    Diagnostics d;
    const auto without = without_learner(file, "B7", d);
    EXPECT_EQ(to_text(d), "") << one.what;
    ASSERT_TRUE(without.has_value()) << one.what;
    EXPECT_EQ(without->text, one.after) << one.what;
    EXPECT_EQ(without->removed.empty(), one.before == one.after) << one.what;
    EXPECT_TRUE(without->still_named.empty() || one.before == one.after)
        << one.what;
  }
}

TEST(WithoutLearner, SaysWhereTheCodeStillStands) {
  const SourceFile file("record.yaml",
                        kHead +
                            "wrong: {C3: {rain: ran}}  # as B7 did\n"
                            "note: B7's chair, and B77.\n");
  Diagnostics d;
  const auto without = without_learner(file, "B7", d);
  ASSERT_TRUE(without.has_value());
  EXPECT_TRUE(without->removed.empty());
  EXPECT_EQ(without->still_named, (std::vector<int>{5, 6}));
}

TEST(WithoutLearner, LeavesOtherFilesAlone) {
  for (const char* text : {"pattern: sh\nwords: ship\n", "- B7\n", ""}) {
    const SourceFile file("other.yaml", text);
    Diagnostics d;
    EXPECT_FALSE(without_learner(file, "B7", d).has_value()) << text;
  }
}

TEST(WithoutLearner, DoesNotLeaveABrokenFile) {
  const SourceFile file("class.yaml", "learners: [B7]\n");
  Diagnostics d;
  EXPECT_FALSE(without_learner(file, "B7", d).has_value());
  EXPECT_EQ(d.error_count(), 1);
}

TEST(ClassText, ReadsToTheSameClass) {
  const SourceFile file("class.yaml",
                        "title: \"Room 4: mornings\"\n"
                        "review-weeks: 1, 3\n"
                        "no-school: [2026-10-26, 2026-12-21]\n"
                        "lesson: oa.yaml\n"
                        "groups:\n"
                        "  Tuesday: {step: 12, layout: older-learners}\n"
                        "learners:\n"
                        "  B7: {group: Tuesday, line-size: 0.4 in, amount: 6}\n"
                        "  NO: {review-words: ship shed}\n"
                        "  C3: {extra: [trace, cover-write]}\n");
  Diagnostics d;
  const ClassFile before = read_class(file, d);
  const std::string text = class_text(before, {{"C3", {"null", "boat"}}});
  const SourceFile again("class.yaml", text);
  const ClassFile after = read_class(again, d);
  ASSERT_EQ(to_text(d), "") << text;
  EXPECT_EQ(after.title.value, "Room 4: mornings");
  EXPECT_EQ(after.settings.lesson.value, "oa.yaml");
  EXPECT_EQ(after.review_weeks, (std::vector<int>{1, 3}));
  EXPECT_EQ(after.no_school,
            (std::vector<Date>{{2026, 10, 26}, {2026, 12, 21}}));
  ASSERT_EQ(after.learners.size(), 3U);
  EXPECT_EQ(after.learners[0].group.value, "Tuesday");
  const LearnerSettings b7 = settings_for(after, after.learners[0]);
  EXPECT_EQ(b7.layout.value, "older-learners");
  EXPECT_EQ(b7.step.value, "12");
  EXPECT_EQ(b7.line_size.value, Length::from_pt(28.8));
  EXPECT_EQ(b7.amount.value, 6);
  EXPECT_EQ(after.learners[1].code.value, "NO");
  ASSERT_EQ(after.learners[1].settings.review_words.size(), 2U);
  const auto& c3 = after.learners[2].settings;
  ASSERT_EQ(c3.review_words.size(), 2U);
  EXPECT_EQ(c3.review_words[0].value, "null");
  ASSERT_EQ(c3.extra.size(), 2U);
}

}  // namespace
}  // namespace sheaf
