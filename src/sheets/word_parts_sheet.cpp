// The learner builds words of a base and an ending and says what changed, says
// long words in beats, and learns the part of a word that does not say its
// usual sound; each word is written whole. On the page: base + ending = a line
// to write on, with the changes to choose from; rows of syllables; words with
// the unusual grapheme on a grey ground. Parts that the lesson has no word for
// are left out.

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "layout/heard.h"
#include "layout/numbered_steps.h"
#include "layout/ruled_lines.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"
#include "sheets/word_parts_content.h"

namespace sheaf::word_parts_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    {"words", Kind::count, "8", "most words in each part of the sheet", "1",
     "40"},
    {"endings", Kind::flag, "yes", "words of a base and an ending"},
    {"syllables", Kind::flag, "yes", "long words by syllables"},
    {"irregular", Kind::flag, "yes",
     "words with a grapheme that does not say its usual sound"},
};

constexpr Length kGap = 4_mm;
constexpr Length kBetweenItems = 6_mm;

// What all rows of one part share: printed parts from the left, the line to
// write on behind them where it fits all words, else below.
struct Plan {
  Ruling ruling;
  TextStyle text;
  Length line_left;
  bool below = false;
  Length height() const {
    return set_height(ruling) + (below ? set_pitch(ruling) : Length());
  }
};

// The size of words at which what is printed of all of them, as `measure` says,
// fits the page.
template <typename Measure>
TextStyle fitted_words(const Composer& c, Measure measure) {
  TextStyle style = c.style().text(c.style().word_size);
  for (int tries = 0; tries < 6 && measure(style) > c.width(); ++tries) {
    style = fitted_style(style, measure(style), c.width());
    style.size = scaled(style.size, 0.98);
  }
  return style;
}

Plan plan_rows(const SheetInput& in, const Composer& c, const TextStyle& text,
               Length printed, Length by_hand) {
  Plan plan;
  plan.ruling = ruling_of(in, c.style());
  plan.text = text;
  plan.line_left = printed + kGap;
  plan.below = c.width() - plan.line_left < scaled(by_hand, 1.1);
  return plan;
}

void draw_writing_line(Composer& c, Block& block, const Plan& plan,
                       ElementId parent) {
  const ElementId line = add_writing_lines(c, parent);
  if (plan.below) {
    draw_set(block, c.style(), plan.ruling, {0_mm, set_pitch(plan.ruling)},
             c.width(), line);
  } else {
    draw_set(block, c.style(), plan.ruling, {plan.line_left, 0_mm},
             c.width() - plan.line_left, line);
  }
}

void add_heading(Composer& c, std::string_view text) {
  add_subheading(c, c.style().text_size, text,
                 c.blocks().empty() ? 0_mm : 9_mm);
}

Block& add_item_block(Composer& c, Length height, bool first) {
  return c.block(height, first ? 2.5_mm : kBetweenItems);
}

Length by_hand(const SheetInput& in, const AnalyzedWord& word) {
  return hand_width(word.reading.word, in.options.length("line-height"));
}

constexpr Length kFramePad = 2.5_mm;  // beside text in a frame
constexpr Length kFrameGap = 3_mm;    // between two frames

Length framed_width(Composer& c, const TextStyle& style,
                    std::string_view text) {
  return width_of(c.shape(style, text)) + 2 * kFramePad;
}

// Text in the middle of a frame as tall as a line of it.
void draw_framed(Composer& c, Block& block, const TextStyle& style,
                 std::string_view text, Point base, Length width,
                 ElementId element) {
  const Length own = width_of(c.shape(style, text));
  draw_text(c, block, style, text, {base.x + (width - own) / 2, base.y},
            element);
  block.frame(
      {base.x, base.y - baseline_in_line(style), width, style.line_height()},
      {.width = c.style().box_weight});
}

// The changes to choose from: the four usual ones, and what else happened to
// some word of the lesson.
std::vector<std::string_view> changes_of(const std::vector<Built>& words) {
  std::vector<std::string_view> changes = {"nothing", "double", "drop e",
                                           "y to i"};
  constexpr std::array<std::pair<Joint, std::string_view>, 3> kOthers = {{
      {Joint::f_to_v, "f to v"},
      {Joint::c_to_ck, "c to ck"},
      {Joint::ie_to_y, "ie to y"},
  }};
  for (const auto& [joint, name] : kOthers) {
    const auto has = [&, wanted = joint](const Built& b) {
      return b.parts.joint == wanted;
    };
    if (std::ranges::any_of(words, has)) changes.push_back(name);
  }
  return changes;
}

void draw_changes(Composer& c, Block& block, const TextStyle& style,
                  const std::vector<std::string_view>& changes, Length base,
                  ElementId row) {
  const ElementId list = c.add(Role::list, add_data_cell(c, row));
  const Length step = c.width() / static_cast<std::int64_t>(changes.size());
  for (std::size_t i = 0; i < changes.size(); ++i) {
    const Length left = step * static_cast<std::int64_t>(i);
    const auto [label, body] = add_list_item(c, list);
    draw_tick_box(block, c.style(), style, {left, base},
                  add_tick_boxes(c, label));
    draw_text(c, block, style, changes[i],
              {left + tick_side(style) + 2_mm, base}, body);
  }
}

// Where base, signs and ending stand in all rows.
struct BuiltColumns {
  Length base;    // right edge of the base
  Length sign;    // room for + or =
  Length ending;  // width of the ending's frame
  Length width() const { return base + ending + 2 * sign - kGap; }
};

BuiltColumns built_columns(Composer& c, const TextStyle& style,
                           const std::vector<Built>& words) {
  BuiltColumns columns;
  columns.sign = width_of(c.shape(style, "+")) + 2 * kGap;
  for (const Built& b : words) {
    columns.base =
        std::max(columns.base, width_of(c.shape(style, b.parts.base)));
    columns.ending = std::max(
        columns.ending, framed_width(c, style, ending_text(b.parts.ending)));
  }
  return columns;
}

// The cell for what comes of it.
ElementId draw_sum(Composer& c, Block& block, const TextStyle& style,
                   const BuiltColumns& columns, const Built& b, Length base,
                   ElementId row) {
  Length x = columns.base;
  draw_text(c, block, style, b.parts.base,
            {x - width_of(c.shape(style, b.parts.base)), base},
            add_head_cell(c, row, Scope::row));
  const std::string_view ending = ending_text(b.parts.ending);
  const ElementId added =
      add_heard(c, add_data_cell(c, row), fmt::format("plus {}", ending));
  draw_text(c, block, style, "+", {x + kGap, base}, added);
  x += columns.sign;
  draw_framed(c, block, style, ending, {x, base}, columns.ending, added);
  x += columns.ending;
  const ElementId result = add_data_cell(c, row);
  draw_text(c, block, style, "=", {x + kGap, base},
            add_heard(c, result, "equals"));
  return result;
}

void add_built(const SheetInput& in, Composer& c,
               const std::vector<Built>& words) {
  if (words.empty()) return;
  const TextStyle style = fitted_words(c, [&](const TextStyle& s) {
    return built_columns(c, s, words).width();
  });
  const BuiltColumns columns = built_columns(c, style, words);
  Length hand;
  for (const Built& b : words) hand = std::max(hand, by_hand(in, *b.word));
  const Plan plan = plan_rows(in, c, style, columns.width(), hand);
  const TextStyle text = c.style().learner_text();
  const std::vector<std::string_view> changes = changes_of(words);
  const TextStyle small =
      fitted_style(text, width_of(c.shape(text, changes.front())),
                   c.width() / static_cast<std::int64_t>(changes.size()) -
                       tick_side(text) - 4_mm);
  add_heading(c, "Put it together. What changed?");
  const ElementId table = c.add(Role::table);
  for (const Built& b : words) {
    Block& block = add_item_block(c, plan.height() + 2_mm + small.line_height(),
                                  b.word == words.front().word);
    const From from(c, b.word->spelling.span);
    const ElementId row = c.add(Role::table_row, table);
    const ElementId result = draw_sum(c, block, plan.text, columns, b,
                                      base_in_set(plan.ruling), row);
    draw_writing_line(c, block, plan, result);
    draw_changes(c, block, small, changes,
                 plan.height() + 2_mm + baseline_in_line(small), row);
  }
}

Length syllables_width(Composer& c, const TextStyle& style,
                       const std::vector<Divided>& words) {
  Length widest;
  for (const Divided& d : words) {
    Length width = -kFrameGap;
    for (const std::string& s : d.syllables) {
      width += framed_width(c, style, s) + kFrameGap;
    }
    widest = std::max(widest, width);
  }
  return widest;
}

void add_divided(const SheetInput& in, Composer& c,
                 const std::vector<Divided>& words) {
  if (words.empty()) return;
  const TextStyle style = fitted_words(
      c, [&](const TextStyle& s) { return syllables_width(c, s, words); });
  Length hand;
  for (const Divided& d : words) hand = std::max(hand, by_hand(in, *d.word));
  const Plan plan =
      plan_rows(in, c, style, syllables_width(c, style, words), hand);
  add_heading(c, "Say it in beats. Write it whole.");
  const ElementId list = c.add(Role::list);
  for (const Divided& d : words) {
    Block& block =
        add_item_block(c, plan.height(), d.word == words.front().word);
    const From from(c, d.word->spelling.span);
    const ElementId body = add_list_body(c, list);
    const ElementId element = add_heard(c, body, heard_parts(d.syllables));
    Length x;
    for (const std::string& s : d.syllables) {
      const Length width = framed_width(c, style, s);
      draw_framed(c, block, style, s, {x, base_in_set(plan.ruling)}, width,
                  element);
      x += width + kFrameGap;
    }
    draw_writing_line(c, block, plan, body);
  }
}

// "said, ai underlined"; "come, o with e underlined".
std::string heard_shaded(const Irregular& item) {
  std::vector<std::string> parts;
  for (const Grapheme& g : graphemes_of(*item.word)) {
    if (!g.shaded) continue;
    parts.push_back(item.text.substr(g.begin, g.end - g.begin));
    if (g.split_e != std::string_view::npos) {
      parts.back() += " with " + item.text.substr(g.split_e, 1);
    }
  }
  return fmt::format("{}, {} underlined", item.text, fmt::join(parts, " and "));
}

// The word with a line under its unusual graphemes.
void draw_shaded(Composer& c, Block& block, const TextStyle& style,
                 const Irregular& item, Point base, ElementId element) {
  const GlyphRun run = c.shape(style, item.text);
  const Length top = base.y - baseline_in_line(style);
  const Length pad = style.size / 16;
  const auto shade = [&](std::size_t begin, std::size_t end) {
    const InkSpan ink = ink_of(run, begin, end);
    draw_underlined_ground(block, c.style(),
                           {base.x + ink.left - pad, top, ink.width() + 2 * pad,
                            style.line_height()});
  };
  for (const Grapheme& g : graphemes_of(*item.word)) {
    if (!g.shaded) continue;
    shade(g.begin, g.end);
    if (g.split_e != std::string_view::npos) shade(g.split_e, g.split_e + 1);
  }
  block.glyphs(run, base, element);
}

void add_irregular_words(const SheetInput& in, Composer& c,
                         const std::vector<Irregular>& words) {
  if (words.empty()) return;
  const auto measure = [&](const TextStyle& s) {
    return widest_text(c, s, words, &Irregular::text);
  };
  const TextStyle style = fitted_words(c, measure);
  Length hand;
  for (const Irregular& item : words) {
    hand = std::max(hand, by_hand(in, *item.word));
  }
  const Plan plan = plan_rows(in, c, style, measure(style), hand);
  add_heading(c, "Look at the underlined part. Write the word.");
  const ElementId list = c.add(Role::list);
  for (const Irregular& item : words) {
    Block& block =
        add_item_block(c, plan.height(), item.word == words.front().word);
    const From from(c, item.word->spelling.span);
    const ElementId body = add_list_body(c, list);
    draw_shaded(c, block, plan.text, item, {0_mm, base_in_set(plan.ruling)},
                add_heard(c, body, heard_shaded(item)));
    draw_writing_line(c, block, plan, body);
  }
}

void compose(const SheetInput& in, Composer& c) {
  const WordParts content = word_parts_of(in);
  add_built(in, c, content.built);
  add_divided(in, c, content.divided);
  add_irregular_words(in, c, content.irregular);
  even_pages(c.blocks(), c.body().height);
}

// A few unusual words alone are no sheet.
constexpr std::size_t kLeastIrregular = 3;

std::string missing(const SheetInput& in) {
  const WordParts content = word_parts_of(in);
  const bool enough = !content.built.empty() || !content.divided.empty() ||
                      content.irregular.size() >= kLeastIrregular;
  return enough ? "" : "no word of the list has an ending or several syllables";
}

void answers(const SheetInput& in, Composer& c) {
  const WordParts content = word_parts_of(in);
  const TextStyle plain = c.style().teacher_text();
  for (const Built& b : content.built) {
    const From from(c, b.word->spelling.span);
    add_paragraph(c, plain,
                  fmt::format("{} + {} = {}: {}", b.parts.base,
                              ending_text(b.parts.ending), b.word->reading.word,
                              change_name(b.parts.joint)));
  }
  for (const Divided& d : content.divided) {
    std::string text;
    for (const std::string& s : d.syllables) {
      text += (text.empty() ? "" : " · ") + s;
    }
    const From from(c, d.word->spelling.span);
    add_paragraph(c, plain, text + " = " + d.word->reading.word);
  }
  for (const Irregular& item : content.irregular) {
    std::string text = item.text + ": ";
    bool first = true;
    for (const Unit& unit : item.word->reading.units) {
      if (!unit.irregular) continue;
      text += (first ? "" : ", ") + unit.grapheme + " says " +
              said(in.lesson, unit.phonemes);
      first = false;
    }
    const From from(c, item.word->spelling.span);
    add_paragraph(c, plain, text);
  }
}

const SheetKind kKind = {
    .name = "word-parts",
    .title = "Parts of words",
    .direction = "Say the parts. Say the word. Write it whole.",
    .action = Action::say,
    .summary = "base and ending, syllables, and the unusual part of a word",
    .minutes = 10,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::word_parts_sheet
