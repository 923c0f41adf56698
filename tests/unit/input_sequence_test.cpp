#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>

#include "input/sequence.h"
#include "input_mistakes.h"

namespace sheaf {
namespace {

TEST(Sequence, ReadsStepsInFullAndInShort) {
  const SourceFile file("sequence.yaml",
                        "sheaf: 1\n"
                        "title: Our year\n"
                        "sight-words: I a\n"
                        "taught: short i\n"
                        "key-words: sun pig\n"
                        "conventions: {qu: one}\n"
                        "accent: british\n"
                        "note: For the Tuesday group.\n"
                        "steps:\n"
                        "  - sh, ch\n"
                        "  - patterns: [ck, ng]\n"
                        "    sight-words: the said\n"
                        "    key-words: duck, ring\n"
                        "  - number: 7\n"
                        "    name: Digraphs again\n"
                        "    note: |\n"
                        "      Two weeks.\n"
                        "  - name: long vowels\n"
                        "    patterns: a_e\n");
  Diagnostics d;
  const SequenceFile sequence = read_sequence(file, d);
  EXPECT_EQ(to_text(d), "");
  EXPECT_EQ(sequence.title.value, "Our year");
  EXPECT_EQ(sequence.sight_words.size(), 2U);
  EXPECT_EQ(sequence.taught[0].value, "short i");
  EXPECT_EQ(sequence.conventions[0].first.value, "qu");
  EXPECT_EQ(sequence.accent.value, "british");
  ASSERT_EQ(sequence.key_words.size(), 2U);
  EXPECT_EQ(sequence.key_words[1].value, "pig");
  ASSERT_EQ(sequence.steps.size(), 4U);
  ASSERT_EQ(sequence.steps[1].key_words.size(), 2U);
  EXPECT_EQ(sequence.steps[1].key_words[1].value, "ring");
  EXPECT_EQ(sequence.steps[0].number.value, 1);
  EXPECT_FALSE(sequence.steps[0].number.given());
  EXPECT_EQ(sequence.steps[0].patterns[1].value, "ch");
  EXPECT_EQ(sequence.steps[0].patterns[1].span.text(), "ch");
  EXPECT_EQ(sequence.steps[1].number.value, 2);
  EXPECT_EQ(sequence.steps[1].sight_words[1].value, "said");
  EXPECT_EQ(sequence.steps[2].number.value, 7);
  EXPECT_TRUE(sequence.steps[2].patterns.empty());
  EXPECT_EQ(sequence.steps[2].note[0].text(), "Two weeks.");
  EXPECT_EQ(sequence.steps[3].number.value, 8);
  EXPECT_EQ(find_step(sequence, "7"), &sequence.steps[2]);
  EXPECT_EQ(find_step(sequence, "Long Vowels"), &sequence.steps[3]);
  EXPECT_EQ(find_step(sequence, "3"), nullptr);
  EXPECT_EQ(find_step(sequence, ""), nullptr);
}

// A second year begins after more patterns than any one step teaches.
TEST(Sequence, MayBeginAfterTwoHundredPatterns) {
  const auto taught = [](int count) {
    std::string names;
    for (int i = 1; i <= count; ++i) {
      names += fmt::format("  - pattern {}\n", i);
    }
    const SourceFile file("sequence.yaml",
                          "taught:\n" + names + "steps: [sh]\n");
    Diagnostics d;
    const SequenceFile sequence = read_sequence(file, d);
    return fmt::format("{} {}", sequence.taught.size(),
                       d.has_errors() ? "error" : "good");
  };
  EXPECT_EQ(taught(200), "200 good");
  EXPECT_EQ(taught(201), "200 error");
}

const Mistake kMistakes[] = {
    {"no steps", "title: Our year\n",
     "sequence.yaml:1:1: error: the sequence has no steps [missing-key]\n"
     "   1 | title: Our year\n"
     "     | ^~~~~\n"
     "  help: add `steps:` and, below it, one line for each step, as in `  - "
     "patterns: sh`\n"},
    {"steps without dashes", "steps: sh, ch\n",
     "sequence.yaml:1:8: error: `steps` has text after it [wrong-value]\n"
     "   1 | steps: sh, ch\n"
     "     |        ^~~~~~\n"
     "  help: write it like this: `steps: [short i, sh, ck]`\n"},
    {"an empty list of steps", "steps: []\n",
     "sequence.yaml:1:8: error: `steps` has an empty list after it "
     "[missing-value]\n"
     "   1 | steps: []\n"
     "     |        ^~\n"
     "  help: write it like this: `steps: [short i, sh, ck]`\n"},
    {"a mistyped key of a step",
     "steps:\n"
     "  - pattern: sh\n",
     "sequence.yaml:2:5: error: `pattern` is not a key of a step "
     "[unknown-key]\n"
     "   2 |   - pattern: sh\n"
     "     |     ^~~~~~~\n"
     "  help: did you mean `patterns`?\n"},
    {"steps out of order",
     "steps:\n"
     "  - number: 4\n"
     "    patterns: sh\n"
     "  - number: 3\n"
     "    patterns: ch\n",
     "sequence.yaml:4:13: error: step 3 comes after step 4 "
     "[value-out-of-range]\n"
     "   4 |   - number: 3\n"
     "     |             ^\n"
     "sequence.yaml:2:13: note: the one before\n"
     "   2 |   - number: 4\n"
     "     |             ^\n"
     "  help: put the steps in the order of teaching, or leave the numbers "
     "out\n"},
    {"two steps of one name",
     "steps:\n"
     "  - name: digraphs\n"
     "    patterns: sh\n"
     "  - name: Digraphs\n"
     "    patterns: ch\n",
     "sequence.yaml:4:11: error: two steps have the name `Digraphs` "
     "[repeated-word]\n"
     "   4 |   - name: Digraphs\n"
     "     |           ^~~~~~~~\n"
     "sequence.yaml:2:11: note: the first one\n"
     "   2 |   - name: digraphs\n"
     "     |           ^~~~~~~~\n"
     "  help: give each step a name of its own\n"},
    {"a number for a name",
     "steps:\n"
     "  - name: 3\n"
     "    patterns: sh\n",
     "sequence.yaml:2:11: error: the name `3` is a number [wrong-value]\n"
     "   2 |   - name: 3\n"
     "     |           ^\n"
     "  help: write `number: 3`\n"},
    {"a pattern taught twice",
     "steps:\n"
     "  - sh\n"
     "  - ch, SH\n",
     "sequence.yaml:3:9: warning: the pattern `SH` is taught a second time "
     "[repeated-word]\n"
     "   3 |   - ch, SH\n"
     "     |         ^~\n"
     "sequence.yaml:2:5: note: the first time\n"
     "   2 |   - sh\n"
     "     |     ^~\n"
     "  help: leave a step without patterns to practise what was taught\n"},
    {"a list in a list",
     "steps:\n"
     "  - - sh\n"
     "    - ch\n",
     "sequence.yaml:2:5: error: there is a list where a step should be "
     "[wrong-value]\n"
     "   2 |   - - sh\n"
     "     |     ^~~~\n"
     "  help: write a step as `- patterns: sh, ch`, and `sight-words:` on the "
     "line below it\n"},
    {"a lesson",
     "pattern: sh\n"
     "words: ship shed\n",
     "sequence.yaml:1:1: error: this file is a lesson, as `pattern` shows, "
     "and not a sequence [wrong-file-kind]\n"
     "   1 | pattern: sh\n"
     "     | ^~~~~~~\n"
     "  help: name the file of a sequence instead\n"},
};

TEST(Sequence, SaysWhatIsWrong) {
  expect_messages("sequence.yaml", kMistakes, read_sequence);
}

}  // namespace
}  // namespace sheaf
