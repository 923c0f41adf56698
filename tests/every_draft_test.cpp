// `sheaf draft PATTERN --step N` for every pattern of the catalogue, at its
// step in an order that teaches them all: a lesson that could be taught as it
// is, with a packet.

#include <gtest/gtest.h>

#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using testing_support::file_bytes;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

// Under the sanitizers some will do.
#ifdef SHEAF_SOME_DRAFTS
constexpr std::size_t kEach = 17;
#else
constexpr std::size_t kEach = 1;
#endif

// The first step at which all short vowels are known: s and the plural, which
// the order takes as taught before its first, are practised there.
constexpr int kShortVowelsKnown = 5;

// The patterns of the catalogue, each with its step in the order.
std::map<std::string, int> steps_of_patterns() {
  std::map<std::string, int> steps;
  std::istringstream order(file_bytes(SHEAF_TEACHING_ORDER));
  int step = kShortVowelsKnown;
  for (std::string line; std::getline(order, line);) {
    if (line.starts_with("  - number: ")) step = std::stoi(line.substr(12));
    const std::size_t at = line.find("patterns: ");
    const std::size_t before = line.rfind("taught: ", 0);
    std::string names;
    if (at != std::string::npos) names = line.substr(at + 10);
    if (before == 0) names = line.substr(8);
    std::ranges::replace(names, ',', ' ');
    std::istringstream each(names);
    for (std::string name; each >> name;) steps[name] = step;
  }
  return steps;
}

class EveryDraft : public testing::Test {
 protected:
  void draft_all() {
    folder.write("sequence.yaml", file_bytes(SHEAF_TEACHING_ORDER));
    std::size_t number = 0;
    for (const auto& [pattern, step] : steps_of_patterns()) {
      if (number++ % kEach != 0) continue;
      files.push_back(folder.path() + "/" + pattern + ".yaml");
      const Outcome drafted = run_program(
          {SHEAF_PROGRAM, "draft", pattern, "--step", std::to_string(step),
           "--sequence", folder.path() + "/sequence.yaml", "--file",
           files.back()});
      ASSERT_EQ(drafted.status, 0) << pattern << "\n" << drafted.out;
    }
  }
  std::vector<std::string> command(std::vector<std::string> words) const {
    words.insert(words.begin(), SHEAF_PROGRAM);
    words.insert(words.end(), files.begin(), files.end());
    return words;
  }

  TemporaryFolder folder;
  std::vector<std::string> files;
};

void expect_readable(const json& words, const std::string& of) {
  for (const json& word : words) {
    const std::string standing = word.value("standing", "");
    EXPECT_TRUE(standing == "decodable" || standing == "by-sight")
        << of << ": " << word["word"] << " " << standing;
  }
}

TEST_F(EveryDraft, CouldBeTaughtAsItIs) {
  const std::size_t all = steps_of_patterns().size();
  EXPECT_EQ(all, 172U);
  ASSERT_NO_FATAL_FAILURE(draft_all());
  std::istringstream checked(run_program(command({"check", "--json"})).out);
  std::size_t count = 0;
  for (std::string line; std::getline(checked, line); ++count) {
    const json report = json::parse(line);
    const std::string file = report["file"];
    EXPECT_EQ(report["good"], true) << file;
    for (const json& message : report["messages"]) {
      EXPECT_EQ(message["name"], "sheet-left-out") << file << message;
    }
    const json& lesson = report["lesson"];
    EXPECT_GE(lesson["words"].size(), 3U) << file;
    EXPECT_EQ(lesson["sentences"].size(), 6U) << file;
    EXPECT_EQ(lesson["dictate_sentences"].size(), 3U) << file;
    expect_readable(lesson["words"], file);
    for (const char* key : {"sentences", "dictate_sentences"}) {
      for (const json& sentence : lesson[key]) {
        expect_readable(sentence["words"], file);
      }
    }
  }
  EXPECT_EQ(count, files.size());
}

TEST_F(EveryDraft, MakesAPacket) {
  ASSERT_NO_FATAL_FAILURE(draft_all());
  const std::string out = folder.path() + "/out";
  const Outcome built = run_program(command({"build", "--out", out}));
  EXPECT_EQ(built.status, 0) << built.out;
  EXPECT_EQ(built.out.find("warning"), std::string::npos) << built.out;
  std::size_t pdfs = 0;
  for (const auto& entry : fs::recursive_directory_iterator(out)) {
    pdfs += entry.path().extension() == ".pdf" ? 1 : 0;
  }
  EXPECT_EQ(pdfs, 2 * files.size());
}

}  // namespace
}  // namespace sheaf::test
