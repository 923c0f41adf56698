#include "driver/check_lessons.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace sheaf {

namespace {

constexpr std::size_t kLeastWords = 6;
constexpr std::size_t kMostWords = 12;
constexpr std::size_t kLeastEach = 3;

struct Asked {
  PatternId pattern = 0;
  std::vector<std::string> words;
  std::vector<std::string> practised;  // those among them
};

// A pattern's words: new ones, then such as were practised.
Asked words_of(PatternId pattern, std::size_t count, SetWords& words,
               const std::set<std::string>& taken) {
  Asked asked{.pattern = pattern};
  const auto add = [&](const std::string& word) {
    const bool free = !taken.contains(word) &&
                      std::ranges::find(asked.words, word) == asked.words.end();
    if (asked.words.size() == count || !free) return false;
    asked.words.push_back(word);
    return true;
  };
  for (const std::string& word : words.fresh(pattern)) add(word);
  for (const std::string& word : words.practised(pattern)) {
    if (add(word)) asked.practised.push_back(word);
  }
  return asked;
}

// The patterns in the order of their turns, as many as a check has and as have
// words.
std::vector<Asked> choose_patterns(const std::vector<CheckTurn>& turns,
                                   SetWords& words, const CheckRules& rules,
                                   std::vector<PatternId>& without_words) {
  const std::size_t count = std::min(turns.size(), rules.patterns);
  if (count == 0) return {};
  const std::size_t each =
      std::clamp(kMostWords / count, kLeastEach, kLeastWords);
  std::vector<Asked> chosen;
  std::set<std::string> taken;
  for (const CheckTurn& turn : turns) {
    if (chosen.size() == count) break;
    Asked asked = words_of(turn.pattern, each, words, taken);
    if (asked.words.size() < kLeastEach) {
      without_words.push_back(turn.pattern);
      continue;
    }
    taken.insert(asked.words.begin(), asked.words.end());
    chosen.push_back(std::move(asked));
  }
  return chosen;
}

// One of each pattern in turn, so that no row of words gives it away.
std::string mixed(const std::vector<Asked>& chosen) {
  std::string list;
  for (std::size_t i = 0; i < kLeastWords; ++i) {
    for (const Asked& asked : chosen) {
      if (i >= asked.words.size()) continue;
      list += (list.empty() ? "" : " ") + asked.words[i];
    }
  }
  return list;
}

// For a lesson whose words were chosen in another accent than the usual.
std::string accent_line(const Conventions& spoken) {
  if (spoken.accent == Accent::general_american) return {};
  return fmt::format("accent: {}\n", convention_value(spoken, "accent"));
}

std::string check_text(const std::vector<Asked>& chosen,
                       const Conventions& spoken,
                       const PatternCatalogue& catalogue, const Date& week,
                       std::string_view about) {
  std::string names, practised;
  for (const Asked& asked : chosen) {
    names += fmt::format("{}{}", names.empty() ? "" : ", ",
                         catalogue[asked.pattern].id);
    if (asked.practised.empty()) continue;
    practised += fmt::format(
        "# Too few words of {} are new to all of them. Practised before: {}.\n",
        catalogue[asked.pattern].id, fmt::join(asked.practised, ", "));
  }
  const std::string words = mixed(chosen);
  return fmt::format(
      "# A check of old patterns in words that were in no lesson, for the week "
      "of {0}.\n# {3}. After the dictation: `sheaf record` with --kind "
      "retention.\n{5}sheaf: 1\npattern: [{1}]\nlayout: check\n{4}words: "
      "{2}\ndictate-words: {2}\n",
      date_text(week), names, words, about, accent_line(spoken), practised);
}

// A group's name as a part of a file's name; empty where nothing is left of it.
std::string as_part_of_name(const std::string& group) {
  std::string part;
  for (const char c : group) {
    const bool capital = c >= 'A' && c <= 'Z';
    const char small = capital ? static_cast<char>(c - 'A' + 'a') : c;
    const bool plain =
        (small >= 'a' && small <= 'z') || (small >= '0' && small <= '9');
    if (plain) {
      part += small;
    } else if (!part.empty() && part.back() != '-') {
      part += '-';
    }
  }
  while (part.ends_with('-')) part.pop_back();
  return part;
}

void name_them(std::vector<CheckLesson>& checks, const Date& week) {
  std::set<std::string> used;
  for (CheckLesson& check : checks) {
    const std::string plain = fmt::format("check-{}", date_text(week));
    if (checks.size() == 1) {
      check.name = plain;
      continue;
    }
    const std::string group = as_part_of_name(check.group);
    const std::string first =
        group.empty() ? plain : fmt::format("{}-{}", plain, group);
    check.name = group.empty() ? first + "-1" : first;
    for (int number = 2; !used.insert(check.name).second; ++number) {
      check.name = fmt::format("{}-{}", first, number);
    }
  }
}

}  // namespace

std::vector<CheckLesson> check_lessons(
    const std::vector<TaughtSet>& sets, std::vector<SetWords>& words,
    const std::vector<LearnerProgress>& learners,
    const PatternCatalogue& catalogue, const Date& week,
    const CheckRules& rules, std::string_view about) {
  std::vector<CheckLesson> checks;
  for (std::size_t i = 0; i < sets.size(); ++i) {
    std::vector<const LearnerProgress*> own;
    for (const LearnerProgress& learner : learners) {
      if (sets[i].has(learner.code)) own.push_back(&learner);
    }
    CheckLesson check{.group = sets[i].group, .codes = sets[i].codes};
    const std::vector<Asked> chosen = choose_patterns(
        check_turns(own, week, rules), words[i], rules, check.without_words);
    std::size_t count = 0;
    for (const Asked& asked : chosen) {
      count += asked.words.size();
      check.patterns.push_back(asked.pattern);
    }
    if (count < kLeastWords) continue;
    check.text = check_text(chosen, sets[i].spoken, catalogue, week, about);
    checks.push_back(std::move(check));
  }
  name_them(checks, week);
  return checks;
}

}  // namespace sheaf
