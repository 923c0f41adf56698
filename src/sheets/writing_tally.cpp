// For the teacher, over a learner's journal or other free writing: learners
// down, patterns across, room for a stroke each time a pattern came out right
// or wrong. The lesson's patterns stand at the left; columns without a name
// are for those of other weeks.

#include <fmt/format.h>

#include <algorithm>

#include "layout/fill_in.h"
#include "layout/heard.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/learner_table.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::writing_tally_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    kLearnersOption,
    {"other-patterns", Kind::count, "2",
     "columns without a name, for patterns of other weeks", "0", "4"},
    learner_row_height_option("15 mm", "8 mm", "40 mm"),
    kNameWidthOption,
};

constexpr Length kPad = kLearnerPad;

struct Plan {
  std::vector<std::string> patterns;  // empty for one to be named by hand
  Length name;
  Length width;  // of a pattern's two columns
};

// "ai  (rain, sail)": graphemes and two words; a pattern without graphemes has
// its name.
std::string pattern_text(const SheetInput& in, std::size_t index) {
  const LessonPattern& pattern = in.lesson.patterns[index];
  std::string text;
  for (const std::string& g : pattern.graphemes) {
    text += (text.empty() ? "" : ", ") + g;
  }
  if (text.empty()) text = pattern.name;
  std::string words;
  int count = 0;
  for (const AnalyzedWord& word : in.lesson.words) {
    if (!word.hits[index].has || count == 2) continue;
    words += (words.empty() ? "" : ", ") + word.reading.word;
    ++count;
  }
  return words.empty() ? text : fmt::format("{} ({})", text, words);
}

// Fewer columns without a name where "right" and "wrong" would not fit.
Plan plan_columns(const SheetInput& in, Composer& c) {
  Plan plan;
  plan.name = in.options.length("name-width");
  const Length room = c.width() - plan.name;
  const Length least =
      2 * (width_of(c.shape(c.style().teacher_text(), "wrong")) + 2 * kPad);
  for (std::size_t i = 0; i < in.lesson.patterns.size(); ++i) {
    plan.patterns.push_back(pattern_text(in, i));
  }
  const auto own = static_cast<std::int64_t>(plan.patterns.size());
  const auto others = std::clamp<std::int64_t>(
      room / least - own, 0, in.options.count("other-patterns"));
  plan.patterns.resize(static_cast<std::size_t>(own + others));
  plan.width = room / (own + others);
  return plan;
}

void draw_walls(Composer& c, Block& block, const Plan& plan) {
  const Stroke thin = thin_stroke(c.style());
  const Stroke wall{.width = c.style().box_weight};
  block.line({0_mm, 0_mm}, {0_mm, block.height}, wall);
  Length x = plan.name;
  for (std::size_t i = 0; i < plan.patterns.size(); ++i) {
    block.line({x, 0_mm}, {x, block.height}, wall);
    x += plan.width;
  }
  block.line({x, 0_mm}, {x, block.height}, wall);
  block.line({0_mm, block.height}, {x, block.height}, thin);
}

// Between "right" and "wrong".
void draw_middles(Composer& c, Block& block, const Plan& plan, Length top) {
  const Stroke thin = slot_stroke(c.style());
  Length x = plan.name + plan.width / 2;
  for (std::size_t i = 0; i < plan.patterns.size(); ++i) {
    block.line({x, top}, {x, block.height}, thin);
    x += plan.width;
  }
}

void add_head(Composer& c, const Plan& plan, ElementId table) {
  const TextStyle text = c.style().teacher_text();
  const TextStyle bold = c.style().text(c.style().teacher_size, true);
  std::vector<std::vector<TextLine>> names;
  std::size_t tallest = 1;
  for (const std::string& name : plan.patterns) {
    names.push_back(break_lines(c, bold, name, plan.width - 2 * kPad));
    tallest = std::max(tallest, names.back().size());
  }
  const Length line = text.line_height();
  const Length lower = 1_mm + line * static_cast<std::int64_t>(tallest);
  Block& block = c.block(lower + line + 1_mm, 6_mm);
  block.keep_with_next = true;
  block.shade({0_mm, 0_mm, c.width(), block.height}, kHeadGround);
  // Two tiers: each pattern stands over "right" and "wrong".
  const ElementId upper_row = c.add(Role::table_row, table);
  const ElementId lower_row = c.add(Role::table_row, table);
  const Length base = lower + baseline_in_line(text);
  draw_learner_head(c, block, {kPad, base}, plan.name - 2 * kPad, upper_row, 2);
  Length x = plan.name;
  for (const std::vector<TextLine>& name : names) {
    const ElementId over = c.add({.role = Role::header_cell,
                                  .parent = upper_row,
                                  .scope = Scope::column,
                                  .columns = 2});
    Length y = 1_mm + baseline_in_line(text);
    for (const TextLine& part : name) {
      draw_line(c, block, part, {x + kPad, y}, over);
      y += line;
    }
    if (name.empty()) {
      block.line({x + kPad, lower - 1_mm},
                 {x + plan.width - kPad, lower - 1_mm}, thin_stroke(c.style()),
                 add_blank(c, over));
    }
    draw_text(c, block, text, "right", {x + kPad, base},
              add_head_cell(c, lower_row));
    draw_text(c, block, text, "wrong", {x + plan.width / 2 + kPad, base},
              add_head_cell(c, lower_row));
    x += plan.width;
  }
  draw_middles(c, block, plan, lower);
  draw_walls(c, block, plan);
  block.line({0_mm, 0_mm}, {c.width(), 0_mm}, {.width = c.style().box_weight});
}

void compose(const SheetInput& in, Composer& c) {
  const TextStyle text = c.style().teacher_text();
  add_paragraph(c, text,
                "Go through the learner's own writing. Make a stroke each time "
                "a pattern is wanted: right or wrong. Look at that part of the "
                "word only, and pass over words that were copied.");
  add_fill_in_lines(c, {"Writing from", "to"}, 3_mm);
  const Plan plan = plan_columns(in, c);
  const ElementId table = c.add(Role::table);
  add_head(c, plan, table);
  add_learner_rows(in, c, table, 2 * plan.patterns.size(), [&](Block& block) {
    draw_middles(c, block, plan, 0_mm);
    draw_walls(c, block, plan);
  });
  add_caution_below(c, 5_mm);
  even_pages(c.blocks(), c.body().height);
}

const SheetKind kKind = {
    .name = "writing-tally",
    .title = "Tally of free writing",
    .summary = "learners down and patterns across, room for strokes",
    .for_teacher = true,
    .options = kOptions,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::writing_tally_sheet
