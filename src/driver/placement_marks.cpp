#include "driver/placement_marks.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.h"
#include "marking/pattern_chance.h"
#include "marking/place_learner.h"

namespace sheaf {

namespace {

bool is_of_placement(const MarkedRecord& marked) {
  return marked.lesson != nullptr && marked.lesson->lesson.placement.given();
}

// "1, 2, 3, 5, 6 …": the first few.
std::string rung_numbers(const PlacementCheck& check) {
  constexpr std::size_t kMostShown = 8;
  std::string text;
  for (std::size_t r = 0; r < check.rungs().size(); ++r) {
    if (r == kMostShown) return text + ", and so on";
    text += fmt::format("{}{}", r == 0 ? "" : ", ", check.rungs()[r].number);
  }
  return text;
}

}  // namespace

void mark_placement(MarkedRecord& marked, const PatternCatalogue& catalogue) {
  if (!is_of_placement(marked)) return;
  const PlacementCheck check(marked.lesson->analyzed);
  for (StrayWord& stray :
       keep_dictated(marked.session, *marked.record, check, catalogue)) {
    marked.not_asked.emplace_back(std::move(stray.target), stray.step);
  }
  marked.session.placement = true;
  // Of all the steps those that somebody was asked for.
  std::erase_if(marked.patterns, [&](PatternId pattern) {
    return std::ranges::none_of(
        marked.session.learners, [&](const LearnerResult& learner) {
          return !chances_for(pattern, marked.session, learner, catalogue)
                      .empty();
        });
  });
  // A check teaches nothing.
  if (marked.session.kind != Record::Kind::writing) {
    marked.session.kind = Record::Kind::retention;
  }
}

void report_placement_marks(const MarkedRecord& marked,
                            Diagnostics& diagnostics) {
  if (!is_of_placement(marked)) {
    if (marked.record->part_two.empty()) return;
    diagnostics.warning(
        diagnostic::wrong_value, marked.record->part_two.front().first.span,
        "`part-two` is about a placement check, and this record is not of one",
        "take it out, or name the check under `lesson`");
    return;
  }
  const PlacementCheck check(marked.lesson->analyzed);
  for (const auto& [code, step] : marked.record->part_two) {
    if (!marked.record->not_yet && marked.session.find(code.value) == nullptr) {
      diagnostics.warning(
          diagnostic::missing_key, code.span,
          fmt::format("part two of {} stands here, and nothing else of what "
                      "this learner wrote",
                      as_written(code.value.text())),
          fmt::format("list the learner under `wrong:`, as `{}: {{}}` where "
                      "everything was right",
                      code.value.text()));
    }
    if (std::ranges::find(check.rungs(), step.value,
                          &PlacementCheck::Rung::number) !=
        check.rungs().end()) {
      continue;
    }
    diagnostics.error(
        diagnostic::unknown_step, step.span,
        fmt::format("the check has no words for step {}", step.value),
        fmt::format("write the first step of the part two that was dictated: "
                    "{}",
                    rung_numbers(check)));
  }
  for (const auto& [target, step] : marked.not_asked) {
    diagnostics.warning(
        diagnostic::not_dictated, target.span(),
        fmt::format("{} is a word of step {}, which was not dictated to this "
                    "learner as far as the record says; it is left out",
                    as_written(target.text()), step),
        "say where part two began, as in `part-two: {B7: 5}`");
  }
}

}  // namespace sheaf
