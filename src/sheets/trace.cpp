// The learner traces the grapheme and the words of the week, then writes each
// alone beside it. On the page: ruled lines; at the left of each a word in
// dots along the way of the pencil, as large as the learner writes; at the
// right room to write it, from the same place on every line; empty lines to the
// end of the page. A word with a sign that is no letter (don't) is dotted along
// the outlines of its print.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/letter_model.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::trace_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    kPractiseWordsOption,
    {"copies", Kind::count, "2",
     "dotted copies of each word, as far as there is room", "1", "4"},
    {"grapheme", Kind::flag, "yes", "a line for the grapheme before the words"},
    {"dot", Kind::length, "1.2 pt", "size of the dots", "0.5 pt", "2 pt"},
    {.name = "dotted",
     .kind = Kind::choice,
     .fallback = "strokes",
     .help =
         "the way of the pencil, or the outlines of the typeface, for those "
         "who trace its own shapes (a two-storey a)",
     .choices = "strokes outlines"},
    {"lines", Kind::count, "0", "empty lines after the words; 0 fills the page",
     "0", "20"},
};

constexpr Length kIndent = 2_mm;  // before the first letter on a line

// How all lines of the sheet are shared out.
struct Plan {
  Ruling ruling;
  TextStyle text;  // small letters as tall as the ruling's
  int copies = 1;
  Length copy_step;    // from one dotted copy to the next
  bool below = false;  // to write alone on a line below the dotted word
};

std::vector<const AnalyzedWord*> words_of(const SheetInput& in) {
  return practice_words(in.lesson, in.options.count("words"));
}

// A split grapheme as it stands in a word: with room for the letter between.
std::string written(std::string grapheme) {
  std::ranges::replace(grapheme, '_', ' ');
  return grapheme;
}

// The grapheme of each pattern that has one, as the catalogue writes it.
std::vector<std::string> graphemes_to_trace(const SheetInput& in) {
  std::vector<std::string> result;
  if (!in.options.flag("grapheme")) return result;
  for (const LessonPattern& pattern : in.lesson.patterns) {
    if (pattern.graphemes.empty()) continue;
    std::string grapheme = pattern.graphemes.front();
    // Two sounds of one spelling (ow) are written the same.
    if (std::ranges::find(result, grapheme) == result.end()) {
      result.push_back(std::move(grapheme));
    }
  }
  return result;
}

bool by_strokes(const SheetInput& in, std::string_view text) {
  return in.options.choice("dotted") == "strokes" && has_letter_shapes(text);
}

// How wide a text stands in dots.
Length dotted_width(const SheetInput& in, Composer& c, const Plan& plan,
                    std::string_view text) {
  return by_strokes(in, text) ? strokes_width(text, plan.ruling.x_height)
                              : width_of(c.shape(plan.text, text));
}

Plan plan_lines(const SheetInput& in, Composer& c,
                const std::vector<const AnalyzedWord*>& words) {
  Plan plan;
  plan.ruling = ruling_of(in, c.style());
  plan.text = c.style().text(20_pt);
  const auto fit_text = [&] {
    plan.text.size = size_for_x_height(*plan.text.font, plan.ruling.x_height);
    Length most;
    for (const AnalyzedWord* word : words) {
      most = std::max(most, dotted_width(in, c, plan, word->reading.word));
    }
    return most;
  };
  Length widest = fit_text();
  // A word must fit its line, whatever it takes.
  while (widest + kIndent > c.width() && plan.ruling.x_height > 3_mm) {
    plan.ruling.x_height -= 0.5_mm;
    widest = fit_text();
  }
  const Length by_hand = widest_by_hand(words, plan.ruling.x_height);
  // Lines go down to the foot of the page, a little wider apart if need be.
  const auto sets = static_cast<std::int64_t>(
      (c.body().height + plan.ruling.gap) / set_pitch(plan.ruling));
  if (sets > 1) {
    const Length left = c.body().height - set_height(plan.ruling) * sets;
    plan.ruling.gap = std::min(left / (sets - 1), 12_mm + plan.ruling.gap);
  }
  const Length gap = 2 * plan.ruling.x_height;
  plan.copy_step = widest + gap;
  const auto needed = [&](int copies) {
    return kIndent + plan.copy_step * copies + scaled(by_hand, 1.1);
  };
  plan.copies = in.options.count("copies");
  while (plan.copies > 1 && needed(plan.copies) > c.width()) --plan.copies;
  plan.below = needed(plan.copies) > c.width();
  return plan;
}

void draw_dotted(const SheetInput& in, Composer& c, Block& block,
                 const Plan& plan, std::string_view text, Point at,
                 ElementId element) {
  if (by_strokes(in, text)) {
    const Length dot =
        std::min(in.options.length("dot"), plan.ruling.x_height / 8);
    // Near enough to lead the pencil round a bend, and apart on a copy.
    const Length pitch = std::max(scaled(dot, 2.4), plan.ruling.x_height / 9);
    draw_dotted_strokes(block, text, plan.ruling.x_height, at, dot, pitch,
                        element);
    draw_start_dots(block, text, plan.ruling.x_height, at, scaled(dot, 2),
                    element);
    return;
  }
  // The two sides of a thin letter must not run into each other.
  const Length dot =
      std::min(in.options.length("dot"), plan.ruling.x_height / 18);
  const Stroke stroke{
      .width = dot, .dash = {Length(), scaled(dot, 2.4)}, .round_ends = true};
  block.marks.push_back(PathMark{.path = outline_of(c.shape(plan.text, text)),
                                 .at = at,
                                 .stroke = stroke,
                                 .element = element});
}

// What is to be traced, in dots; all its copies are heard as one.
ElementId add_dotted(Composer& c, ElementId body, std::string_view text,
                     std::int64_t copies) {
  const std::string times = copies == 1 ? "" : fmt::format(" {} times", copies);
  return add_heard(c, body, fmt::format("{}, to trace{}", text, times));
}

// One line for all graphemes: each has its share, half to trace, half to write.
void add_graphemes(const SheetInput& in, Composer& c, const Plan& plan,
                   const std::vector<std::string>& graphemes, ElementId list) {
  Block& block = c.block(set_height(plan.ruling));
  const Length share = c.width() / static_cast<std::int64_t>(graphemes.size());
  Length left;
  Block dotted;
  ElementId body = kDecoration;
  for (const std::string& grapheme : graphemes) {
    const std::string shown = written(grapheme);
    const Length wide = dotted_width(in, c, plan, shown);
    const Length step = wide + plan.ruling.x_height * 3 / 2;
    const auto room = share / 2;
    const auto copies = std::clamp<std::int64_t>(room / step, 1, 4);
    body = add_list_body(c, list);
    const ElementId element =
        add_dotted(c, body, heard_grapheme(grapheme), copies);
    for (std::int64_t i = 0; i < copies; ++i) {
      draw_dotted(in, c, dotted, plan, shown,
                  {left + kIndent + step * i, base_in_set(plan.ruling)},
                  element);
    }
    left += share;
  }
  // The line is drawn first, under the dots, and heard last.
  draw_set(block, c.style(), plan.ruling, {}, c.width(),
           add_writing_lines(c, body));
  block.marks.insert(block.marks.end(), dotted.marks.begin(),
                     dotted.marks.end());
}

void add_word(const SheetInput& in, Composer& c, const Plan& plan,
              const AnalyzedWord& word, ElementId list) {
  const From from(c, word.spelling.span);
  const int sets = plan.below ? 2 : 1;
  Block& block = c.block(set_pitch(plan.ruling) * sets - plan.ruling.gap);
  const ElementId body = add_list_body(c, list);
  const ElementId element = add_dotted(c, body, word.reading.word, plan.copies);
  for (int i = 0; i < plan.copies; ++i) {
    draw_dotted(in, c, block, plan, word.reading.word,
                {kIndent + plan.copy_step * i, base_in_set(plan.ruling)},
                element);
  }
  const ElementId lines = add_writing_lines(c, body, sets);
  for (int i = 0; i < sets; ++i) {
    draw_set(block, c.style(), plan.ruling, {0_mm, set_pitch(plan.ruling) * i},
             c.width(), lines);
  }
}

// Empty lines as asked, or as many as the last page still holds.
void add_empty_lines(const SheetInput& in, Composer& c, const Plan& plan,
                     Length used) {
  const int asked = in.options.count("lines");
  const auto fitting =
      static_cast<int>((c.body().height - used) / set_pitch(plan.ruling));
  const int count = asked > 0 ? asked : fitting;
  add_sets(c, plan.ruling, count, plan.ruling.gap);
}

void compose(const SheetInput& in, Composer& c) {
  const auto words = words_of(in);
  const Plan plan = plan_lines(in, c, words);
  const ElementId list = c.add(Role::list);
  const auto graphemes = graphemes_to_trace(in);
  if (!graphemes.empty()) {
    const From from(c, in.options.span("grapheme"));
    add_graphemes(in, c, plan, graphemes, list);
  }
  for (const AnalyzedWord* word : words) add_word(in, c, plan, *word, list);
  // All lines are equally far apart, and pages about equally full.
  for (Block& block : c.blocks()) block.space_before = plan.ruling.gap;
  c.blocks().front().space_before = Length();
  even_pages(c.blocks(), c.body().height);
  add_empty_lines(in, c, plan, height_on_last_page(c.blocks()));
}

std::string missing(const SheetInput& in) {
  return words_of(in).empty() ? "no word has the pattern" : "";
}

const SheetKind kKind = {
    .name = "trace",
    .title = "Trace and write",
    .direction = "Say the sounds as you trace. Then write it alone.",
    .action = Action::write,
    .summary = "the grapheme and words in dots to trace, with room to write",
    .part = DayPart::spell,
    .minutes = 8,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::trace,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::trace_sheet
