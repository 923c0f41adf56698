// For the teacher, beside the pages of a placement check: learners down, a cell
// for each word of part one, then the step at which part two began and a cell
// for each of its words, three by three. A word that was wrong gets a stroke;
// the walls between steps are heavy, and so is the one before the sum.

#include <fmt/format.h>

#include <algorithm>

#include "layout/fill_in.h"
#include "layout/heard.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/learner_table.h"
#include "sheets/placement_parts.h"
#include "sheets/sheet.h"

namespace sheaf::placement_marks_sheet {
namespace {

using namespace literals;

constexpr OptionSpec kOptions[] = {
    kLearnersOption,
    learner_row_height_option("8 mm", "6 mm", "20 mm"),
    {.name = "name-width",
     .kind = OptionSpec::Kind::length,
     .fallback = "24 mm",
     .help = "room for a learner's name",
     .least = "15 mm",
     .most = "60 mm"},
};

constexpr Length kPad = kLearnerPad;
constexpr Length kStepWidth = 24_mm;  // where part two began

// A table of this page: what stands above its columns, and behind which of
// them a heavy wall stands.
struct Grid {
  std::vector<std::string> heads;  // above a cell
  std::vector<std::string> heard;  // the same, as it is said
  std::vector<std::string> below;  // a second line; may be empty
  std::size_t group = 0;           // so many cells belong together
  std::string first_column;        // before the cells; empty for none
};

Length cell_width(const Grid& grid, const SheetInput& in, Composer& c) {
  const Length wide = grid.first_column.empty() ? 0_mm : kStepWidth;
  return (c.width() - in.options.length("name-width") - wide) /
         static_cast<std::int64_t>(grid.heads.size());
}

void draw_walls(const SheetInput& in, Composer& c, Block& block,
                const Grid& grid) {
  const Stroke thin = thin_stroke(c.style());
  const Stroke wall{.width = c.style().box_weight * 3 / 2};
  block.line({0_mm, 0_mm}, {0_mm, block.height}, wall);
  Length x = in.options.length("name-width");
  block.line({x, 0_mm}, {x, block.height}, wall);
  if (!grid.first_column.empty()) {
    x += kStepWidth;
    block.line({x, 0_mm}, {x, block.height}, wall);
  }
  const Length cell = cell_width(grid, in, c);
  for (std::size_t i = 1; i <= grid.heads.size(); ++i) {
    x += cell;
    const bool heavy = i % grid.group == 0 || i == grid.heads.size();
    block.line({x, 0_mm}, {x, block.height}, heavy ? wall : thin);
  }
  block.line({0_mm, block.height}, {x, block.height}, thin);
}

void add_head(const SheetInput& in, Composer& c, const Grid& grid,
              ElementId table) {
  const TextStyle bold = c.style().text(c.style().teacher_size, true);
  const TextStyle small = c.style().teacher_text();
  const Length first = 1_mm + baseline_in_line(bold);
  const bool two = !grid.below.empty();
  const Length second = first + small.line_height();
  Block& block = c.block((two ? second : first) + 2.5_mm, 2_mm);
  block.keep_with_next = true;
  block.shade({0_mm, 0_mm, c.width(), block.height}, kHeadGround);
  const ElementId row = c.add(Role::table_row, table);
  const Length name = in.options.length("name-width");
  draw_learner_head(c, block, {kPad, first}, name - 2 * kPad, row);
  Length x = name;
  if (!grid.first_column.empty()) {
    draw_text(c, block, bold, grid.first_column, {x + kPad, first},
              add_head_cell(c, row));
    x += kStepWidth;
  }
  const Length cell = cell_width(grid, in, c);
  for (std::size_t i = 0; i < grid.heads.size(); ++i) {
    const ElementId head = add_heard(c, add_head_cell(c, row), grid.heard[i]);
    draw_centred(c, block, bold, grid.heads[i], {x + cell / 2, first}, head);
    if (two) {
      draw_centred(c, block, small, grid.below[i], {x + cell / 2, second},
                   head);
    }
    x += cell;
  }
  draw_walls(in, c, block, grid);
  block.line({0_mm, 0_mm}, {c.width(), 0_mm}, {.width = c.style().box_weight});
}

void add_grid(const SheetInput& in, Composer& c, const Grid& grid) {
  const ElementId table = c.add(Role::table);
  add_head(in, c, grid, table);
  add_learner_rows(in, c, table,
                   grid.heads.size() + (grid.first_column.empty() ? 0 : 1),
                   [&](Block& block) { draw_walls(in, c, block, grid); });
}

Grid part_one_grid(const SheetInput& in, const PlacementCheck& check) {
  Grid grid;
  grid.group = check.part_one().size();
  for (std::size_t k = 0; k < check.part_one().size(); ++k) {
    const std::string& word = in.lesson.dictate_words[k].reading.word;
    grid.heads.push_back(fmt::format("{}", k + 1));
    grid.below.push_back(word);
    grid.heard.push_back(fmt::format("{}, {}", k + 1, word));
  }
  grid.heads.emplace_back("Right");
  grid.below.emplace_back("in all");
  grid.heard.emplace_back("right in all");
  return grid;
}

// Which words they are depends on the step that stands before them.
Grid part_two_grid(const PlacementCheck& check) {
  Grid grid;
  grid.first_column = "From step";
  const std::size_t words = check.most_in_part_two();
  const std::size_t steps =
      std::min(PlacementCheck::kAtOnce, check.rungs().size());
  grid.group = std::max<std::size_t>(1, (words + steps - 1) / steps);
  for (std::size_t i = 0; i < words; ++i) {
    grid.heads.push_back(fmt::format("{}", i + 1));
    grid.heard.push_back(fmt::format("word {}", i + 1));
  }
  return grid;
}

void compose(const SheetInput& in, Composer& c) {
  const TextStyle text = c.style().teacher_text();
  const PlacementCheck check(in.lesson);
  add_paragraph(c, text,
                "A stroke where the letters in bold are wrong, nothing where "
                "they are right, a dot where nothing was written.");
  add_fill_in_lines(c, {"Dictated on", "By"}, 3_mm);
  add_subheading(c, c.style().teacher_size, "Part one", 4_mm);
  add_grid(in, c, part_one_grid(in, check));
  add_subheading(c, c.style().teacher_size, "Part two", 6_mm);
  add_grid(in, c, part_two_grid(check));
  add_caution_below(c, 4_mm);
}

const SheetKind kKind = {
    .name = "placement-marks",
    .title = "Marks: where to begin",
    .summary = "learners down and the words of a placement check across",
    .for_teacher = true,
    .options = kOptions,
    .missing = placement_missing,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::placement_marks_sheet
