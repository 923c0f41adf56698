#pragma once

#include <memory>
#include <string>
#include <vector>

namespace sheaf::testing_support {

/// A regular expression (ECMAScript's). Tests use the library's here alone: its
/// templates take ten seconds to compile under the checks.
class Pattern {
 public:
  explicit Pattern(const std::string& expression);
  ~Pattern();

  /// A match and its groups, the match itself first. A group that took no part
  /// is empty; nothing at all where there is no match.
  using Match = std::vector<std::string>;
  Match in(const std::string& text) const;
  /// The same where all of the text must match.
  Match of(const std::string& text) const;
  std::vector<Match> all_in(const std::string& text) const;
  std::string replace(const std::string& text, const std::string& with) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sheaf::testing_support
