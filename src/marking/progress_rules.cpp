#include "marking/progress_rules.h"

#include <array>
#include <string_view>

#include <fmt/format.h>

#include "marking/scores.h"

namespace sheaf {
namespace {

// A rule with the place that its value goes to.
struct RuleSpec {
  OptionSpec option;
  int ProgressRules::*value;
};

constexpr RuleSpec rule(std::string_view name, std::string_view usual,
                        std::string_view help, std::string_view least,
                        std::string_view most, int ProgressRules::*value) {
  return {{name, OptionSpec::Kind::count, usual, help, least, most}, value};
}

constexpr std::array kRules = {
    rule("go-on-percent", "80", "percent right in the week before going on",
         "50", "100", &ProgressRules::go_on_percent),
    rule("week-days", "7", "days that count as the week", "1", "31",
         &ProgressRules::week_days),
    rule("secure-misses", "2",
         "misses allowed in the latest words of a secure pattern", "0", "20",
         &ProgressRules::secure_misses),
    rule("secure-chances", "25", "how many words those are", "5", "100",
         &ProgressRules::secure_chances),
    rule("long-misses", "5", "misses allowed over a longer time", "0", "50",
         &ProgressRules::long_misses),
    rule("long-chances", "54", "how many words that is, or all that there are",
         "5", "200", &ProgressRules::long_chances),
    rule("secure-days", "3", "days that a secure pattern must be spread over",
         "1", "20", &ProgressRules::secure_days),
    rule("secure-new-words", "4", "of its words, those never practised", "0",
         "50", &ProgressRules::secure_new_words),
    rule("secure-later-days", "14",
         "days after teaching that one of its days must be", "0", "365",
         &ProgressRules::secure_later_days),
    rule("lost-misses", "3",
         "misses close together that make it no longer secure", "1", "50",
         &ProgressRules::lost_misses),
    rule("lost-chances", "12", "how many words are close together", "1", "100",
         &ProgressRules::lost_chances),
    rule("unseen-weeks", "8", "weeks unseen after which it is checked again",
         "1", "52", &ProgressRules::unseen_weeks),
};

// The same for whoever reads options, without the places.
constexpr auto kRuleOptions = [] {
  std::array<OptionSpec, kRules.size()> options;
  for (std::size_t i = 0; i < kRules.size(); ++i) options[i] = kRules[i].option;
  return options;
}();

}  // namespace

OptionTable progress_option_table() { return kRuleOptions; }

ProgressRules progress_rules(const OptionValues& values) {
  ProgressRules rules;
  for (const RuleSpec& rule : kRules) {
    rules.*rule.value = values.count(rule.option.name);
  }
  return rules;
}

namespace {

std::string number_of(int count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}
std::string number_of_days(int count) {
  return number_of(count, "day", "days");
}

}  // namespace

std::vector<RuleText> rule_texts(const ProgressRules& r) {
  return {
      {"Go on",
       fmt::format("{}% right within {}, in {} words or more.", r.go_on_percent,
                   number_of_days(r.week_days), Share::kLeastForPercent)},
      {"Secure",
       fmt::format(
           "at most {} wrong in the latest {} words, on {} or more, with {} or "
           "more, and seen {} or more after teaching. Of all words since then, "
           "at most {} wrong in the latest {}.",
           r.secure_misses, r.secure_chances, number_of_days(r.secure_days),
           number_of(r.secure_new_words, "new word", "new words"),
           number_of_days(r.secure_later_days), r.long_misses, r.long_chances)},
      {"Check again",
       fmt::format(
           "was secure, then {} wrong in {} words on end, more than {} in the "
           "latest {}, or not seen for more than {}. The rule for secure "
           "makes it secure again.",
           r.lost_misses, r.lost_chances, r.long_misses, r.long_chances,
           number_of(r.unseen_weeks, "week", "weeks"))},
      {"Likely",
       "between these two the learner's share of all such words lies, in nine "
       "cases of ten (a 90% interval; Wilson 1927)."}};
}

std::string rules_in_brief(const ProgressRules& r) {
  return fmt::format(
      "Go on: {}% right in {}. Secure: at most {} wrong in {} words ({}, {}, "
      "{} after teaching), {} in {} since. Check again: then {} wrong in {}, "
      "or unseen for {}. Ranges: nine in ten hold the true share (Wilson).",
      r.go_on_percent, number_of_days(r.week_days), r.secure_misses,
      r.secure_chances, number_of_days(r.secure_days),
      number_of(r.secure_new_words, "new word", "new words"),
      number_of_days(r.secure_later_days), r.long_misses, r.long_chances,
      r.lost_misses, r.lost_chances,
      number_of(r.unseen_weeks, "week", "weeks"));
}

}  // namespace sheaf
