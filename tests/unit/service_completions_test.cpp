// What is offered at a place.

#include <gtest/gtest.h>

#include <algorithm>

#include "service_marked.h"

namespace sheaf::test {
namespace {

std::vector<std::string> offered(Marked& marked) {
  std::vector<std::string> labels;
  for (const Completion& one :
       marked.service.completions(marked.path(), marked.at())) {
    labels.push_back(one.label);
  }
  return labels;
}

bool has(const std::vector<std::string>& labels, std::string_view label) {
  return std::ranges::find(labels, label) != labels.end();
}

// The text with the offer of that name taken.
std::string taken(Marked& marked, std::string_view label) {
  for (const Completion& one :
       marked.service.completions(marked.path(), marked.at())) {
    if (one.label != label) continue;
    std::string text = marked.text();
    return text.replace(one.range.begin, one.range.end - one.range.begin,
                        one.text);
  }
  return "not offered";
}

TEST(Completions, OfferKeysThatAreNotThereYet) {
  Marked marked("pattern: sh\nwor^\n");
  const auto labels = offered(marked);
  EXPECT_TRUE(has(labels, "words"));
  EXPECT_TRUE(has(labels, "sentences"));
  EXPECT_FALSE(has(labels, "pattern"));
  EXPECT_EQ(taken(marked, "words"), "pattern: sh\nwords: \n");
}

TEST(Completions, OfferKeysInAnEmptyFile) {
  Marked marked("^");
  EXPECT_TRUE(has(offered(marked), "pattern"));
}

TEST(Completions, OfferPatterns) {
  Marked marked("pattern: ai, a^\n");
  EXPECT_TRUE(has(offered(marked), "ay"));
  EXPECT_EQ(taken(marked, "ay"), "pattern: ai, ay\n");
}

TEST(Completions, OfferWordsThatHaveThePatternAndAreNotThere) {
  Marked marked("pattern: sh\nwords: ship fish ^\n");
  const auto labels = offered(marked);
  EXPECT_FALSE(has(labels, "ship"));
  EXPECT_TRUE(has(labels, "shop")) << labels.size();
  EXPECT_EQ(taken(marked, "shop"), "pattern: sh\nwords: ship fish shop\n");
}

// oa is taught in the third step only.
TEST(Completions, OfferWordsThatCanBeRead) {
  const std::string sequence =
      "sequence:\n  steps:\n    - patterns: short_i\n    - patterns: sh\n"
      "    - patterns: oa, short_o\nstep: 2\n";
  Marked marked(sequence + "pattern: sh\nwords: ship fish dish wish sh^\n");
  // What was taught is known from the lesson once it could be read.
  marked.service.change(marked.path(),
                        sequence + "pattern: sh\nwords: ship fish dish\n");
  marked.service.messages(marked.path());
  marked.service.change(marked.path(), marked.text());
  const auto labels = offered(marked);
  EXPECT_TRUE(has(labels, "shin"));
  EXPECT_FALSE(has(labels, "shop"));
}

TEST(Completions, OfferWordsInSentences) {
  Marked marked("pattern: oa\nwords: boat\nsentences: |\n  The g^\n");
  EXPECT_TRUE(has(offered(marked), "goat"));
}

TEST(Completions, OfferLayoutsStepsAndChoices) {
  Marked layout("pattern: sh\nlayout: ^\n");
  EXPECT_TRUE(has(offered(layout), "large-print"));
  Marked strict("pattern: sh\nstrict: ^\n");
  EXPECT_EQ(offered(strict), (std::vector<std::string>{"yes", "no"}));
  Marked accent("pattern: sh\naccent: b^\n");
  EXPECT_EQ(taken(accent, "british"), "pattern: sh\naccent: british\n");
}

TEST(Completions, OfferSheetsAndTheirOptionsInALayout) {
  Marked sheet("paper: letter\nsheets:\n  - disc^\n", "/desk/own.yaml");
  EXPECT_EQ(taken(sheet, "discovery"),
            "paper: letter\nsheets:\n  - discovery\n");
  Marked option("paper: letter\nsheets:\n  - discovery:\n      ^\n",
                "/desk/own.yaml");
  EXPECT_TRUE(has(offered(option), "columns"));
  EXPECT_FALSE(has(offered(option), "paper"));
  Marked value("paper: ^\nsheets:\n  - discovery\n", "/desk/own.yaml");
  EXPECT_TRUE(has(offered(value), "a4"));
}

TEST(Completions, OfferWhatALearnerOfAClassCanHave) {
  Marked marked("lesson: sh.yaml\nlearners:\n  B7:\n    am^\n",
                "/desk/class.yaml");
  EXPECT_TRUE(has(offered(marked), "amount"));
  EXPECT_FALSE(has(offered(marked), "no-school"));
}

TEST(Completions, OfferKeysAndCodesInARecord) {
  const std::string head =
      "date: 2026-03-12\nlesson: sh.yaml\nclass: class.yaml\n";
  Marked key(head + "mar^\n", "/desk/records/week-1.yaml");
  EXPECT_TRUE(has(offered(key), "marked"));
  Marked code(head + "marked: all\nwrong:\n  ^\n", "/desk/records/week-1.yaml");
  code.service.change("/desk/class.yaml",
                      "lesson: sh.yaml\nlearners: {B7: , C3: }\n");
  EXPECT_EQ(offered(code), (std::vector<std::string>{"B7", "C3"}));
  Marked absent(head + "marked: all\nabsent: ^\n", "/desk/records/week-1.yaml");
  absent.service.change("/desk/class.yaml",
                        "lesson: sh.yaml\nlearners: {B7: , C3: }\n");
  EXPECT_TRUE(has(offered(absent), "C3"));
}

TEST(Completions, AreNoneInRemarks) {
  Marked marked("pattern: sh # ^\n");
  EXPECT_TRUE(offered(marked).empty());
}

}  // namespace
}  // namespace sheaf::test
