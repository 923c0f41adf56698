// Wherever a pattern is named, the same names lead to the same patterns: in a
// lesson, in what was taught, in a sequence, in a record, on the command line.

#include <gtest/gtest.h>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

class NamesEverywhere : public testing::Test {
 protected:
  struct Place {
    std::string name;
    std::vector<std::string> call;
    int refused;  // the exit code where the name is not clear
  };

  // Every place where a pattern is named, with a name in it.
  std::vector<Place> places(const std::string& name) const {
    const std::string quoted = "\"" + name + "\"";
    folder.write("own.yaml", "pattern: " + quoted + "\n");
    folder.write("taught.yaml",
                 "pattern: oa\ntaught: " + quoted + "\nwords: boat\n");
    folder.write("steps.yaml", "steps:\n  - patterns: " + quoted + "\n");
    folder.write("before.yaml", "taught: " + quoted + "\nsteps: [oa]\n");
    folder.write("text.txt", "The chip shop is shut.\n");
    fs::remove(at("draft.yaml"));
    return {{"a lesson", {"check", at("own.yaml")}, 1},
            {"what was taught", {"check", at("taught.yaml")}, 1},
            {"a step", {"check", at("steps.yaml")}, 1},
            {"before a step", {"check", at("before.yaml")}, 1},
            {"find", {"find", name}, 2},
            {"patterns", {"patterns", name}, 2},
            {"draft", {"draft", name, "--file", at("draft.yaml")}, 2},
            {"writing", {"writing", at("text.txt"), "--taught", name}, 1},
            {"writing by a sequence",
             {"writing", at("text.txt"), "--sequence", at("steps.yaml")},
             1}};
  }
  std::string at(const std::string& name) const {
    return folder.path() + "/" + name;
  }
  static Outcome sheaf(std::vector<std::string> call) {
    call.insert(call.begin(), SHEAF_PROGRAM);
    return run_program(call);
  }

  TemporaryFolder folder;
};

TEST_F(NamesEverywhere, AContrastIsTaken) {
  for (const char* name : {"sh and ch", "sh / ch", "sh vs ch", "sh ch"}) {
    for (const Place& place : places(name)) {
      SCOPED_TRACE(place.name + ": " + name);
      const Outcome outcome = sheaf(place.call);
      EXPECT_EQ(outcome.status, 0) << outcome.out;
      EXPECT_EQ(outcome.out.find("error:"), std::string::npos) << outcome.out;
    }
    EXPECT_NE(read(at("draft.yaml")).find("pattern: sh, ch\n"),
              std::string::npos);
  }
  const Outcome found = sheaf({"find", "sh ch", "--count", "3"});
  EXPECT_EQ(found.out,
            sheaf({"find", "sh", "--contrast", "ch", "--count", "3"}).out);
}

TEST_F(NamesEverywhere, ATermForSeveralIsRefusedAndItsFamilyListed) {
  for (const Place& place : places("silent e")) {
    SCOPED_TRACE(place.name);
    const Outcome outcome = sheaf(place.call);
    EXPECT_EQ(outcome.status, place.refused) << outcome.out;
    EXPECT_NE(outcome.out.find("`silent e` stands for 7 patterns"),
              std::string::npos)
        << outcome.out;
    for (const char* member :
         {"a_e", "e_e", "i_e", "y_e", "o_e", "u_e_oo", "u_e_yoo"}) {
      EXPECT_NE(outcome.out.find(member), std::string::npos) << outcome.out;
    }
    EXPECT_NE(outcome.out.find("bike"), std::string::npos) << outcome.out;
  }
  EXPECT_FALSE(fs::exists(at("draft.yaml")));
}

TEST_F(NamesEverywhere, APartOfANameIsRefused) {
  for (const char* name : {"f", "closed", "ge", "final ch", "moon"}) {
    for (const Place& place : places(name)) {
      SCOPED_TRACE(place.name + ": " + name);
      const Outcome outcome = sheaf(place.call);
      EXPECT_EQ(outcome.status, place.refused) << outcome.out;
      EXPECT_NE(outcome.out.find("there is no pattern called `" +
                                 std::string(name) + "`"),
                std::string::npos)
          << outcome.out;
    }
  }
}

TEST_F(NamesEverywhere, ACountInARecordIsOfOnePattern) {
  const auto marked = [&](const std::string& name) {
    return sheaf({"mark", folder.write("record.yaml",
                                       "date: 2026-03-12\nkind: writing\n"
                                       "writing: {B7: {\"" +
                                           name + "\": 3/5}}\n")});
  };
  EXPECT_EQ(marked("soft c").status, 0);
  EXPECT_EQ(marked("voiced th").status, 0);
  const Outcome group = marked("silent e");
  EXPECT_EQ(group.status, 1);
  EXPECT_NE(group.out.find("`a_e` (cake)"), std::string::npos) << group.out;
  const Outcome two = marked("sh and ch");
  EXPECT_EQ(two.status, 1);
  EXPECT_NE(two.out.find("`sh and ch` names more than one pattern"),
            std::string::npos)
      << two.out;
}

// The form for what was written in a journal counts patterns by their ids,
// however the lesson names them.
TEST_F(NamesEverywhere, AFormIsReadBack) {
  folder.write("own.yaml", "pattern: ow / ou\nwords: town cloud\n");
  folder.write("class.yaml", "lesson: own.yaml\nlearners: [B7]\n");
  const Outcome form =
      sheaf({"record", at("own.yaml"), "--class", at("class.yaml"), "--kind",
             "writing", "--date", "2026-03-12"});
  ASSERT_EQ(form.status, 0) << form.out;
  const std::string path = at("records/2026-03-12-own-writing.yaml");
  std::string text = read(path);
  for (std::size_t zero; (zero = text.find("0/0")) != std::string::npos;) {
    text.replace(zero, 3, "2/4");
  }
  std::ofstream(path, std::ios::binary) << text;
  const Outcome marked = sheaf({"mark", path});
  EXPECT_EQ(marked.status, 0) << marked.out << text;
}

TEST(PatternList, IsGroupedByFamilyAndSaysHowToFindThem) {
  const Outcome list = run_program({SHEAF_PROGRAM, "patterns"});
  EXPECT_EQ(list.status, 0);
  const std::size_t family = list.out.find("\nsilent e\n  find by: magic e, ");
  ASSERT_NE(family, std::string::npos) << list.out.substr(0, 2000);
  const std::size_t next = list.out.find("\n\n", family);
  for (const char* id : {"  a_e ", "  u_e_yoo "}) {
    EXPECT_LT(list.out.find(id), next);
    EXPECT_GT(list.out.find(id), family);
  }
  EXPECT_NE(list.out.find("`sheaf patterns NAME`"), std::string::npos);
}

TEST(ContrastWords, ShowTheRuleFirstAndExceptionsLast) {
  const auto find = [](const std::string& what, const char* count) {
    return run_program({SHEAF_PROGRAM, "find", what, "--count", count}).out;
  };
  const std::string few = find("tch, ch", "12");
  for (const char* word : {"match", "bench", "lunch"}) {
    EXPECT_NE(few.find("\n" + std::string(word) + " "), std::string::npos)
        << word << few;
  }
  for (const char* word : {"much", "such", "rich", "which"}) {
    EXPECT_EQ(few.find("\n" + std::string(word) + " "), std::string::npos)
        << word << few;
  }
  EXPECT_EQ(few.find("exception"), std::string::npos) << few;
  // A lesson that leaves its words to Sheaf has the same.
  const TemporaryFolder folder;
  const Outcome lesson =
      run_program({SHEAF_PROGRAM, "check",
                   folder.write("lesson.yaml", "pattern: tch vs ch\n")});
  EXPECT_EQ(lesson.status, 0) << lesson.out;
  const std::size_t at = lesson.out.rfind("\nwords: ");
  ASSERT_NE(at, std::string::npos) << lesson.out;
  const std::string chosen =
      lesson.out.substr(at + 1, lesson.out.find('\n', at + 1) - at) + " ";
  EXPECT_NE(chosen.find(" watch "), std::string::npos) << chosen;
  // Chain has a picture and says nothing about where tch is written.
  for (const char* word :
       {" much ", " such ", " rich ", " which ", " chain "}) {
    EXPECT_EQ(chosen.find(word), std::string::npos) << word << chosen;
  }
  // Where they are needed they come last, with a label.
  const std::string many = find("ei_ee, ie_e", "13");
  const std::size_t seize = many.find("\nseize ");
  ASSERT_NE(seize, std::string::npos);
  EXPECT_LT(many.find("\nceiling "), seize);
  const std::string line = many.substr(seize + 1, 90);
  EXPECT_NE(line.substr(0, line.find('\n')).find("an exception"),
            std::string::npos)
      << line;
}

}  // namespace
}  // namespace sheaf::test
