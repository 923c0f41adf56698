#include "input/sequence.h"

#include <fmt/format.h>

#include <array>
#include <map>

#include "base/options.h"
#include "base/utf8.h"
#include "input/fields.h"
#include "input/file_kind.h"
#include "input/school_weeks.h"
#include "input/words.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostSteps = 200;
constexpr std::size_t kMostPatterns = 40;
constexpr std::size_t kMostTaughtBefore = 200;
constexpr int kHighestNumber = 999;
constexpr std::string_view kSequenceExample = "steps: [short i, sh, ck]";

using StepKey = KeySpec<SequenceStep>;
constexpr std::array kStepKeys = {
    StepKey{"number", "number: 3",
            "the step's number, if it is not the next one",
            [](const Field& field, SequenceStep& step, Diagnostics& d) {
              read_number(field, 1, kHighestNumber, step.number, d);
            }},
    StepKey{"name", "name: digraphs", "the step's name",
            [](const Field& field, SequenceStep& step, Diagnostics& d) {
              step.name = read_short_text(field, d);
            }},
    StepKey{"patterns", "patterns: sh, ch", "the patterns taught in it",
            [](const Field& field, SequenceStep& step, Diagnostics& d) {
              step.patterns = read_names(field, kMostPatterns, d);
            }},
    StepKey{"sight-words", "sight-words: the said", "its new sight words",
            [](const Field& field, SequenceStep& step, Diagnostics& d) {
              step.sight_words = read_plain_words(field, d);
            }},
    StepKey{"key-words", "key-words: ship",
            "the key word of each of its patterns",
            [](const Field& field, SequenceStep& step, Diagnostics& d) {
              step.key_words = read_plain_words(field, d);
            }},
    StepKey{"note", "note: Two weeks.", "a note to yourself",
            [](const Field& field, SequenceStep& step, Diagnostics& d) {
              step.note = read_lines(field, LineBreaks::paragraphs, d);
            }},
};

// A step is written in full as keys, or in short as the patterns alone.
std::optional<SequenceStep> read_step(const Value& item, Diagnostics& d) {
  SequenceStep step;
  step.span = item.span;
  if (item.kind == Value::Kind::keys) {
    read_by_table<SequenceStep>(item, kStepKeys, "a step", step, d);
    return step;
  }
  if (item.kind == Value::Kind::text) {
    step.patterns =
        read_names({"steps", item, kSequenceExample}, kMostPatterns, d);
    return step;
  }
  d.error(
      diagnostic::wrong_value, item.span,
      fmt::format("there is {} where a step should be", describe(item.kind)),
      "write a step as `- patterns: sh, ch`, and `sight-words:` on the line "
      "below it");
  return std::nullopt;
}

// Gives each step its number and makes sure that steps can be told apart.
class StepCounter {
 public:
  explicit StepCounter(Diagnostics& diagnostics) : diagnostics_(diagnostics) {}

  void count(SequenceStep& step) {
    if (!step.number.given()) {
      step.number = {.value = last_.value + 1};
    } else if (step.number.value <= last_.value) {
      Diagnostic& d = diagnostics_.error(
          diagnostic::value_out_of_range, step.number.span,
          fmt::format("step {} comes after step {}", step.number.value,
                      last_.value),
          "put the steps in the order of teaching, or leave the numbers out");
      if (last_.given()) d.remarks.push_back({last_.span, "the one before"});
    }
    last_ = step.number;
    if (!step.name.given()) return;
    check_name(step.name);
  }

  void check_patterns(const SequenceStep& step) {
    for (const PlacedWord& pattern : step.patterns) {
      const auto [first, fresh] =
          patterns_.try_emplace(lower_case(pattern.value), pattern.span);
      if (fresh) continue;
      Diagnostic& d = diagnostics_.warning(
          diagnostic::repeated_word, pattern.span,
          fmt::format("the pattern {} is taught a second time",
                      as_written(pattern.value)),
          "leave a step without patterns to practise what was taught");
      d.remarks.push_back({first->second, "the first time"});
    }
  }

 private:
  void check_name(const PlacedWord& name) {
    if (read_count(name.value)) {
      diagnostics_.error(
          diagnostic::wrong_value, name.span,
          fmt::format("the name {} is a number", as_written(name.value)),
          fmt::format("write `number: {}`", name.value));
      return;
    }
    const auto [first, fresh] =
        names_.try_emplace(lower_case(name.value), name.span);
    if (fresh) return;
    Diagnostic& d = diagnostics_.error(
        diagnostic::repeated_word, name.span,
        fmt::format("two steps have the name {}", as_written(name.value)),
        "give each step a name of its own");
    d.remarks.push_back({first->second, "the first one"});
  }

  Diagnostics& diagnostics_;
  Spanned<int> last_{.value = 0};
  std::map<std::string, Span> names_;
  std::map<std::string, Span> patterns_;
};

void read_steps(const Field& field, SequenceFile& sequence, Diagnostics& d) {
  if (field.value.kind != Value::Kind::list || field.value.items.empty()) {
    report_wrong_kind(field, d);
    return;
  }
  StepCounter counter(d);
  for (const Value& item : field.value.items) {
    if (sequence.steps.size() == kMostSteps) {
      d.error(diagnostic::too_many, item.span,
              fmt::format("there are more than {} steps before this one",
                          kMostSteps),
              "split them into two sequences");
      return;
    }
    auto step = read_step(item, d);
    if (!step) continue;
    counter.count(*step);
    counter.check_patterns(*step);
    sequence.steps.push_back(std::move(*step));
  }
}

using SequenceKey = KeySpec<SequenceFile>;
constexpr std::array kSequenceKeys = {
    SequenceKey{"sheaf", "sheaf: 1", "version of the format",
                [](const Field& field, SequenceFile&, Diagnostics& d) {
                  Spanned<int> version{.value = 1};
                  read_version(field.value, version, d);
                }},
    SequenceKey{"title", "title: Our year", "the sequence's name",
                [](const Field& field, SequenceFile& s, Diagnostics& d) {
                  s.title = read_short_text(field, d);
                }},
    SequenceKey{"sight-words", "sight-words: I a the",
                "sight words known before the first step",
                [](const Field& field, SequenceFile& s, Diagnostics& d) {
                  s.sight_words = read_plain_words(field, d);
                }},
    SequenceKey{"taught", "taught: short i, short o",
                "patterns known before the first step",
                [](const Field& field, SequenceFile& s, Diagnostics& d) {
                  s.taught = read_names(field, kMostTaughtBefore, d);
                }},
    SequenceKey{"key-words", "key-words: sun pig",
                "key words of those, and of single consonants",
                [](const Field& field, SequenceFile& s, Diagnostics& d) {
                  s.key_words = read_plain_words(field, d);
                }},
    SequenceKey{"conventions", "conventions: {qu: one}",
                "how sounds are counted",
                [](const Field& field, SequenceFile& s, Diagnostics& d) {
                  s.conventions = read_pairs(field, d);
                }},
    SequenceKey{"accent", "accent: british", "whose sounds are counted",
                [](const Field& field, SequenceFile& s, Diagnostics& d) {
                  s.accent = read_short_text(field, d);
                }},
    SequenceKey{"review-weeks", "review-weeks: 1, 2, 4, 8",
                "after how many weeks a pattern comes back",
                [](const Field& field, SequenceFile& s, Diagnostics& d) {
                  s.review_weeks = read_review_weeks(field, d);
                }},
    SequenceKey{"note", "note: For the Tuesday group.", "a note to yourself",
                [](const Field& field, SequenceFile& s, Diagnostics& d) {
                  s.note = read_lines(field, LineBreaks::paragraphs, d);
                }},
    SequenceKey{"steps", kSequenceExample, "the steps in the order of teaching",
                read_steps},
};

}  // namespace

SequenceFile read_sequence(const SourceFile& file, Diagnostics& diagnostics) {
  const auto keys =
      read_keys(file, "a sequence", kSequenceExample, diagnostics);
  if (!keys || !is_kind(FileKind::sequence, *keys, diagnostics)) {
    SequenceFile sequence;
    sequence.file = &file;
    return sequence;
  }
  return read_sequence_keys(file, *keys, diagnostics);
}

SequenceFile read_sequence_keys(const SourceFile& file, const Value& keys,
                                Diagnostics& diagnostics) {
  SequenceFile sequence;
  sequence.file = &file;
  read_by_table<SequenceFile>(keys, kSequenceKeys, "a sequence", sequence,
                              diagnostics);
  require_key(file, keys, "steps", "the sequence has no steps",
              "add `steps:` and, below it, one line for each step, as in `  - "
              "patterns: sh`",
              diagnostics);
  return sequence;
}

std::vector<KeyNote> sequence_keys() { return notes_of(kSequenceKeys); }
std::vector<KeyNote> step_keys() { return notes_of(kStepKeys); }

const SequenceStep* find_step(const SequenceFile& sequence,
                              std::string_view number_or_name) {
  const auto number = read_count(number_or_name);
  const std::string name = lower_case(number_or_name);
  for (const SequenceStep& step : sequence.steps) {
    const bool found = number ? step.number.value == *number
                              : lower_case(step.name.value) == name;
    if (found && (number || step.name.given())) return &step;
  }
  return nullptr;
}

}  // namespace sheaf
