#include <gtest/gtest.h>

#include "input/record_file.h"
#include "input_mistakes.h"

namespace sheaf {
namespace {

TEST(RecordFile, ReadsErrorsAlone) {
  const SourceFile file("record.yaml",
                        "sheaf: 1\n"
                        "date: 2026-03-12\n"
                        "lesson: ai.yaml\n"
                        "class: class.yaml\n"
                        "marked: all\n"
                        "absent: [C3]\n"
                        "wrong:\n"
                        "  B7: {rain: rane, tail: .}\n"
                        "  K:\n"
                        "    null: no\n"
                        "    no: ~\n"
                        "    seven: 7\n"
                        "    The rain is here.: \"The rane is, hear.\"\n"
                        "note: After the holidays.\n");
  Diagnostics d;
  const RecordFile all = read_record(file, d);
  EXPECT_EQ(to_text(d), "");
  ASSERT_EQ(all.records.size(), 1U);
  const Record& record = all.records[0];
  EXPECT_EQ(record.date.value, (Date{2026, 3, 12}));
  EXPECT_EQ(record.kind.value, Record::Kind::dictation);
  EXPECT_TRUE(record.marked_all);
  EXPECT_TRUE(record.marked.empty());
  ASSERT_EQ(record.absent.size(), 1U);
  ASSERT_EQ(record.wrong.size(), 2U);
  const auto& b7 = record.wrong[0];
  EXPECT_EQ(b7.code.value.text(), "B7");
  ASSERT_EQ(b7.entries.size(), 2U);
  EXPECT_EQ(b7.entries[0].target.text(), "rain");
  EXPECT_EQ(b7.entries[0].target.span().text(), "rain");
  EXPECT_EQ(b7.entries[0].written.text(), "rane");
  EXPECT_TRUE(b7.entries[1].blank);
  const auto& k = record.wrong[1].entries;
  ASSERT_EQ(k.size(), 4U);
  EXPECT_EQ(k[0].target.text(), "null");
  EXPECT_EQ(k[0].written.text(), "no");
  EXPECT_EQ(k[1].target.text(), "no");
  EXPECT_EQ(k[1].written.text(), "~");
  EXPECT_EQ(k[2].written.text(), "7");
  EXPECT_EQ(k[3].target.text(), "The rain is here.");
  EXPECT_EQ(k[3].written.part(4, 8).span.text(), "rane");
}

TEST(RecordFile, ReadsSeveralRecordsWithDefaults) {
  const SourceFile file("record.yaml",
                        "lesson: ai.yaml\n"
                        "records:\n"
                        "  - date: 2026-03-12\n"
                        "    written: {B7: {rain: rain}}\n"
                        "  - date: 2026-04-02\n"
                        "    kind: retention\n"
                        "    lesson: ay.yaml\n"
                        "    marked: B7, C3\n"
                        "    wrong: {C3: {clay: clai}}\n"
                        "  - date: 2028-02-29\n"
                        "    kind: writing\n"
                        "    writing: {B7: {ai: 3/5, ay: 0 / 0}}\n");
  Diagnostics d;
  const RecordFile all = read_record(file, d);
  EXPECT_EQ(to_text(d), "");
  ASSERT_EQ(all.records.size(), 3U);
  EXPECT_EQ(all.records[0].lesson.value, "ai.yaml");
  EXPECT_EQ(all.records[1].lesson.value, "ay.yaml");
  EXPECT_EQ(all.records[1].kind.value, Record::Kind::retention);
  ASSERT_EQ(all.records[1].marked.size(), 2U);
  ASSERT_EQ(all.records[2].writing.size(), 1U);
  const auto& tallies = all.records[2].writing[0].entries;
  ASSERT_EQ(tallies.size(), 2U);
  EXPECT_EQ(tallies[0].pattern.value, "ai");
  EXPECT_EQ(tallies[0].right, 3);
  EXPECT_EQ(tallies[0].chances, 5);
  EXPECT_EQ(tallies[1].chances, 0);
}

TEST(RecordFile, KnowsTheCalendar) {
  EXPECT_TRUE(read_date("2024-02-29").has_value());
  EXPECT_TRUE(read_date("2000-02-29").has_value());
  for (const char* text :
       {"", "2026-02-29", "2100-02-29", "2026-00-10", "2026-13-10",
        "2026-04-31", "2026-4-01", "26-04-01", "2026/04/01", "2026- 4-01",
        "-026-04-01", "2026-04-01 "}) {
    EXPECT_FALSE(read_date(text).has_value()) << text;
  }
}

const Mistake kMistakes[] = {
    {"no date",
     "lesson: oa.yaml\n"
     "marked: B7\n"
     "wrong: {B7: {rain: rane}}\n",
     "record.yaml:1:1: error: the record has no date [missing-key]\n"
     "   1 | lesson: ….yaml\n"
     "     | ^~~~~~\n"
     "  help: add the day of the writing, as in `date: 2026-03-12`\n"},
    {"a date the other way round",
     "date: 12/3/2026\n"
     "lesson: oa.yaml\n",
     "record.yaml:1:7: error: `12/3/2026` is not a date in the calendar "
     "[wrong-value]\n"
     "   1 | date: 12/3/2026\n"
     "     |       ^~~~~~~~~\n"
     "  help: write year, month and day with hyphens, as in `date: "
     "2026-03-12`\n"},
    {"a day that is not",
     "date: 2026-02-30\n"
     "lesson: oa.yaml\n",
     "record.yaml:1:7: error: `2026-02-30` is not a date in the calendar "
     "[wrong-value]\n"
     "   1 | date: 2026-02-30\n"
     "     |       ^~~~~~~~~~\n"
     "  help: write year, month and day with hyphens, as in `date: "
     "2026-03-12`\n"},
    {"no lesson",
     "date: 2026-03-12\n"
     "written: {B7: {rain: rane}}\n",
     "record.yaml:1:1: error: the record names no lesson [missing-key]\n"
     "   1 | date: 2026-03-12\n"
     "     | ^~~~\n"
     "  help: add the lesson that was written, as in `lesson: oa.yaml`\n"},
    {"a kind nobody knows",
     "date: 2026-03-12\n"
     "lesson: oa.yaml\n"
     "kind: test\n",
     "record.yaml:3:7: error: this is not a kind of record [wrong-value]\n"
     "   3 | kind: …\n"
     "     |       ^\n"
     "  help: write `dictation`, `transfer`, `retention`, `writing` or "
     "`probe`\n"},
    {"errors without who was marked",
     "date: 2026-03-12\n"
     "lesson: oa.yaml\n"
     "wrong: {B7: {rain: rane}}\n",
     "record.yaml:1:1: error: the record has errors under `wrong` but does not "
     "say who was marked [missing-key]\n"
     "   1 | date: 2026-03-12\n"
     "     | ^~~~\n"
     "  help: add `marked: all` if everyone who is listed was marked, or the "
     "learners, as in `marked: B7, C3`\n"},
    {"all marked, and nobody listed",
     "date: 2026-03-12\n"
     "lesson: oa.yaml\n"
     "class: class.yaml\n"
     "absent: C3\n"
     "marked: all\n",
     "record.yaml:5:9: warning: the record says `marked: all` but lists "
     "nobody, so it counts for nobody [missing-key]\n"
     "   5 | marked: all\n"
     "     |         ^~~\n"
     "  help: name those who wrote, as in `marked: B7, C3`, or list each under "
     "`wrong:`, as in `B7: {}` where everything was right\n"},
    {"one learner in two ways of writing the code",
     "date: 2026-03-12\n"
     "lesson: oa.yaml\n"
     "marked: all\n"
     "wrong:\n"
     "  B7: {rain: rane}\n"
     "  b7: {tail: tale}\n",
     "record.yaml:6:3: error: `B7` is listed twice under `wrong` "
     "[repeated-key]\n"
     "   6 |   b7: {…: …}\n"
     "     |   ^~\n"
     "record.yaml:5:3: note: the first one\n"
     "   5 |   B7: {…: …}\n"
     "     |   ^~\n"
     "  help: write what this learner wrote in one place; capital letters "
     "make no difference in a code\n"},
    {"absent and wrong",
     "date: 2026-03-12\n"
     "lesson: oa.yaml\n"
     "marked: B7, C3\n"
     "absent: C3\n"
     "wrong: {C3: {rain: rane}}\n",
     "record.yaml:5:9: error: `C3` wrote something but is also listed under "
     "`absent` [wrong-value]\n"
     "   5 | wrong: {C3: {…: …}}\n"
     "     |         ^~\n"
     "record.yaml:4:9: note: absent here\n"
     "   4 | absent: C3\n"
     "     |         ^~\n"
     "  help: remove the code from one of the two places\n"},
    {"nothing where something was written",
     "date: 2026-03-12\n"
     "lesson: oa.yaml\n"
     "written:\n"
     "  B7:\n"
     "    rain:\n",
     "record.yaml:5:5: error: there is nothing after `…`, where the learner's "
     "writing should be [missing-value]\n"
     "   5 |     …:\n"
     "     |     ^~\n"
     "  help: write what the learner wrote, or `.` where it was left blank\n"},
    {"a whole attempt without its word",
     "date: 2026-03-12\n"
     "lesson: oa.yaml\n"
     "written: {B7: rane}\n",
     "record.yaml:3:15: error: `B7` has text after it [wrong-value]\n"
     "   3 | written: {B7: …}\n"
     "     |               ^\n"
     "  help: write it like this: `written: {B7: {rain: rain, tail: tale}}`\n"},
    {"a tally that is none",
     "date: 2026-03-12\n"
     "writing: {B7: {ai: 5/3}}\n",
     "record.yaml:2:20: error: `5/3` is not a count such as 3/5 "
     "[wrong-value]\n"
     "   2 | writing: {B7: {…: 5/3}}\n"
     "     |                   ^~~\n"
     "  help: write how often it was right, a slash, and how often it came "
     "up, as in `…: 3/5`\n"},
    {"a full name in the line of its key",
     "date: 2026-03-12\n"
     "lesson: oa.yaml\n"
     "marked: [Beth Smith]\n",
     "record.yaml: error: the learner in line 3 has no short code "
     "[wrong-value]\n"
     "  help: use a code: up to three capital letters, as in `AB`, or "
     "figures with up to three letters, as in `B7`; Sheaf wants no "
     "names\n"},
    {"a full name",
     "date: 2026-03-12\n"
     "lesson: oa.yaml\n"
     "marked: all\n"
     "class: class.yaml\n"
     "wrong:\n"
     "  Beth Smith: {rain: rane}\n",
     "record.yaml:5:1: error: the learner in line 6 has no short code "
     "[wrong-value]\n"
     "   5 | wrong:\n"
     "     | ^~~~~\n"
     "  help: use a code: up to three capital letters, as in `AB`, or "
     "figures with up to three letters, as in `B7`; Sheaf wants no "
     "names\n"},
    {"a text among the records",
     "class: class.yaml\n"
     "records:\n"
     "  - oa\n",
     "record.yaml:3:5: error: there is text where a record should be "
     "[wrong-value]\n"
     "   3 |   - …\n"
     "     |     ^\n"
     "  help: begin each record with `- date:` and write its other keys under "
     "the date\n"},
};

TEST(RecordFile, SaysWhatIsWrong) {
  expect_messages("record.yaml", kMistakes, read_record);
}

}  // namespace
}  // namespace sheaf
