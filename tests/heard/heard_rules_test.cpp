// Our own rules for what is heard (heard_rules.h), on every document that has a
// golden. What breaks one on purpose stands in known.tsv with its reason.

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "heard/documents.h"
#include "heard/heard.h"
#include "pdfua/checker.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;

// Words of some of SCOWL's sizes.
std::set<std::string> words_of_sizes(const std::vector<std::string>& sizes) {
  std::set<std::string> words;
  for (const char* kind :
       {"english-words", "american-words", "british-words"}) {
    for (const std::string& size : sizes) {
      std::ifstream file(fs::path(SHEAF_SCOWL) /
                         (std::string(kind) + "." + size));
      for (std::string word; std::getline(file, word);) words.insert(word);
    }
  }
  return words;
}

struct Found {
  /// "document, heading: what was found", by rule; without the known ones.
  std::map<std::string, std::vector<std::string>> faults;
  KnownFaults known_seen;
};

const Found& found_in_documents() {
  static const Found all = [] {
    heard::Knowledge knowledge;
    // Beyond size 70 there is a word for nearly any letters.
    knowledge.words =
        words_of_sizes({"10", "20", "35", "40", "50", "55", "60", "70"});
    knowledge.everyday = words_of_sizes({"10", "20", "35"});
    knowledge.signs =
        heard::read_signs((heard_folder() / "signs.tsv").string());
    const KnownFaults known = known_faults();
    Found found;
    for (const HeardCase& one : heard_cases()) {
      const auto add = [&](const heard::Fault& fault) {
        const std::vector<std::string> row = {fault.rule, one.name,
                                              fault.found};
        if (known.contains(row)) {
          found.known_seen.insert(row);
        } else {
          found.faults[fault.rule].push_back(one.name + ", " + fault.place +
                                             ": " + fault.found);
        }
      };
      for (const auto& [file, bytes] : files_of(one)) {
        for (const heard::Fault& fault :
             heard::faults_of(heard::read(bytes), knowledge)) {
          add(fault);
        }
        const pdfua::Report report = pdfua::check_own(bytes);
        for (const auto& [rule, entry] : report.entries()) {
          add({rule.first + "-" + std::to_string(rule.second), file,
               entry.first});
        }
      }
    }
    return found;
  }();
  return all;
}

class HeardRule : public testing::TestWithParam<std::string> {};

TEST_P(HeardRule, IsKeptByEveryDocument) {
  const auto& faults = found_in_documents().faults;
  const auto found = faults.find(GetParam());
  if (found == faults.end()) return;
  std::string list;
  for (const std::string& fault : found->second) list += "  " + fault + "\n";
  ADD_FAILURE() << found->second.size() << " times " << GetParam() << ":\n"
                << list;
}

// Those of heard_rules.h, and those of files that own_rules.tsv lists.
std::vector<std::string> all_rules() {
  std::vector<std::string> rules = heard::rule_names();
  const fs::path table = project() / "tests/pdfua/own_rules.tsv";
  for (const auto& row : heard::read_table(table.string())) {
    rules.push_back(row.at(0) + "-" + row.at(1));
  }
  return rules;
}

INSTANTIATE_TEST_SUITE_P(All, HeardRule, testing::ValuesIn(all_rules()),
                         [](const auto& one) { return test_name(one.param); });

TEST(HeardRules, AreAllListed) {
  const std::vector<std::string> listed = all_rules();
  for (const auto& [rule, faults] : found_in_documents().faults) {
    EXPECT_TRUE(std::ranges::find(listed, rule) != listed.end()) << rule;
  }
}

// An exception that nothing needs any more would hide the next fault.
TEST(HeardRules, HaveNoExceptionsThatNothingNeeds) {
  for (const auto& row : known_faults()) {
    if (row[0] == kSaidRule) continue;  // see aloud_test.cpp
    EXPECT_TRUE(found_in_documents().known_seen.contains(row))
        << row[0] << ", " << row[1] << ": " << row[2];
  }
}

}  // namespace
}  // namespace sheaf::test
