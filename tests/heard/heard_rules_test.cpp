// Our own rules for what is heard (heard_rules.h), on every document that has a
// golden. What breaks one on purpose stands in known.tsv with its reason.

#include <gtest/gtest.h>

#include <iostream>
#include <map>
#include <set>

#include "heard/documents.h"

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

using Faults = std::map<std::string, std::vector<std::string>>;  // by rule

// "document, heading: what was found" of each fault that is not known.
const Faults& all_faults() {
  static const Faults all = [] {
    heard::Knowledge knowledge;
    // Beyond size 70 there is a word for nearly any letters.
    knowledge.words =
        words_of_sizes({"10", "20", "35", "40", "50", "55", "60", "70"});
    knowledge.everyday = words_of_sizes({"10", "20", "35"});
    knowledge.signs =
        heard::read_signs((heard_folder() / "signs.tsv").string());
    std::set<std::vector<std::string>> known;
    for (const auto& row :
         heard::read_table((heard_folder() / "known.tsv").string())) {
      known.insert({row.at(0), row.at(1), row.at(2)});
    }
    Faults faults;
    for (const HeardCase& one : heard_cases()) {
      for (const auto& [file, document] : heard_in(one)) {
        for (const heard::Fault& fault :
             heard::faults_of(document, knowledge)) {
          if (known.contains({fault.rule, one.name, fault.found})) continue;
          faults[fault.rule].push_back(one.name + ", " + fault.place + ": " +
                                       fault.found);
        }
      }
    }
    return faults;
  }();
  return all;
}

class HeardRule : public testing::TestWithParam<std::string> {};

TEST_P(HeardRule, IsKeptByEveryDocument) {
  const auto found = all_faults().find(GetParam());
  if (found == all_faults().end()) return;
  std::string list;
  for (const std::string& fault : found->second) list += "  " + fault + "\n";
  ADD_FAILURE() << found->second.size() << " times " << GetParam() << ":\n"
                << list;
}

INSTANTIATE_TEST_SUITE_P(All, HeardRule, testing::ValuesIn(heard::rule_names()),
                         [](const auto& one) { return test_name(one.param); });

}  // namespace
}  // namespace sheaf::test
