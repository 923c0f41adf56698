// The ways in which a record lists what was wrong.

#include <gtest/gtest.h>

#include "input/class_file.h"
#include "input/record_file.h"

namespace sheaf {
namespace {

// "rain=rane snal play=." of the first learner, with the messages' names.
std::string read(const std::string& wrong) {
  const SourceFile file("record.yaml",
                        "date: 2026-03-12\nlesson: ai.yaml\nmarked: all\n"
                        "wrong:\n" +
                            wrong);
  Diagnostics d;
  const RecordFile all = read_record(file, d);
  std::string text;
  for (const Diagnostic* one : d.sorted()) {
    text += "[" + std::string(one->name->name) + "] ";
  }
  if (all.records.empty() || all.records[0].wrong.empty()) return text;
  for (const Attempt& attempt : all.records[0].wrong[0].entries) {
    // Whatever is told of it later is told of its place.
    if (!attempt.blank) {
      EXPECT_EQ(attempt.written.span().text(), attempt.written.text());
    }
    text += attempt.names_target() ? attempt.target.text() + "=" : "";
    text += attempt.blank ? ". " : attempt.written.text() + " ";
  }
  return text;
}

TEST(RecordAttempts, AreReadInEveryForm) {
  EXPECT_EQ(read("  B7: rane, snal\n"), "rane snal ");
  EXPECT_EQ(read("  B7: rane,snal,\n"), "rane snal ");
  EXPECT_EQ(read("  B7: [rane, snal]\n"), "rane snal ");
  EXPECT_EQ(read("  B7:\n    - rane\n    - snal, plae\n"), "rane snal plae ");
  EXPECT_EQ(read("  B7: rain=rane, play = .\n"), "rain=rane play=. ");
  EXPECT_EQ(read("  B7: [rane, {play: .}]\n"), "rane play=. ");
  EXPECT_EQ(read("  B7: rane, play:plae\n"), "rane play=plae ");
  EXPECT_EQ(read("  B7: \"rane, snal\"\n"), "rane snal ");
  EXPECT_EQ(read("  B7: no\n"), "no ");
  EXPECT_EQ(read("  B7: 7, ~\n"), "7 ~ ");
  // As ever.
  EXPECT_EQ(read("  B7: {rain: rane, play: .}\n"), "rain=rane play=. ");
  EXPECT_EQ(read("  B7: {}\n"), "");
  // Nothing wrong.
  EXPECT_EQ(read("  B7:\n"), "");
}

TEST(RecordAttempts, SayWhatIsMissing) {
  EXPECT_EQ(read("  B7: rane, .\n"), "[wrong-value] rane ");
  EXPECT_EQ(read("  B7: {rain: }\n"), "[missing-value] ");
  EXPECT_EQ(read("  B7: [[rane]]\n"), "[wrong-value] ");
}

TEST(RecordAttempts, AreOnlySoManyAndSoLong) {
  std::string many = "  B7: ";
  for (int i = 0; i < 400; ++i) many += "a, ";
  EXPECT_TRUE(read(many + "\n").starts_with("[too-many] "));
  EXPECT_TRUE(
      read("  B7: " + std::string(600, 'a') + "\n").starts_with("[text-too-"));
}

TEST(ClassSpeech, IsInheritedAndTheOwnComesFirst) {
  const SourceFile file("class.yaml",
                        "speech: th-f\n"
                        "groups:\n"
                        "  Blue: {accent: british, confuses: v/w}\n"
                        "learners:\n"
                        "  B7: {group: Blue, speech: [no-ed, no-s]}\n"
                        "  C3: {group: Blue}\n"
                        "  D1:\n");
  Diagnostics d;
  const ClassFile pupils = read_class(file, d);
  ASSERT_EQ(to_text(d), "");
  const auto b7 = settings_for(pupils, pupils.learners[0]);
  EXPECT_EQ(b7.accent.value, "british");
  ASSERT_EQ(b7.speech.size(), 2U);
  EXPECT_EQ(b7.speech[1].value, "no-s");
  const auto c3 = settings_for(pupils, pupils.learners[1]);
  ASSERT_EQ(c3.confuses.size(), 1U);
  EXPECT_EQ(c3.speech[0].value, "th-f");
  const auto d1 = settings_for(pupils, pupils.learners[2]);
  EXPECT_FALSE(d1.accent.given());
  EXPECT_EQ(d1.speech[0].value, "th-f");
}

}  // namespace
}  // namespace sheaf
