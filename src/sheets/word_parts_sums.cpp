#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>

#include "layout/heard.h"
#include "layout/numbered_steps.h"
#include "layout/table.h"
#include "phonics/letters.h"
#include "sheets/common_options.h"
#include "sheets/word_parts_rows.h"

namespace sheaf::word_parts_sheet {

using namespace literals;

namespace {

// What stands in the boxes of an item before the learner begins.
enum class Ticked { nothing, base, all };

// Where base, signs and ending stand in all rows.
struct SumColumns {
  Length base;    // right edge of the base
  Length sign;    // room for + or =
  Length ending;  // width of the ending's frame
  Length width() const { return base + ending + 2 * sign - kGap; }
};

SumColumns sum_columns(Composer& c, const TextStyle& style,
                       const std::vector<Built>& words) {
  SumColumns columns;
  columns.sign = width_of(c.shape(style, "+")) + 2 * kGap;
  for (const Built& b : words) {
    columns.base =
        std::max(columns.base, width_of(c.shape(style, b.parts.base)));
    columns.ending = std::max(
        columns.ending, framed_width(c, style, ending_text(b.parts.ending)));
  }
  return columns;
}

// The cell for what comes of it. A sum that is done stands in the box `model`.
ElementId draw_sum(Composer& c, Block& block, const TextStyle& style,
                   const SumColumns& columns, const Built& b, Point at,
                   ElementId row, const Rect* model = nullptr) {
  Length x = at.x + columns.base;
  const ElementId head = add_head_cell(c, row, Scope::row);
  if (model != nullptr) draw_model_frame(c, block, *model, head);
  draw_text(c, block, style, b.parts.base,
            {x - width_of(c.shape(style, b.parts.base)), at.y}, head);
  const std::string_view ending = ending_text(b.parts.ending);
  const ElementId added =
      add_heard(c, add_data_cell(c, row), fmt::format("plus {}", ending));
  draw_text(c, block, style, "+", {x + kGap, at.y}, added);
  x += columns.sign;
  draw_framed(c, block, style, ending, {x, at.y}, columns.ending, added);
  x += columns.ending;
  const ElementId result = add_data_cell(c, row);
  draw_text(c, block, style, "=", {x + kGap, at.y},
            add_heard(c, result, "equals"));
  return result;
}

// Two questions beside each other; yes to both says what to do.
struct QuestionLine {
  std::string first, second;
  std::string_view then;
  bool JoinQuestions::*first_yes = nullptr;
  bool JoinQuestions::*second_yes = nullptr;
  Joint change = Joint::plain;
};

// Who decides needs another answer that could be right, and no more: the
// changes of the sheet's own words, at least two of the three.
void keep_what_is_asked(std::vector<QuestionLine>& lines,
                        const std::vector<Built>& words) {
  const auto occurs = [&](Joint change) {
    return std::ranges::any_of(
        words, [&](const Built& b) { return b.parts.joint == change; });
  };
  std::vector<Joint> kept;
  for (const Joint change : {Joint::dropped_e, Joint::y_to_i, Joint::doubled}) {
    if (occurs(change)) kept.push_back(change);
  }
  for (const Joint change : {Joint::dropped_e, Joint::doubled}) {
    if (kept.size() < 2 && !occurs(change)) kept.push_back(change);
  }
  std::erase_if(lines, [&](const QuestionLine& line) {
    return line.first_yes != nullptr &&
           std::ranges::find(kept, line.change) == kept.end();
  });
}

// What the questions are, worded for all sums of the sheet alike.
std::vector<QuestionLine> question_lines(const std::vector<Built>& words) {
  const auto ends_as = [&](auto test) {
    return std::ranges::any_of(words, [&](const Built& b) {
      const std::string& base = b.parts.base;
      return base.size() > 1 && is_full_vowel_letter(base[base.size() - 2]) &&
             test(base.back());
    });
  };
  const bool has_w_x_y =
      ends_as([](char l) { return l == 'w' || l == 'x' || l == 'y'; });
  const bool has_ending_y = std::ranges::any_of(
      words, [](const Built& b) { return b.parts.ending == Ending::y; });
  const std::string vowel =
      has_ending_y ? "Is a vowel or y next?" : "Is a vowel next?";
  const std::string one_one = "Does it end in one vowel, one consonant";
  std::vector<QuestionLine> lines{
      {"Does it end in e?", vowel, "drop e", &JoinQuestions::ends_in_e,
       &JoinQuestions::vowel_next, Joint::dropped_e},
      {"Does it end in a consonant and y?", "Is no i next?", "y to i",
       &JoinQuestions::ends_in_consonant_y, &JoinQuestions::not_i_next,
       Joint::y_to_i},
      {one_one + (has_w_x_y ? " (not w, x, y)?" : "?"), vowel, "double",
       &JoinQuestions::ends_in_vowel_consonant, &JoinQuestions::vowel_next,
       Joint::doubled},
      {"Has no line two ticks?", "", "no change"}};
  keep_what_is_asked(lines, words);
  return lines;
}

// The questions as they stand below a sum, in three columns.
struct QuestionTable {
  std::vector<QuestionLine> lines;
  std::vector<std::vector<TextLine>> first;  // broken to their column
  TextStyle text, strong;
  Length box;     // from the left of a square to its text
  Length second;  // left edges, from that of the questions
  Length then;
  Length last_then;
  Length height;
};

QuestionTable plan_questions(Composer& c, const std::vector<Built>& words,
                             Length width) {
  QuestionTable table;
  table.lines = question_lines(words);
  table.text = c.style().learner_text();
  table.strong = c.style().text(c.style().text_size, true);
  table.box = tick_side(table.text) + 2_mm;
  Length second =
      widest_text(c, table.text, table.lines, &QuestionLine::second);
  // The last line has no second question beside its word.
  const Length then = widest_text(
      c, table.strong, std::span(table.lines).first(table.lines.size() - 1),
      &QuestionLine::then);
  table.then = width - then;
  table.last_then =
      width - width_of(c.shape(table.strong, table.lines.back().then));
  table.second = table.then - kGap - second - table.box;
  const Length room = table.second - kGap - table.box;
  for (const QuestionLine& line : table.lines) {
    const Length own =
        line.second.empty() ? table.last_then - kGap - table.box : room;
    table.first.push_back(break_lines(c, table.text, line.first, own));
    table.height += table.text.line_height() *
                    static_cast<std::int64_t>(table.first.back().size());
  }
  return table;
}

// A square, with a tick in it where that is given.
void draw_answer_box(Composer& c, Block& block, const TextStyle& text, Point at,
                     bool ticked, ElementId parent) {
  const ElementId box = ticked ? c.add(Role::figure, parent, "ticked box")
                               : add_tick_boxes(c, parent);
  draw_tick_box(block, c.style(), text, at, box);
  if (!ticked) return;
  const Length side = tick_side(text);
  const Length middle =
      at.y - at_size(*text.font, text.size, text.font->x_height()) / 2;
  const Stroke stroke{.width = 2 * c.style().box_weight, .round_ends = true};
  const Point foot{at.x + scaled(side, 0.42), middle + scaled(side, 0.3)};
  block.line({at.x + scaled(side, 0.15), middle}, foot, stroke, box);
  block.line(foot, {at.x + scaled(side, 0.95), middle - scaled(side, 0.55)},
             stroke, box);
}

void draw_questions(Composer& c, Block& block, const QuestionTable& table,
                    const Built& b, Ticked ticked, Point at, ElementId row) {
  const JoinQuestions q = join_questions(b.parts.base, b.parts.ending);
  const ElementId list = c.add(Role::list, add_data_cell(c, row));
  Length top = at.y;
  for (std::size_t i = 0; i < table.lines.size(); ++i) {
    const QuestionLine& line = table.lines[i];
    const ElementId body = add_list_body(c, list);
    const Length base = top + baseline_in_line(table.text);
    const bool last = line.first_yes == nullptr;
    const bool first_yes =
        last ? q.joint() == Joint::plain && ticked == Ticked::all
             : q.*line.first_yes && ticked != Ticked::nothing;
    draw_answer_box(c, block, table.text, {at.x, base}, first_yes, body);
    Length y = base;
    for (const TextLine& text : table.first[i]) {
      draw_line(c, block, text, {at.x + table.box, y}, body);
      y += table.text.line_height();
    }
    if (!last) {
      const Length x = at.x + table.second;
      draw_answer_box(c, block, table.text, {x, base},
                      q.*line.second_yes && ticked == Ticked::all, body);
      draw_text(c, block, table.text, line.second, {x + table.box, base}, body);
    }
    draw_text(c, block, table.strong, line.then,
              {at.x + (last ? table.last_then : table.then), base},
              add_heard(c, body,
                        fmt::format("{}: {}", last ? "then" : "two ticks",
                                    line.then)));
    top += table.text.line_height() *
           static_cast<std::int64_t>(table.first[i].size());
  }
}

// The first of several words is done in a box, the second half.
Ticked ticked_in(const SheetInput& in, std::size_t index, std::size_t words) {
  if (!is_model_asked(in.options, words) || index > 1) return Ticked::nothing;
  return index == 0 ? Ticked::all : Ticked::base;
}

void add_asked(const SheetInput& in, Composer& c,
               const std::vector<Built>& words) {
  if (words.empty()) return;
  const bool has_model = is_model_asked(in.options, words.size());
  const Length room = printed_room(c, has_model);
  const TextStyle style = fitted_words(
      c, [&](const TextStyle& s) { return sum_columns(c, s, words).width(); },
      room);
  const SumColumns columns = sum_columns(c, style, words);
  Length hand;
  for (const Built& b : words) hand = std::max(hand, by_hand(in, *b.word));
  // The first word is printed there.
  hand = std::max(
      hand, 2_mm + width_of(c.shape(style, words.front().word->reading.word)));
  const Plan plan = plan_rows(in, c, style, columns.width(), hand, has_model);
  const QuestionTable table = plan_questions(c, words, room);
  const TextStyle text = c.style().learner_text();
  add_heading(c, "Put it together. What changes?");
  add_paragraph(c, text,
                "Look at the base, then at the ending. Tick each yes. A line "
                "with two ticks says what to do. Then write the word.",
                {.space_before = 1_mm, .keep_with_next = true, .whole = true});
  const ElementId all = c.add(Role::table);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const Built& b = words[i];
    const Ticked ticked = ticked_in(in, i, words.size());
    const bool model = ticked == Ticked::all;
    const Length top = model ? plan.around.above : Length();
    Length height = plan.height() + 2_mm + table.height;
    if (model) height += plan.around.height();
    Block& block = add_item_block(c, height, i == 0);
    const From from(c, b.word->spelling.span);
    const ElementId row = c.add(Role::table_row, all);
    const Length base = top + base_in_set(plan.ruling);
    const Rect box = model_box(c, height);
    const ElementId result =
        draw_sum(c, block, style, columns, b, {plan.left, base}, row,
                 model ? &box : nullptr);
    if (model) {
      // On a base line alone: print has another height than the ruling.
      const Length x = plan.left + (plan.below ? Length() : plan.line_left);
      const Length y = base + (plan.below ? set_pitch(plan.ruling) : 0_mm);
      draw_text(c, block, style, b.word->reading.word, {x + 2_mm, y}, result);
      block.line({x, y}, {plan.right, y}, {.width = c.style().box_weight},
                 result);
    } else {
      draw_writing_line(c, block, plan, result, {plan.left, top});
    }
    draw_questions(c, block, table, b, ticked,
                   {plan.left, top + plan.height() + 2_mm}, row);
  }
}

// Sums without questions.
void add_own_way(const SheetInput& in, Composer& c,
                 const std::vector<Built>& words) {
  if (words.empty()) return;
  const TextStyle style = fitted_words(
      c, [&](const TextStyle& s) { return sum_columns(c, s, words).width(); },
      c.width());
  const SumColumns columns = sum_columns(c, style, words);
  Length hand;
  for (const Built& b : words) hand = std::max(hand, by_hand(in, *b.word));
  const Plan plan = plan_rows(in, c, style, columns.width(), hand);
  add_heading(c, "These go their own way. Listen, then write.");
  const ElementId all = c.add(Role::table);
  for (const Built& b : words) {
    Block& block =
        add_item_block(c, plan.height(), b.word == words.front().word);
    const From from(c, b.word->spelling.span);
    const ElementId row = c.add(Role::table_row, all);
    const ElementId result = draw_sum(c, block, style, columns, b,
                                      {0_mm, base_in_set(plan.ruling)}, row);
    draw_writing_line(c, block, plan, result, {});
  }
}

// Why nothing else comes of the questions, for the key.
std::string_view reason_of(const EndingAnalysis& parts) {
  const JoinQuestions q = join_questions(parts.base, parts.ending);
  switch (q.joint()) {
    case Joint::dropped_e:
      return "it ends in e, and a vowel is next";
    case Joint::y_to_i:
      return "it ends in a consonant and y, and no i is next";
    case Joint::doubled:
      return "it ends in one vowel, one consonant, and a vowel is next";
    default:
      return "no line has two ticks";
  }
}

}  // namespace

void add_sums(const SheetInput& in, Composer& c, const WordParts& content) {
  add_asked(in, c, content.asked);
  add_own_way(in, c, content.own_way);
}

void add_sum_answers(Composer& c, const WordParts& content) {
  const auto add = [&](const Built& b, std::string_view why) {
    const From from(c, b.word->spelling.span);
    add_paragraph(c, c.style().teacher_text(),
                  fmt::format("{} + {} = {}: {} ({})", b.parts.base,
                              ending_text(b.parts.ending), b.word->reading.word,
                              change_name(b.parts.joint), why));
  };
  for (const Built& b : content.asked) add(b, reason_of(b.parts));
  for (const Built& b : content.own_way) {
    add(b, "it goes its own way: the questions do not tell");
  }
}

}  // namespace sheaf::word_parts_sheet
