#include "service/key_facts.h"

#include <fmt/format.h>

#include <array>
#include <span>

#include "base/options.h"
#include "input/class_file.h"
#include "input/lesson_keys.h"
#include "input/record_file.h"
#include "input/sequence.h"
#include "layout/style.h"
#include "phonics/conventions.h"
#include "sheets/sheet.h"

namespace sheaf {

namespace {

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    if (end > 0) words.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

// What a lesson has where it does not say.
struct Fallback {
  std::string_view key, value;
};
constexpr std::array kLessonFallbacks = {
    Fallback{"layout", "week"},    Fallback{"days", "5"},
    Fallback{"minutes", "25"},     Fallback{"set", "1"},
    Fallback{"pick", "10"},        Fallback{"strict", "no"},
    Fallback{"notation", "plain"}, Fallback{"accent", "general-american"},
    Fallback{"count", "as-spoken"}};

// The few values that a key of any file may have.
struct Choices {
  std::string_view key, values;
};
constexpr std::array kChoices = {
    Choices{"accent", "general-american british scottish australian"},
    Choices{"count", "as-spoken as-taught"},
    Choices{"notation", "plain marks ipa"},
    Choices{"strict", "yes no"},
    Choices{"kind", "dictation transfer retention writing probe"},
    Choices{"spacing", "normal wide wider"},
    Choices{"picture-names", "said numbered left-out"}};

KeyFact fact_of(std::string_view name, std::string_view meaning,
                std::string_view example) {
  KeyFact fact{.name = std::string(name),
               .meaning = std::string(meaning),
               .example = std::string(example),
               .fallback = {},
               .choices = {}};
  for (const Choices& choices : kChoices) {
    if (choices.key == name) fact.choices = words_of(choices.values);
  }
  return fact;
}

void add(std::vector<KeyFact>& facts, const std::vector<KeyNote>& notes) {
  for (const KeyNote& note : notes) {
    facts.push_back(fact_of(note.name, note.meaning, note.example));
  }
}

void add(std::vector<KeyFact>& facts, OptionTable options) {
  for (const OptionSpec& option : options) {
    KeyFact fact = fact_of(option.name, option.help, "");
    fact.fallback = option.fallback;
    if (!option.least.empty()) {
      fact.meaning += fmt::format(" ({} to {})", option.least, option.most);
    }
    if (option.kind == OptionSpec::Kind::flag) fact.choices = {"yes", "no"};
    if (!option.choices.empty()) fact.choices = words_of(option.choices);
    facts.push_back(std::move(fact));
  }
}

void add_conventions(std::vector<KeyFact>& facts) {
  for (const ConventionSwitch& one : convention_switches()) {
    KeyFact fact = fact_of(one.name, one.effect, "");
    fact.choices = {std::string(one.off), std::string(one.on)};
    facts.push_back(std::move(fact));
  }
  for (const std::string_view preset : {"accent", "count", "notation"}) {
    facts.push_back(fact_of(preset, "sets several of them", ""));
  }
}

std::vector<KeyFact> lesson_keys_below(std::span<const std::string> above) {
  std::vector<KeyFact> facts;
  if (above.empty()) {
    add(facts, notes_of(kLessonKeys));
    for (KeyFact& fact : facts) {
      for (const Fallback& known : kLessonFallbacks) {
        if (known.key == fact.name) fact.fallback = known.value;
      }
    }
  } else if (above[0] == "passage") {
    facts = {fact_of("title", "stands over the text", "title: A Dish of Fish"),
             fact_of("text", "paragraphs, with an empty line between them",
                     "text: |"),
             fact_of("questions", "one on each line", "questions: |")};
  }
  return facts;
}

std::vector<KeyFact> layout_keys_below(std::span<const std::string> above) {
  std::vector<KeyFact> facts;
  if (above.empty()) {
    add(facts, page_options());
    facts.push_back(fact_of("sheaf", "version of the format", "sheaf: 1"));
    facts.push_back(fact_of("sheets", "the sheets, in order", "sheets:"));
    facts.push_back(
        fact_of("accent", "whose sounds are counted", "accent: british"));
    facts.push_back(fact_of("conventions", "how sounds are counted",
                            "conventions: {qu: one}"));
  } else if (above[0] == "sheets" && above.size() > 1) {
    if (const SheetKind* kind = find_sheet_kind(above[1])) {
      add(facts, kind->options);
    }
  }
  return facts;
}

std::vector<KeyFact> class_keys_below(std::span<const std::string> above) {
  std::vector<KeyFact> facts;
  if (above.size() == 1) return facts;  // codes and names of groups
  add(facts, learner_keys());
  if (above.empty()) {
    add(facts, class_keys());
    facts.push_back(
        fact_of("groups", "learners who are taught together", "groups:"));
    facts.push_back(
        fact_of("learners", "codes, each with what is its own", "learners:"));
  } else if (above[0] == "learners") {
    add(facts, learner_own_keys());
  }
  return facts;
}

}  // namespace

std::vector<KeyFact> keys_below(FileKind kind,
                                const std::vector<std::string>& above) {
  std::vector<KeyFact> facts;
  if (!above.empty() && above[0] == "conventions") {
    add_conventions(facts);
    return facts;
  }
  switch (kind) {
    case FileKind::lesson:
      return lesson_keys_below(above);
    case FileKind::layout:
      return layout_keys_below(above);
    case FileKind::learners:
      return class_keys_below(above);
    case FileKind::sequence:
      if (above.empty()) add(facts, sequence_keys());
      if (!above.empty() && above[0] == "steps") add(facts, step_keys());
      return facts;
    case FileKind::record:
      if (above.empty()) add(facts, record_keys());
      return facts;
    case FileKind::sentences:
      break;
  }
  return facts;
}

}  // namespace sheaf
