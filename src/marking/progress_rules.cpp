#include "marking/progress_rules.h"

#include <array>
#include <string_view>

#include <fmt/format.h>

#include "marking/scores.h"

namespace sheaf {
namespace {

constexpr std::array kRuleOptions = {
    OptionSpec{"go-on-percent", OptionSpec::Kind::count, "80",
               "percent right in the week before going on", "50", "100"},
    OptionSpec{"week-days", OptionSpec::Kind::count, "7",
               "days that count as the week", "1", "31"},
    OptionSpec{"secure-misses", OptionSpec::Kind::count, "2",
               "misses allowed in the latest words of a secure pattern", "0",
               "20"},
    OptionSpec{"secure-chances", OptionSpec::Kind::count, "25",
               "how many words those are", "5", "100"},
    OptionSpec{"long-misses", OptionSpec::Kind::count, "5",
               "misses allowed over a longer time", "0", "50"},
    OptionSpec{"long-chances", OptionSpec::Kind::count, "54",
               "how many words that is, or all that there are", "5", "200"},
    OptionSpec{"secure-days", OptionSpec::Kind::count, "3",
               "days that a secure pattern must be spread over", "1", "20"},
    OptionSpec{"secure-new-words", OptionSpec::Kind::count, "4",
               "of its words, those never practised", "0", "50"},
    OptionSpec{"secure-later-days", OptionSpec::Kind::count, "14",
               "days after teaching that one of its days must be", "0", "365"},
    OptionSpec{"lost-misses", OptionSpec::Kind::count, "3",
               "misses close together that make it no longer secure", "1",
               "50"},
    OptionSpec{"lost-chances", OptionSpec::Kind::count, "12",
               "how many words are close together", "1", "100"},
    OptionSpec{"unseen-weeks", OptionSpec::Kind::count, "8",
               "weeks unseen after which it is checked again", "1", "52"},
};

}  // namespace

OptionTable progress_option_table() { return kRuleOptions; }

ProgressRules progress_rules(const OptionValues& values) {
  ProgressRules rules;
  rules.go_on_percent = values.count("go-on-percent");
  rules.week_days = values.count("week-days");
  rules.secure_misses = values.count("secure-misses");
  rules.secure_chances = values.count("secure-chances");
  rules.long_misses = values.count("long-misses");
  rules.long_chances = values.count("long-chances");
  rules.secure_days = values.count("secure-days");
  rules.secure_new_words = values.count("secure-new-words");
  rules.secure_later_days = values.count("secure-later-days");
  rules.lost_misses = values.count("lost-misses");
  rules.lost_chances = values.count("lost-chances");
  rules.unseen_weeks = values.count("unseen-weeks");
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
