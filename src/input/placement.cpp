#include "input/placement.h"

#include <fmt/format.h>

#include <array>
#include <map>

#include "base/options.h"
#include "base/utf8.h"
#include "input/fields.h"
#include "input/words.h"

namespace sheaf {

namespace {

constexpr std::array<std::string_view, 2> kPlacementKeys = {"part-one",
                                                            "part-two"};
// As many as a sequence has: `placement` asks for any of them.
constexpr std::size_t kMostPlacementSteps = 200;
constexpr std::size_t kMostPlacementWords = 6;  // of one step

class PlacementReader {
 public:
  explicit PlacementReader(Diagnostics& diagnostics)
      : diagnostics_(diagnostics) {}

  // Steps with their words, those of part one with a single word each.
  std::vector<PlacementStep> read_part(const ValueEntry& part, bool one_word) {
    const std::string_view example = one_word ? "2: nod" : "2: fox drop blob";
    std::vector<PlacementStep> steps;
    if (part.value.kind != Value::Kind::keys || part.value.entries.empty()) {
      diagnostics_.error(
          diagnostic::wrong_value, part.key.span,
          fmt::format("{} needs steps with words", as_written(part.key.value)),
          fmt::format("write each step on a line of its own, as in `{}`",
                      example));
      return steps;
    }
    if (part.value.entries.size() > kMostPlacementSteps) {
      diagnostics_.error(
          diagnostic::too_many, part.key.span,
          fmt::format("{} has more than {} steps", as_written(part.key.value),
                      kMostPlacementSteps),
          "check a part of the sequence at a time");
      return steps;
    }
    for (const ValueEntry& entry : part.value.entries) {
      PlacementStep step;
      if (!read_step_number(entry, steps, step.number)) continue;
      const Field field{entry.key.value, entry.value, example};
      for (PlacedWord& word : read_plain_words(field, diagnostics_)) {
        if (is_new(word)) step.words.push_back(std::move(word));
      }
      const std::size_t most = one_word ? 1 : kMostPlacementWords;
      if (step.words.size() > most) {
        diagnostics_.error(
            diagnostic::too_many, step.words[most].span,
            one_word ? "part one asks for one word of a step"
                     : fmt::format("a step has at most {} words", most),
            "take the others out");
        continue;
      }
      if (!step.words.empty()) steps.push_back(std::move(step));
    }
    return steps;
  }

 private:
  bool read_step_number(const ValueEntry& entry,
                        const std::vector<PlacementStep>& before,
                        Spanned<int>& number) {
    const auto count = read_count(entry.key.value);
    if (!count || *count < 1) {
      diagnostics_.error(diagnostic::wrong_value, entry.key.span,
                         fmt::format("{} is not the number of a step",
                                     as_written(entry.key.value)),
                         "write the step's number, as in `2: nod`");
      return false;
    }
    if (!before.empty() && before.back().number.value >= *count) {
      diagnostics_.error(
          diagnostic::wrong_value, entry.key.span,
          fmt::format("step {} stands after step {}", *count,
                      before.back().number.value),
          "put the steps in the order of the sequence, each once");
      return false;
    }
    number = {*count, entry.key.span};
    return true;
  }

  // A word tells which step a learner has, so it can stand for one only.
  bool is_new(const PlacedWord& word) {
    const auto [first, fresh] =
        seen_.try_emplace(lower_case(word.value), word.span);
    if (fresh) return true;
    Diagnostic& report = diagnostics_.error(
        diagnostic::repeated_word, word.span,
        fmt::format("{} is dictated twice", as_written(word.value)),
        "choose another word for one of the two");
    report.remarks.push_back({first->second, "the first one"});
    return false;
  }

  Diagnostics& diagnostics_;
  std::map<std::string, Span> seen_;
};

}  // namespace

Placement read_placement(const Field& field, Diagnostics& diagnostics) {
  Placement placement;
  placement.span = field.value.span;
  if (field.value.kind != Value::Kind::keys) {
    report_wrong_kind(field, diagnostics);
    return placement;
  }
  check_known_keys(field.value, kPlacementKeys, "a placement check",
                   diagnostics);
  PlacementReader reader(diagnostics);
  for (const ValueEntry& entry : field.value.entries) {
    if (entry.key.value == kPlacementKeys[0]) {
      placement.part_one = reader.read_part(entry, true);
    } else if (entry.key.value == kPlacementKeys[1]) {
      placement.part_two = reader.read_part(entry, false);
    }
  }
  for (const std::string_view key : kPlacementKeys) {
    if (field.value.find(key) != nullptr) continue;
    diagnostics.error(
        diagnostic::missing_key, field.value.span,
        fmt::format("the placement check has no {}", as_written(key)),
        "let `sheaf placement` write the check anew");
  }
  return placement;
}

}  // namespace sheaf
