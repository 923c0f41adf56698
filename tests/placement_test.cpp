// A placement check as a teacher goes through it: it is written, printed,
// recorded and read, and what it found counts for nothing else.

#include <gtest/gtest.h>

#include <set>
#include <sstream>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

class PlacementVerbs : public testing::Test {
 protected:
  PlacementVerbs() {
    folder.write("sequence.yaml",
                 "steps: [short i, short o, short a, short u, short e, sh, ch, "
                 "ck, ng, ee, ai]\n");
    folder.write("one.yaml", "pattern: sh\nwords: ship shed fish dish\n");
    folder.write("class.yaml", "lesson: one.yaml\nlearners: [B7, C3]\n");
  }

  Outcome sheaf(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin(),
                     {"env", "-C", folder.path(), SHEAF_PROGRAM});
    return run_program(arguments);
  }
  std::string at(const std::string& name) const {
    return folder.path() + "/" + name;
  }
  // The form, filled in.
  void fill(const std::string& part_two, const std::string& wrong) const {
    folder.write("records/placement.yaml",
                 "date: 2026-09-04\nlesson: placement.yaml\nclass: class.yaml\n"
                 "kind: retention\nmarked: B7\n" +
                     part_two + wrong);
  }
  // The words of a step in part two, as they stand in the check.
  std::vector<std::string> words_of(int step) const {
    std::istringstream lines(read(at("placement.yaml")));
    std::vector<std::string> words;
    bool two = false;
    for (std::string line; std::getline(lines, line);) {
      two = two || line == "  part-two:";
      const std::string key = "    " + std::to_string(step) + ": ";
      if (!two || !line.starts_with(key)) continue;
      std::istringstream rest(line.substr(key.size()));
      for (std::string word; rest >> word;) words.push_back(word);
    }
    return words;
  }

  TemporaryFolder folder;
};

TEST_F(PlacementVerbs, GoFromASequenceToAStep) {
  const Outcome made = sheaf({"placement", "sequence.yaml"});
  ASSERT_EQ(made.status, 0) << made.out;
  EXPECT_NE(made.out.find("part one has 4 words"), std::string::npos)
      << made.out;
  const Outcome checked = sheaf({"check", "placement.yaml"});
  EXPECT_EQ(checked.status, 0) << checked.out;
  const Outcome built = sheaf({"build", "placement.yaml"});
  ASSERT_EQ(built.status, 0) << built.out;
  EXPECT_TRUE(fs::exists(at("out/placement/packet.pdf")));
  EXPECT_TRUE(fs::exists(at("out/placement/teacher.pdf")));

  const Outcome form = sheaf({"record", "placement.yaml", "--class",
                              "class.yaml", "--date", "2026-09-04"});
  ASSERT_EQ(form.status, 0) << form.out;
  const std::string text = read(at("records/2026-09-04-placement.yaml"));
  EXPECT_NE(text.find("kind: retention"), std::string::npos) << text;
  EXPECT_NE(text.find("part-two:\n  B7:\n  C3:\n"), std::string::npos) << text;
  EXPECT_NE(text.find("#   part two, by step:\n#     1: "), std::string::npos);
  // A form that nobody has filled in tells of nobody.
  EXPECT_EQ(sheaf({"place", "records"}).status, 1);

  // Part one alone leads to part two.
  fill("", "wrong: {B7: {}}\n");
  const Outcome first = sheaf({"place", "records"});
  EXPECT_EQ(first.status, 0);
  EXPECT_NE(first.out.find("B7: part one alone is too little; dictate part two "
                           "from step 6"),
            std::string::npos)
      << first.out;

  // Everything right up to step 8, nothing from there on.
  std::string wrong;
  for (const int step : {9, 10, 11}) {
    ASSERT_FALSE(words_of(step).empty());
    for (const std::string& word : words_of(step)) {
      wrong += (wrong.empty() ? "" : ", ") + word + ": .";
    }
  }
  fill("part-two: {B7: 6}\n", "wrong: {B7: {" + wrong + "}}\n");
  const Outcome second = sheaf({"place", "records"});
  EXPECT_EQ(second.status, 0);
  EXPECT_NE(second.out.find("B7: begin at step 9, ng"), std::string::npos)
      << second.out;
  const Outcome json = sheaf({"place", "records", "--json"});
  EXPECT_NE(json.out.find("\"step\": 9"), std::string::npos) << json.out;

  // The lesson that is taught later starts from nothing.
  const Outcome progress = sheaf({"progress", "records"});
  EXPECT_EQ(progress.status, 0) << progress.out;
  EXPECT_NE(progress.out.find("not taught yet: short i"), std::string::npos)
      << progress.out;
}

TEST_F(PlacementVerbs, LeaveFilesAlone) {
  folder.write("placement.yaml", "mine\n");
  const Outcome refused = sheaf({"placement", "sequence.yaml"});
  EXPECT_EQ(refused.status, 3) << refused.out;
  EXPECT_EQ(read(at("placement.yaml")), "mine\n");
  EXPECT_EQ(
      sheaf({"placement", "sequence.yaml", "--file", "other.yaml"}).status, 0);
  EXPECT_TRUE(fs::exists(at("other.yaml")));
}

TEST_F(PlacementVerbs, SayWhatIsTooLittle) {
  folder.write("sequence.yaml", "steps:\n- sh\n- note: Practice\n- oa\n");
  const Outcome few = sheaf({"placement", "sequence.yaml"});
  EXPECT_EQ(few.status, 1);
  EXPECT_NE(few.out.find("a check needs 3 or more to climb"), std::string::npos)
      << few.out;
  EXPECT_FALSE(fs::exists(at("placement.yaml")));
  EXPECT_EQ(sheaf({"placement", "nothing.yaml"}).status, 3);
  EXPECT_EQ(sheaf({"place", "one.yaml"}).status, 1);
}

TEST_F(PlacementVerbs, ForgetALearnerInPartTwo) {
  ASSERT_EQ(sheaf({"placement", "sequence.yaml"}).status, 0);
  fs::create_directory(at("records"));
  folder.write("records/placement.yaml",
               "date: 2026-09-04\nlesson: placement.yaml\nmarked: all\n"
               "part-two: {B7: 6, C3: 1}\nwrong: {B7: {}, C3: {}}\n");
  const Outcome forgotten = sheaf({"forget", "B7", "--yes"});
  EXPECT_EQ(forgotten.status, 0) << forgotten.out;
  const std::string left = read(at("records/placement.yaml"));
  EXPECT_EQ(left.find("B7"), std::string::npos) << left;
  EXPECT_NE(left.find("part-two: {C3: 1}"), std::string::npos) << left;
}

}  // namespace
}  // namespace sheaf::test
