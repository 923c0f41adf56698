#include "reports/progress_states.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "layout/table.h"
#include "layout/text_block.h"
#include "marking/likely_range.h"
#include "reports/report_document.h"

namespace sheaf {

namespace {

using namespace literals;

// Without the percentage, where a range stands beside it.
std::string counts_of(const Share& share) {
  return fmt::format("{}/{}", share.right, share.of);
}

TextPiece range_piece(const TextStyle& text, const Share& share) {
  return {
      .text = likely_short(share), .style = text, .heard = likely_text(share)};
}

// The patterns of one state in a paragraph: "sh 26/26, 91–100%, all 30/31".
template <typename Rest>
void add_state_line(Composer& c, const LearnerProgress& learner,
                    const PatternCatalogue& catalogue, ProgressState state,
                    std::string_view lead, Rest rest) {
  const TextStyle text = c.style().teacher_text();
  const TextStyle bold = c.style().teacher_text(true);
  std::vector<TextPiece> pieces;
  for (const PatternProgress& p : learner.patterns) {
    if (p.state != state) continue;
    pieces.push_back(pieces.empty() ? TextPiece{std::string(lead), bold}
                                    : TextPiece{"; ", text});
    pieces.push_back({column_title(catalogue[p.pattern]) + " ", bold});
    append(pieces, with_counts(text, counts_of(p.window) + ", "));
    pieces.push_back(range_piece(text, p.window));
    pieces.push_back({", ", text});
    append(pieces, with_counts(text, fmt::format("all {}, {}", counts_of(p.all),
                                                 rest(p))));
  }
  if (pieces.empty()) return;
  pieces.push_back({".", text});
  add_paragraph(c, pieces, {.space_before = 1_mm});
}

void add_state_row(Table& table, const TextStyle& text,
                   const PatternProgress& p, const std::string& title) {
  std::vector<TextPiece> based = with_counts(text, counts_of(p.window) + ", ");
  based.push_back(range_piece(text, p.window));
  table.add_row({{{title, text}},
                 {{date_text(p.taught), text}},
                 {{std::string(state_name(p.state)), text}},
                 based,
                 with_counts(text, counts_of(p.all)),
                 with_counts(text, p.needed)},
                true);
}

}  // namespace

void add_states(Composer& c, const LearnerProgress& learner,
                const PatternCatalogue& catalogue) {
  constexpr std::ptrdiff_t kMostRows = 12;
  const auto count = [&](ProgressState state) {
    return std::ranges::count(learner.patterns, state, &PatternProgress::state);
  };
  const std::ptrdiff_t others =
      std::ssize(learner.patterns) - count(ProgressState::secure);
  const bool brief = others > kMostRows;
  add_state_line(c, learner, catalogue, ProgressState::secure,
                 "Secure: ", [](const PatternProgress& p) {
                   return "last seen " + date_text(p.last);
                 });
  if (brief) {
    add_state_line(c, learner, catalogue, ProgressState::go_on,
                   "Go on, with what is still needed: ",
                   [](const PatternProgress& p) { return p.needed; });
  }
  if (others == 0 || (brief && others == count(ProgressState::go_on))) return;
  Table table(c, {{.title = "Pattern", .share = 0, .fixed = 23_mm},
                  {.title = "Taught", .share = 0, .fixed = 20_mm},
                  {.title = "Status", .share = 0, .fixed = 22_mm},
                  {.title = "Based on", .share = 0, .fixed = 26_mm},
                  {.title = "All", .share = 0, .fixed = 12_mm},
                  {"Still needed", 1}});
  for (const PatternProgress& p : learner.patterns) {
    if (p.state == ProgressState::secure) continue;
    if (brief && p.state == ProgressState::go_on) continue;
    add_state_row(table, c.style().teacher_text(), p,
                  column_title(catalogue[p.pattern]));
  }
}

void add_known_before(Composer& c, const LearnerProgress& learner,
                      const PatternCatalogue& catalogue) {
  const std::string before = known_before_text(learner, catalogue);
  if (before.empty()) return;
  add_paragraph(c,
                with_counts(c.style().teacher_text(),
                            fmt::format("{}: {}.", kKnownBefore, before)),
                {.space_before = 1_mm});
}

void add_rules(Composer& c, const ProgressRules& rules) {
  add_paragraph(c, c.style().teacher_text(), rules_in_brief(rules),
                {.space_before = 1.5_mm});
}

}  // namespace sheaf
