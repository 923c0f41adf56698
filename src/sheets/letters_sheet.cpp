// The learner writes the letters of the week's grapheme, or others, the way the
// pencil goes. On the page, a row each: at the left, or at the right where the
// left hand would cover it, a large model on ruled lines, with a dot where each
// stroke starts, its number and arrows; beside it lines as tall as the learner
// writes. On the first of them dotted letters to go over, fewer dots from
// letter to letter until only the starts are left; then room to write alone. A
// last page with fewer rows has more lines in each.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/letter_model.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/letters_content.h"
#include "sheets/sheet.h"

namespace sheaf::letters_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    {"letters", Kind::letters, "",
     "letters and graphemes to write, as in b d sh a_e; none: the grapheme of "
     "the "
     "week and its letters"},
    {"capitals", Kind::flag, "no", "after each small letter its capital"},
    {.name = "order",
     .kind = Kind::choice,
     .fallback = "as-given",
     .help = "of the rows; in families letters that begin with the same "
             "movement stand together",
     .choices = "as-given alphabet families"},
    {.name = "hand",
     .kind = Kind::choice,
     .fallback = "both",
     .help = "the model at the left, at the right for those who write with the "
             "left hand, or at the left with a small one at the right",
     .choices = "right left both"},
    {"copies", Kind::count, "6", "dotted letters on the first line of a row",
     "1", "12"},
    {"lines", Kind::count, "0", "lines in a row; 0: as many as fill the page",
     "0", "6"},
};

constexpr Length kLeastModel = 11_mm;  // small letters of a model
constexpr Length kMostModel = 20_mm;
constexpr Length kBesideModel = 6_mm;
constexpr Length kBetweenRows = 7_mm;
constexpr Length kMostBetween = 16_mm;
constexpr Length kIndent = 4_mm;  // before the first letter on a line
constexpr int kMostLines = 6;
// What signs take above the top line and below the lowest, by x-height.
constexpr double kAbove = 0.34, kBelow = 0.12;

struct Plan {
  Ruling ruling;
  int lines = 1;  // in a row
  int per_page = 1;
  Length model;   // small letters of the models
  Length column;  // the width of their ruling
  bool left = false, small = false;
  Length row;  // its height
  Length between = kBetweenRows;

  Length above() const { return scaled(model, kAbove); }
  Length model_height() const { return scaled(model, 3 + kAbove + kBelow); }
};

Length lines_height(const Ruling& ruling, int lines) {
  return set_pitch(ruling) * lines - ruling.gap;
}

// The models as large as the row is high; all of a sheet alike, and none takes
// more than two fifths of the width.
void fit_models(Composer& c, const std::vector<std::string>& rows, Plan& plan) {
  const Length high =
      scaled(lines_height(plan.ruling, plan.lines), 1 / (3 + kAbove + kBelow));
  plan.model = std::clamp(high, kLeastModel, kMostModel);
  const Length most = c.width() * 2 / 5;
  Length pad;
  for (int tries = 0; tries < 20; ++tries) {
    pad = plan.model / 3;
    plan.column = Length();
    for (const std::string& row : rows) {
      const LetterModel model = plan_letter_model(c, row, plan.model);
      plan.column = std::max(plan.column, model.width() + 2 * pad);
    }
    if (plan.column <= most) break;
    plan.model = scaled(plan.model, 0.93);
  }
  plan.column = std::max(plan.column, 3 * plan.model);
}

Plan plan_rows(const SheetInput& in, Composer& c,
               const std::vector<std::string>& rows) {
  Plan plan;
  plan.ruling = ruling_of(in, c.style());
  const std::string& hand = in.options.choice("hand");
  plan.left = hand == "left";
  plan.small = hand == "both";
  // Two lines, and no row lower than the least model.
  const int asked = in.options.count("lines");
  const Length least = scaled(kLeastModel, 3 + kAbove + kBelow);
  plan.lines = asked > 0 ? asked : 1;
  while (asked == 0 && plan.lines < kMostLines &&
         (plan.lines < 2 || lines_height(plan.ruling, plan.lines) < least)) {
    ++plan.lines;
  }
  // A row stands on one page.
  while (plan.lines > 1 &&
         lines_height(plan.ruling, plan.lines) > c.body().height) {
    --plan.lines;
  }
  const auto row_height = [&](int lines) {
    return std::max(least, lines_height(plan.ruling, lines));
  };
  const auto fitting = [&](int lines) {
    return static_cast<int>((c.body().height + kBetweenRows) /
                            (row_height(lines) + kBetweenRows));
  };
  const int most = std::max(1, fitting(plan.lines));
  plan.per_page = even_rows(static_cast<int>(rows.size()), most);
  // More to write where the page has room.
  while (asked == 0 && plan.lines < kMostLines &&
         fitting(plan.lines + 1) >= plan.per_page) {
    ++plan.lines;
  }
  fit_models(c, rows, plan);
  plan.row =
      std::max(plan.model_height(), lines_height(plan.ruling, plan.lines));
  if (plan.per_page > 1) {
    const Length left = c.body().height - plan.row * plan.per_page;
    plan.between =
        std::clamp(left / (plan.per_page - 1), kBetweenRows, kMostBetween);
  }
  return plan;
}

// The same for fewer rows on the last page.
Plan plan_of_last(const SheetInput& in, const Composer& c, const Plan& plan,
                  int rows) {
  Plan last = plan;
  if (in.options.count("lines") > 0) return last;
  const auto height = [&](int lines) {
    return std::max(plan.model_height(), lines_height(plan.ruling, lines));
  };
  while (last.lines < kMostLines &&
         height(last.lines + 1) * rows + plan.between * (rows - 1) <=
             c.body().height) {
    ++last.lines;
  }
  last.row = height(last.lines);
  return last;
}

void draw_model(Composer& c, Block& block, const Plan& plan,
                const std::string& row, Length left, ElementId body) {
  std::string words = fmt::format("{}, a model", heard_row(row));
  if (letters_in(row).size() == 1) {
    words += ": " + strokes_in_words(row.front());
  }
  const ElementId element = c.add(Role::figure, body, std::move(words));
  Ruling ruling = plan.ruling;
  ruling.x_height = plan.model;
  const Point at{left, plan.above()};
  draw_set(block, c.style(), ruling, at, plan.column, element);
  const LetterModel model = plan_letter_model(c, row, plan.model);
  draw_letter_model(c, block, model,
                    {left + (plan.column - model.width()) / 2 + model.left(),
                     at.y + base_in_set(ruling)},
                    element);
}

// Where a line has its letters: from left to right, and a small model last.
struct Line {
  Length left, right, base;
  Length small;  // where the small model stands, or the right end
};

// Dots and their distance: from letter to letter fewer, and for the last of
// several the starts alone.
void draw_copies(const SheetInput& in, Block& block, const Plan& plan,
                 const std::string& row, const Line& line, ElementId element) {
  const Length x_height = plan.ruling.x_height;
  const Length wide = strokes_width(row, x_height);
  const Length least = wide + scaled(x_height, 0.9);
  const Length room = line.small - line.left - kIndent;
  const auto copies = std::max<std::int64_t>(
      1, std::min<std::int64_t>(in.options.count("copies"), room / least));
  const Length step = std::min(room / copies, scaled(least, 1.8));
  const Length dot = std::clamp(x_height / 13, 1_pt, 1.8_pt);
  const Length near = std::max(scaled(dot, 2.3), x_height / 9);
  for (std::int64_t i = 0; i < copies; ++i) {
    const Point at{line.left + kIndent + step * i, line.base};
    const double faded =
        copies == 1 ? 0 : static_cast<double>(i) / static_cast<double>(copies);
    if (faded < 0.8) {
      draw_dotted_strokes(block, row, x_height, at, dot,
                          scaled(near, 1 + faded * 1.3), element);
    }
    draw_start_dots(block, row, x_height, at, scaled(dot, 2), element);
  }
}

void add_row(const SheetInput& in, Composer& c, const Plan& plan,
             const std::string& row, ElementId list) {
  const From from(c, in.options.span("letters"));
  Block& block = c.block(plan.row, plan.between);
  const ElementId body = add_list_body(c, list);
  const Length beside = plan.column + kBesideModel;
  draw_model(c, block, plan, row, plan.left ? c.width() - plan.column : 0_mm,
             body);
  const Length left = plan.left ? 0_mm : beside;
  const Length width = c.width() - beside;
  const Length x_height = plan.ruling.x_height;
  const Length wide = strokes_width(row, x_height);
  const ElementId dotted = add_heard(
      c, body, fmt::format("{} in dots, to go over.", heard_row(row)));
  const Length top = std::max(
      Length(), (plan.row - lines_height(plan.ruling, plan.lines)) / 2);
  ElementId small = kDecoration;
  Block letters;
  for (int i = 0; i < plan.lines; ++i) {
    const Length y = top + set_pitch(plan.ruling) * i;
    Line line{left, left + width, y + base_in_set(plan.ruling), left + width};
    if (plan.small && line.right - line.left > 4 * wide) {
      line.small = line.right - wide - kIndent;
      // All of them are heard at the first.
      if (i == 0) {
        small =
            add_heard(c, body,
                      fmt::format("{} again at the right, for the left hand.",
                                  heard_row(row)));
      }
      draw_pen_strokes(letters, row, x_height, {line.small, line.base},
                       std::max(x_height / 12, 1_pt), small);
      line.small -= x_height;
    }
    if (i == 0) draw_copies(in, letters, plan, row, line, dotted);
  }
  // Lines are drawn under the letters and heard last.
  const ElementId lines = add_writing_lines(c, body, plan.lines);
  for (int i = 0; i < plan.lines; ++i) {
    draw_set(block, c.style(), plan.ruling,
             {left, top + set_pitch(plan.ruling) * i}, width, lines);
  }
  block.marks.insert(block.marks.end(), letters.marks.begin(),
                     letters.marks.end());
}

void compose(const SheetInput& in, Composer& c) {
  const std::vector<std::string> rows = rows_of(in);
  const Plan plan = plan_rows(in, c, rows);
  const ElementId list = c.add(Role::list);
  const auto count = static_cast<int>(rows.size());
  const int on_last = count % plan.per_page;
  const int first_of_last = on_last == 0 ? count : count - on_last;
  const Plan last = plan_of_last(in, c, plan, on_last);
  for (int i = 0; i < count; ++i) {
    add_row(in, c, i < first_of_last ? plan : last,
            rows[static_cast<std::size_t>(i)], list);
    c.blocks().back().new_page = i > 0 && i % plan.per_page == 0;
  }
  c.blocks().front().space_before = Length();
}

std::string missing(const SheetInput& in) {
  return rows_of(in).empty()
             ? "its pattern is about no letters of its own; its option "
               "`letters` names some"
             : "";
}

Direction other_direction(const SheetInput& in) {
  if (!in.plain_voice) return {};
  return {"Start at the dot and follow the arrows, then write alone."};
}

const SheetKind kKind = {
    .name = "letters",
    .title = "Write the letters",
    .direction = "Start at the dot. Follow the arrows. Then write it alone.",
    .action = Action::write,
    .other_direction = other_direction,
    .summary =
        "how each letter is written: a model with arrows, dotted letters "
        "to go over, lines",
    .part = DayPart::spell,
    .minutes = 8,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = script,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::letters_sheet
