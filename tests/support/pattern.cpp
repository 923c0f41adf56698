#include "support/pattern.h"

#include <regex>

namespace sheaf::testing_support {

struct Pattern::Impl {
  std::regex regex;
};

namespace {

Pattern::Match groups(const std::smatch& match) {
  Pattern::Match result;
  for (const auto& group : match) result.push_back(group.str());
  return result;
}

}  // namespace

Pattern::Pattern(const std::string& expression)
    : impl_(std::make_unique<Impl>(Impl{std::regex(expression)})) {}

Pattern::~Pattern() = default;

Pattern::Match Pattern::in(const std::string& text) const {
  std::smatch match;
  return std::regex_search(text, match, impl_->regex) ? groups(match) : Match();
}

Pattern::Match Pattern::of(const std::string& text) const {
  std::smatch match;
  return std::regex_match(text, match, impl_->regex) ? groups(match) : Match();
}

std::vector<Pattern::Match> Pattern::all_in(const std::string& text) const {
  std::vector<Match> matches;
  for (std::sregex_iterator i(text.begin(), text.end(), impl_->regex), end;
       i != end; ++i) {
    matches.push_back(groups(*i));
  }
  return matches;
}

std::string Pattern::replace(const std::string& text,
                             const std::string& with) const {
  return std::regex_replace(text, impl_->regex, with);
}

}  // namespace sheaf::testing_support
