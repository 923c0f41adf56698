#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "layout/table.h"
#include "layout/text_block.h"
#include "marking/likely_range.h"
#include "marking/score_words.h"
#include "reports/progress_report.h"
#include "reports/progress_states.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kGroupText = 12_pt;
constexpr Ink kSome = 222;  // 50 to 79 percent
constexpr Ink kFew = 176;   // fewer than half

GridCell share_cell(const Share& share, std::string below = {}) {
  GridCell cell;
  cell.heard = "not asked";
  if (share.of == 0) return cell;
  cell.heard = fmt::format("{} of {}", share.right, share.of);
  cell.figure = fmt::format("{}/{}", share.right, share.of);
  cell.below = std::move(below);
  cell.few = share.of < Share::kLeastForPercent;
  if (!cell.few && !share.reaches(50)) {
    cell.ground = kFew;
    cell.heavy_frame = true;
  }
  if (!cell.few && share.reaches(50) && !share.reaches(80)) cell.ground = kSome;
  return cell;
}

// The counts that the state rests on, the state, and how sure they are.
GridCell state_cell(const PatternProgress& p) {
  GridCell cell = share_cell(p.window, std::string(state_name(p.state)));
  cell.figure += ", " + likely_short(p.window);
  cell.heard += ", " + likely_text(p.window);
  return cell;
}

void add_legend(Composer& c) {
  add_paragraph(
      c, c.style().teacher_text(),
      "Right out of all. No frame: 80% or more; thin frame: 50 to 79%; heavy: "
      "under half; dashed: fewer than five, so no percentage.",
      {.space_before = 2_mm});
}

// Who needs to come back to the same pattern.
void add_needs(Composer& c, std::span<const LearnerProgress> learners,
               const PatternCatalogue& catalogue) {
  std::map<PatternId, std::array<std::vector<LearnerCode>, 2>> needs;
  for (const LearnerProgress& learner : learners) {
    for (const PatternProgress& p : learner.patterns) {
      const bool slipped = p.state == ProgressState::check_again;
      if (!slipped && p.state != ProgressState::practising) continue;
      needs[p.pattern][slipped ? 0 : 1].push_back(learner.code);
    }
  }
  if (needs.empty()) return;
  add_report_heading(c, "Who needs the same pattern");
  Table table(c, {{"Pattern", 2},
                  {.title = "Check again", .share = 2, .none = "nobody"},
                  {.title = "Still practising", .share = 2, .none = "nobody"}});
  for (const auto& [pattern, codes] : needs) {
    table.add_text_row({std::string(catalogue[pattern].name),
                        codes_text(codes[0]), codes_text(codes[1])},
                       true);
  }
}

// When the group last wrote a word with each pattern.
GridRow last_seen_row(std::span<const LearnerProgress> learners,
                      std::span<const PatternId> patterns) {
  GridRow row{.head = "Last seen", .cells = {}};
  for (const PatternId pattern : patterns) {
    Date last;
    for (const LearnerProgress& learner : learners) {
      if (const PatternProgress* p = learner.find(pattern)) {
        last = std::max(last, p->last);
      }
    }
    row.cells.push_back({.figure = short_date(last), .below = {}});
  }
  return row;
}

}  // namespace

void add_group_report(const ReportMaker& maker,
                      std::span<const LearnerProgress> learners,
                      const ProgressGround& ground) {
  std::vector<PatternId> patterns;
  for (const LearnerProgress& learner : learners) {
    for (const PatternProgress& p : learner.patterns) {
      if (std::ranges::find(patterns, p.pattern) == patterns.end()) {
        patterns.push_back(p.pattern);
      }
    }
  }
  std::vector<std::string> heads;
  for (const PatternId pattern : patterns) {
    heads.push_back(column_title(ground.catalogue[pattern]));
  }
  std::vector<GridRow> rows;
  for (const LearnerProgress& learner : learners) {
    GridRow row{.head = learner.code.text(), .cells = {}};
    for (const PatternId pattern : patterns) {
      const PatternProgress* p = learner.find(pattern);
      row.cells.push_back(
          p == nullptr
              ? GridCell{.figure = {}, .below = {}, .heard = "not taught"}
              : state_cell(*p));
    }
    rows.push_back(std::move(row));
  }
  if (!patterns.empty()) rows.push_back(last_seen_row(learners, patterns));
  add_report(maker,
             {.heading = "The group",
              .title = {},
              .code = last_day_text(learners),
              .bookmark = "Progress of the group",
              .caution = kPageCaution,
              .text_size = kGroupText},
             [&](Composer& c) {
               add_grid(c, "Learner", heads, rows, 24_mm, 34_mm);
               add_legend(c);
               add_needs(c, learners, ground.catalogue);
               add_rules(c, ground.rules);
             });
}

}  // namespace sheaf
