#include "input/class_text.h"

#include <fmt/format.h>

namespace sheaf {

namespace {

// A text that the file would not read as anything else.
std::string as_value(const std::string& text) {
  if (text.find_first_of(":#{}[],&*!|>'\"%@`\\") == std::string::npos &&
      !text.starts_with('-') && !text.starts_with('?')) {
    return text;
  }
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') quoted += '\\';
    quoted += c;
  }
  return quoted + "\"";
}

std::string joined(const std::vector<PlacedWord>& words) {
  std::string all;
  for (const PlacedWord& word : words) {
    all += (all.empty() ? "" : ", ") + as_value(word.value);
  }
  return all;
}

void add(std::string& text, std::string_view indent, std::string_view key,
         const std::string& value) {
  if (!value.empty()) text += fmt::format("{}{}: {}\n", indent, key, value);
}

std::string settings_text(const LearnerSettings& s, std::string_view indent,
                          const std::string& review_words) {
  std::string text;
  add(text, indent, "lesson", as_value(s.lesson.value));
  add(text, indent, "layout", as_value(s.layout.value));
  add(text, indent, "sequence", as_value(s.sequence.value));
  add(text, indent, "step", as_value(s.step.value));
  if (s.amount.given()) {
    add(text, indent, "amount", fmt::format("{}", s.amount.value));
  }
  if (s.line_size.given()) {
    // As it stands in the file, with its unit.
    add(text, indent, "line-size", std::string(s.line_size.span.text()));
  }
  add(text, indent, "spacing", as_value(s.spacing.value));
  add(text, indent, "picture-names", as_value(s.picture_names.value));
  add(text, indent, "extra", joined(s.extra));
  add(text, indent, "review-words", review_words);
  add(text, indent, "accent", as_value(s.accent.value));
  add(text, indent, "confuses", joined(s.confuses));
  add(text, indent, "speech", joined(s.speech));
  return text;
}

// The name alone, or with what stands under it.
std::string entry_text(const std::string& name, const std::string& inside) {
  return fmt::format("  {}:\n{}", as_value(name), inside);
}

}  // namespace

std::string class_text(
    const ClassFile& class_file,
    const std::map<LearnerCode, std::vector<std::string>>& review_words) {
  std::string text = "sheaf: 1\n";
  add(text, "", "title", as_value(class_file.title.value));
  if (const auto& year = class_file.school_year) {
    add(text, "", "school-year",
        fmt::format("{} to {}", date_text(year->first), date_text(year->last)));
  }
  add(text, "", "review-weeks",
      fmt::format("{}", fmt::join(class_file.review_weeks, ", ")));
  std::vector<std::string> days;
  for (const Date& day : class_file.no_school) days.push_back(date_text(day));
  add(text, "", "no-school", fmt::format("{}", fmt::join(days, ", ")));
  if (class_file.goal_date) {
    add(text, "", "goal-date", date_text(class_file.goal_date->value));
  }
  text += settings_text(class_file.settings, "",
                        joined(class_file.settings.review_words));
  if (!class_file.groups.empty()) text += "groups:\n";
  for (const GroupEntry& group : class_file.groups) {
    text += entry_text(group.name.value,
                       settings_text(group.settings, "    ",
                                     joined(group.settings.review_words)));
  }
  text += "learners:\n";
  for (const LearnerEntry& learner : class_file.learners) {
    std::string inside;
    add(inside, "    ", "group", as_value(learner.group.value));
    if (learner.from)
      add(inside, "    ", "from", date_text(learner.from->value));
    if (learner.until) {
      add(inside, "    ", "until", date_text(learner.until->value));
    }
    if (learner.goal.given()) {
      add(inside, "    ", "goal", fmt::format("{}", learner.goal.value));
    }
    std::string words = joined(learner.settings.review_words);
    const auto own = review_words.find(learner.code.value);
    if (own != review_words.end()) {
      words.clear();
      for (const std::string& word : own->second) {
        words += (words.empty() ? "" : ", ") + as_value(word);
      }
    }
    inside += settings_text(learner.settings, "    ", words);
    text += entry_text(learner.code.value.text(), inside);
  }
  return text;
}

}  // namespace sheaf
