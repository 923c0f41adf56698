#include "sheets/placement_parts.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "sheets/word_parts.h"

namespace sheaf {

std::string placement_missing(const SheetInput& in) {
  return in.lesson.lesson->placement.given()
             ? ""
             : "the lesson is no placement check; `sheaf placement` writes one";
}

std::string placement_step(const SheetInput& in,
                           const PlacementCheck::Rung& rung) {
  std::vector<std::string> names;
  for (const PatternId id : rung.patterns) {
    const auto pattern =
        std::ranges::find(in.lesson.patterns, id, &LessonPattern::id);
    if (pattern != in.lesson.patterns.end()) names.push_back(pattern->name);
  }
  // The names of four would be taller than the words beside them.
  if (names.size() > 2) {
    names[1] = fmt::format("{} more", names.size() - 1);
    names.resize(2);
  }
  return fmt::format("{}, {}", rung.number, fmt::join(names, " and "));
}

std::vector<TextPiece> placement_word(const SheetInput& in,
                                      const AnalyzedWord& word,
                                      const PlacementCheck::Rung& rung,
                                      const InSentence& said,
                                      const TextStyle& plain,
                                      const TextStyle& strong) {
  // As if the lesson were about this step alone.
  AnalyzedWord own = word;
  for (std::size_t p = 0; p < own.hits.size(); ++p) {
    if (std::ranges::find(rung.patterns, in.lesson.patterns[p].id) ==
        rung.patterns.end()) {
      own.hits[p] = {};
    }
  }
  std::vector<TextPiece> pieces = marked_word(in.lesson, own, plain, strong);
  const bool any = std::ranges::any_of(pieces, &TextPiece::marked);
  for (TextPiece& piece : pieces) {
    if (!any) piece.style = strong;
    piece.marked = false;
  }
  std::string rest;
  if (!said.alikes.empty()) rest = fmt::format(" ({})", said.not_these());
  rest += said.sentence.empty() ? ": in a sentence of your own"
                                : ": " + said.sentence;
  pieces.push_back({std::move(rest), plain});
  return pieces;
}

std::vector<PlacementRow> placement_table(const PlacementCheck& check) {
  std::vector<PlacementRow> rows;
  for (std::size_t right = 0; right <= check.part_one().size(); ++right) {
    const std::size_t rung = check.part_two_from(right);
    if (!rows.empty() && rows.back().rung == rung) {
      rows.back().most = right;
    } else {
      rows.push_back({.least = right, .most = right, .rung = rung});
    }
  }
  return rows;
}

}  // namespace sheaf
