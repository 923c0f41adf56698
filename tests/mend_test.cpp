// `sheaf check --fix` puts right what is certain and touches nothing else, and
// `sheaf check --json` says the same to a program.

#include <gtest/gtest.h>

#include <sys/stat.h>

#include <nlohmann/json.hpp>

#include "support/run_program.h"

namespace sheaf::test {
namespace {

using testing_support::file_bytes;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

class Mend : public testing::Test {
 protected:
  Outcome sheaf(std::vector<std::string> arguments) const {
    std::vector<std::string> all = {"sh", "-c", "cd \"$0\" && exec \"$@\"",
                                    folder.path(), SHEAF_PROGRAM};
    all.insert(all.end(), arguments.begin(), arguments.end());
    return run_program(all);
  }
  Outcome fix(const std::string& text) const {
    folder.write("a.yaml", text);
    return sheaf({"check", "--fix", "a.yaml"});
  }
  std::string file() const { return file_bytes(folder.path() + "/a.yaml"); }
  nlohmann::json json(const std::string& text) const {
    folder.write("a.yaml", text);
    return nlohmann::json::parse(sheaf({"check", "--json", "a.yaml"}).out);
  }

  TemporaryFolder folder;
};

TEST_F(Mend, KeepsCommentsOrderAndLineEnds) {
  const Outcome o = fix(
      "\xEF\xBB\xBF# Tuesday\r\nset: 2   # again\r\nwrods: Ship, shed\tFish "
      " dish\r\n\r\npattern: sh\r\nsentences: |\r\n\t1. the fish is in the "
      "dish\r\n  2. She has a ship.");
  EXPECT_EQ(o.status, 0) << o.out;
  EXPECT_EQ(file(),
            "\xEF\xBB\xBF# Tuesday\r\nset: 2   # again\r\nwords: ship, shed\t"
            "fish  dish\r\n\r\npattern: sh\r\nsentences: |\r\n  The fish is in "
            "the dish.\r\n  She has a ship.");
  for (const std::string line :
       {"a.yaml: put right in 8 places\n", "  line 3: wrods is now words\n",
        "  line 3: Ship is now ship\n", "  line 7: a tab is now two spaces\n",
        "  line 7: the number 1. is left out\n", "  line 7: the is now The\n",
        "  line 7: dish ends with a full stop now\n"}) {
    EXPECT_NE(o.out.find(line), std::string::npos) << line << o.out;
  }
}

TEST_F(Mend, TellsTheTabsOfALineOnce) {
  const Outcome o =
      fix("pattern: sh\nwords: ship\nsentences: |\n\t\tA ship.\n");
  EXPECT_EQ(file(), "pattern: sh\nwords: ship\nsentences: |\n    A ship.\n");
  EXPECT_NE(o.out.find("put right in 2 places\n"
                       "  line 4: a tab is now two spaces, 2 times\n"),
            std::string::npos)
      << o.out;
}

TEST_F(Mend, NamesWordsWithoutTheMarksAroundThem) {
  const Outcome o =
      fix("pattern: sh\nwords: ship\nsentences: |\n  \"go\" to the \"ship\"\n");
  EXPECT_EQ(file(),
            "pattern: sh\nwords: ship\nsentences: |\n  \"Go\" to the "
            "\"ship\".\n");
  EXPECT_NE(o.out.find("  line 4: go is now Go\n"), std::string::npos) << o.out;
  EXPECT_NE(o.out.find("  line 4: ship ends with a full stop now\n"),
            std::string::npos)
      << o.out;
}

TEST_F(Mend, MendsMoreThanOneRoundNeeds) {
  // The tab hides the key, and the key hides the capital.
  const Outcome o = fix("wrods: Ship shed\npattern: sh\nsentences: |\n\tGo\n");
  EXPECT_EQ(o.status, 0) << o.out;
  EXPECT_EQ(file(), "words: ship shed\npattern: sh\nsentences: |\n  Go.\n");
}

TEST_F(Mend, DoesNothingASecondTime) {
  fix("pattern sh\nwords: Ship shed\n");
  const std::string once = file();
  const Outcome o = sheaf({"check", "--fix", "a.yaml"});
  EXPECT_EQ(file(), once);
  EXPECT_NE(o.out.find("nothing that Sheaf can put right"), std::string::npos);
}

TEST_F(Mend, WritesNothingWhereNothingIsCertain) {
  const std::string text = "pattern: sh\nwords: fihs ship\ntitle: *sh*\n";
  folder.write("a.yaml", text);
  struct stat before {
  }, after{};
  ASSERT_EQ(::stat((folder.path() + "/a.yaml").c_str(), &before), 0);
  const Outcome o = sheaf({"check", "--fix", "a.yaml"});
  EXPECT_EQ(o.status, 1);
  EXPECT_EQ(file(), text);
  ASSERT_EQ(::stat((folder.path() + "/a.yaml").c_str(), &after), 0);
  EXPECT_EQ(before.st_ino, after.st_ino);  // not even the same bytes again
  EXPECT_NE(o.out.find("[special-sign]"), std::string::npos) << o.out;
}

TEST_F(Mend, SaysWhatIsLeftAfterwards) {
  const Outcome o = fix("pattern sh\nwords: Ship shed\nlayout: wek\n");
  EXPECT_EQ(o.status, 1);
  EXPECT_EQ(file(), "pattern: sh\nwords: Ship shed\nlayout: wek\n");
  EXPECT_NE(o.out.find("a.yaml:3:9: error: there is no layout `wek` here"),
            std::string::npos)
      << o.out;
}

TEST_F(Mend, LeavesWhatWouldBringAnotherError) {
  const Outcome o = fix("pattern sh\nwords: ship shed\nset the table\n");
  EXPECT_EQ(o.status, 1);
  EXPECT_EQ(file(), "pattern: sh\nwords: ship shed\nset the table\n");
  EXPECT_NE(o.out.find("line 3 stays as it is"), std::string::npos) << o.out;
  fix("pattern: sh\nword: ship\nwords: shed\n");
  EXPECT_EQ(file(), "pattern: sh\nword: ship\nwords: shed\n");
}

TEST_F(Mend, LeavesAFileThatIsProtected) {
  const std::string text = "pattern: sh\nwords: Ship shed\n";
  const std::string path = folder.write("a.yaml", text);
  ASSERT_EQ(::chmod(path.c_str(), 0444), 0);
  const Outcome o = sheaf({"check", "--fix", "a.yaml"});
  EXPECT_EQ(o.status, 3);
  EXPECT_EQ(file(), text);
  EXPECT_NE(o.out.find("protected"), std::string::npos) << o.out;
}

TEST_F(Mend, MendsAClassAndShowsNoName) {
  folder.write("l.yaml", "pattern: sh\nwords: ship shed fish dish\n");
  const std::string head = "lesson: l.yaml\nlearners:\n";
  fix(head + "\tB7: {amuont: 4}\n\tC3: {amount: 3}\n");
  EXPECT_EQ(file(), head + "  B7: {amount: 4}\n  C3: {amount: 3}\n");
  const Outcome o = fix(head + "\tB7: {amuont: 4}\n\tMiriam: {amount: 4}\n");
  EXPECT_EQ(o.status, 1);
  EXPECT_EQ(o.out.find("Miriam"), std::string::npos) << o.out;
  EXPECT_EQ(file(), head + "  B7: {amount: 4}\n  Miriam: {amount: 4}\n");
}

TEST_F(Mend, JsonHasPlacesInBytesAndInUnitsOfUtf16) {
  const auto j = json(
      "pattern: sh\nwords: ship  # é🐟\n\nsentences: |\n"
      "  Émile 🐟 sees a shpi.\n");
  bool found = false;
  for (const auto& m : j["messages"]) {
    if (m["name"] != "unknown-word") continue;
    if (m["text"].get<std::string>().find("shpi") == std::string::npos)
      continue;
    found = true;
    const auto& begin = m["place"]["begin"];
    // Two spaces, É (2 bytes, 1 unit), mile, a space, the fish (4 bytes, 2
    // units), " sees a ".
    EXPECT_EQ(begin["line"], 5);
    EXPECT_EQ(begin["utf8"], 2 + 2 + 5 + 4 + 8);
    EXPECT_EQ(begin["utf16"], 2 + 1 + 5 + 2 + 8);
    EXPECT_EQ(m["place"]["end"]["utf16"], 2 + 1 + 5 + 2 + 8 + 4);
    ASSERT_FALSE(m["fixes"].empty());
    EXPECT_EQ(m["fixes"][0]["certain"], false);
    EXPECT_EQ(m["fixes"][0]["place"], m["place"]);
  }
  EXPECT_TRUE(found) << j;
}

TEST_F(Mend, JsonSaysOfWordsWhatTheWordVerbSays) {
  const auto j = json(
      "pattern: sh\ntaught: short i, short e, short o\n"
      "words: ship shed\nsight-words: the\nsentences: |\n  The "
      "ship is at the shop.\n");
  EXPECT_EQ(j["good"], true) << j;
  const auto word =
      nlohmann::json::parse(sheaf({"word", "--json", "ship"}).out);
  for (const auto& [key, value] : word[0].items()) {
    EXPECT_EQ(j["lesson"]["words"][0][key], value) << key;
  }
  EXPECT_FALSE(j["lesson"]["words"][0]["standing"].is_null());
  EXPECT_EQ(j["lesson"]["sentences"][0]["words"].size(), 6U);
  EXPECT_EQ(j["lesson"]["sentences"][0]["words"][0]["standing"], "by-sight");
  EXPECT_TRUE(j["lesson"]["readable"]["percent"].is_number());
  // Where nothing says what was taught, nothing is known.
  const auto unknown = json("pattern: sh\nwords: ship shed\n");
  EXPECT_TRUE(unknown["lesson"]["readable"].is_null());
  EXPECT_TRUE(unknown["lesson"]["words"][0]["standing"].is_null());
}

TEST_F(Mend, JsonIsALineForEachFile) {
  folder.write("a.yaml", "pattern: sh\nwords: ship\n");
  folder.write("b.yaml", "pattern sh\n");
  const Outcome o = sheaf({"check", "--json", "a.yaml", "b.yaml"});
  EXPECT_EQ(o.status, 1);
  std::istringstream lines(o.out);
  std::vector<nlohmann::json> all;
  for (std::string line; std::getline(lines, line);) {
    all.push_back(nlohmann::json::parse(line));
  }
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0]["file"], "a.yaml");
  EXPECT_EQ(all[1]["good"], false);
  EXPECT_TRUE(all[1]["lesson"].is_null());
  EXPECT_EQ(all[1]["messages"][0]["fixes"][0]["replacement"], ": ");
}

}  // namespace
}  // namespace sheaf::test
