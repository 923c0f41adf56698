#pragma once

#include <map>
#include <string>
#include <utility>

namespace pdfua {

/// A rule by the clause of ISO 14289-1 and the number of its test there:
/// {"7.1", 3}. Clauses of ISO 19005-2 (PDF/A) begin with "A-", our own rules
/// have the clause "own".
using Rule = std::pair<std::string, int>;

/// Which rules a file breaks, with the first place of each and how many more.
class Report {
 public:
  struct Entry {
    std::string first;
    int count = 0;
  };

  void fault(const std::string& clause, int test, std::string what) {
    Entry& entry = entries_[{clause, test}];
    if (entry.count++ == 0) entry.first = std::move(what);
  }
  void require(bool holds, const std::string& clause, int test,
               std::string what) {
    if (!holds) fault(clause, test, std::move(what));
  }
  const std::map<Rule, Entry>& entries() const { return entries_; }

 private:
  std::map<Rule, Entry> entries_;
};

}  // namespace pdfua
