// The learner reads rows aloud for a minute, three times, and colours a bar for
// each time. On the page, for sounds, words, phrases and sentences each: rows
// in which the week's pattern stands among what was taught before, at the end
// of each row how many there are up to there, and three bars with a scale.
// Nothing says how many there should be: learners read against themselves. In
// large type, where fewer stand in a row and a part has a page of its own, it
// has more rows.

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <iterator>

#include "layout/heard.h"
#include "layout/strokes.h"
#include "layout/text_block.h"
#include "sheets/fluency_rows.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::fluency_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;
using Part = FluencyPart;

constexpr OptionSpec kOptions[] = {
    {"sound-rows", Kind::count, "4", "rows of graphemes; 0 for none", "0",
     "12"},
    {"word-rows", Kind::count, "4", "rows of words; 0 for none", "0", "12"},
    {"phrase-rows", Kind::count, "4",
     "rows of phrases from the sentences; 0 for none", "0", "12"},
    {"sentence-rows", Kind::count, "4", "sentences; 0 for none", "0", "12"},
    {"minutes", Kind::count, "1", "how long each reading is", "1", "5"},
    {"readings", Kind::count, "3", "bars to colour", "1", "6"},
};

constexpr Length kBetweenParts = 6_mm;
constexpr Length kBetweenRows = 2_mm;
constexpr Length kBarHeight = 5_mm;
constexpr Length kBetweenBars = 1.5_mm;
constexpr Length kBarLabel = 8_mm;
constexpr int kCells = 20;
constexpr int kScaleStep = 5;  // cells from one number to the next

TextStyle count_style(const Composer& c) {
  TextStyle style =
      c.style().text(c.style().at_least(scaled(c.style().reading_size, 0.7)));
  style.ink = 90;
  return style;
}

Length count_width(Composer& c) {
  return 5_mm + width_of(c.shape(count_style(c), "000"));
}

// For eyes that look for a number: whoever hears the page counts words.
void draw_count(Composer& c, Block& block, int count, Length base) {
  const TextStyle style = count_style(c);
  const GlyphRun number = c.shape(style, fmt::format("{}", count));
  block.glyphs(number, {c.width() - width_of(number), base}, kDecoration,
               style.ink);
}

TextStyle style_of(const Composer& c, Part::Kind kind) {
  const bool large = kind == Part::Kind::sounds || kind == Part::Kind::words;
  TextStyle style =
      c.style().text(large ? c.style().word_size : c.style().reading_size);
  // Blank stands between the rows besides.
  style.leading = std::min(style.leading, 1.3);
  return style;
}

// How the items stand in columns, as many as have room.
struct Columns {
  TextStyle style;
  Length room;
  int columns = 1;
};

Columns columns_of(Composer& c, const Part& part) {
  Columns plan;
  plan.style = style_of(c, part.kind);
  plan.room = c.width() - count_width(c);
  const Length widest =
      widest_text(c, plan.style, part.items, &Part::Item::text);
  const int most = items_for_rows(part.kind, 1);
  plan.columns =
      std::clamp(static_cast<int>(plan.room / (widest + 6_mm)), 1, most);
  plan.style =
      fitted_style(plan.style, widest, plan.room / plan.columns - 2_mm);
  return plan;
}

// Gives how many there are to read.
int add_columns(Composer& c, const Part& part) {
  const auto [style, room, columns] = columns_of(c, part);
  const ElementId list = c.add(Role::list);
  int count = 0;
  const auto shown =
      std::min(part.items.size(), static_cast<std::size_t>(columns) *
                                      static_cast<std::size_t>(part.rows));
  // Each row is full, but for the last of phrases, and of more rows.
  for (std::size_t i = 0; i < shown; ++i) {
    const auto column = static_cast<int>(i) % columns;
    if (column == 0) {
      c.block(style.line_height(), i == 0 ? 1_mm : kBetweenRows);
    }
    Block& block = c.blocks().back();
    const Part::Item& item = part.items[i];
    const From from(c, item.from);
    const ElementId body = add_list_body(c, list);
    const ElementId text =
        part.kind == Part::Kind::sounds
            ? add_heard_as(c, body, item.text, heard_grapheme(item.text))
            : body;
    const Length base = baseline_in_line(style);
    draw_text(c, block, style, item.text,
              {room / columns * static_cast<std::int64_t>(column), base}, text);
    count += item.count;
    if (column + 1 == columns || i + 1 == shown) {
      draw_count(c, block, count, base);
    }
  }
  return count;
}

int words_in(const TextLine& line) {
  return static_cast<int>(line.runs.size());
}

int add_sentences(Composer& c, const Part& part) {
  const TextStyle style = style_of(c, part.kind);
  const Length room = c.width() - count_width(c);
  const ElementId list = c.add(Role::list);
  int before = 0;
  for (std::size_t i = 0; i < part.items.size(); ++i) {
    const Part::Item& item = part.items[i];
    const From from(c, item.from);
    const ElementId body = add_list_body(c, list);
    const auto lines = break_lines(c, style, item.text, room);
    int count = before;
    for (std::size_t k = 0; k < lines.size(); ++k) {
      Block& block = c.block(style.line_height(), k > 0    ? Length()
                                                  : i == 0 ? 1_mm
                                                           : kBetweenRows);
      const Length base = baseline_in_line(style);
      draw_line(c, block, lines[k], {Length(), base}, body);
      // Dashes that stand alone are no words, and the sentence knows its own.
      count = k + 1 == lines.size()
                  ? before + item.count
                  : std::min(count + words_in(lines[k]), before + item.count);
      draw_count(c, block, count, base);
    }
    before += item.count;
  }
  return before;
}

// How many the cells of a bar hold together: at least twice what there is to
// read, for who begins again, in cells that are easily counted.
int end_of_scale(int total) {
  constexpr std::array<int, 7> kOfCell = {1, 2, 4, 5, 10, 20, 50};
  const auto enough = std::ranges::find_if(
      kOfCell, [&](int cell) { return cell * kCells >= 2 * total; });
  return kCells * (enough == kOfCell.end() ? kOfCell.back() : *enough);
}

TextStyle scale_text(const Composer& c) {
  return c.style().text(c.style().at_least(scaled(c.style().text_size, 0.9)));
}

void add_bars(const SheetInput& in, Composer& c, int total) {
  const int readings = in.options.count("readings");
  const int end = end_of_scale(total);
  const TextStyle text = scale_text(c);
  const Length width = c.width() - kBarLabel - 4_mm;
  const Length cell = width / kCells;
  const ElementId list = c.add(Role::list);
  for (int i = 0; i < readings; ++i) {
    const bool last = i + 1 == readings;
    const Length below = last ? text.line_height() : Length();
    Block& block = c.block(kBarHeight + below, i == 0 ? 4_mm : kBetweenBars);
    const auto [label, body] = add_list_item(c, list);
    draw_text(c, block, text, fmt::format("{}", i + 1),
              {Length(),
               kBarHeight / 2 +
                   at_size(*text.font, text.size, text.font->cap_height()) / 2},
              label);
    const ElementId bar = add_heard(
        c, body,
        fmt::format("a bar of {} cells to colour, from 0 to {}", kCells, end));
    const Rect frame{kBarLabel, Length(), cell * kCells, kBarHeight};
    for (int k = 1; k < kCells; ++k) {
      const Length x = frame.x + cell * k;
      block.line({x, frame.y}, {x, frame.bottom()},
                 k % kScaleStep == 0 ? thin_stroke(c.style())
                                     : dotted_stroke(c.style()),
                 bar);
    }
    block.frame(frame, {.width = c.style().box_weight}, bar);
    if (!last) continue;
    for (int k = 0; k <= kCells; k += kScaleStep) {
      const GlyphRun number =
          c.shape(text, fmt::format("{}", end / kCells * k));
      block.glyphs(number,
                   {frame.x + cell * k - width_of(number) / 2,
                    frame.bottom() + baseline_in_line(text)},
                   kDecoration);
    }
  }
}

// A part by itself: its name, its rows, its bars, all on one page.
std::vector<Block> part_blocks(const SheetInput& in, Composer& c,
                               const Part& part) {
  std::vector<Block> before;
  std::swap(before, c.blocks());
  add_subheading(c, c.style().text_size, part_name(part.kind), kBetweenParts);
  const int total = part.kind == Part::Kind::sentences ? add_sentences(c, part)
                                                       : add_columns(c, part);
  add_bars(in, c, total);
  std::vector<Block> blocks;
  std::swap(blocks, c.blocks());
  std::swap(before, c.blocks());
  keep_on_one_page(blocks);
  return blocks;
}

// What a part of columns takes, with its name and its bars.
Length columns_height(const SheetInput& in, Composer& c, const Part& part,
                      int rows) {
  const int readings = in.options.count("readings");
  return c.style().text(c.style().text_size, true).line_height() +
         kBetweenParts + 1_mm + columns_of(c, part).style.line_height() * rows +
         kBetweenRows * (rows - 1) + 4_mm + kBarHeight * readings +
         kBetweenBars * (readings - 1) + scale_text(c).line_height();
}

// Where large type leaves less than half of what usually stands in a row, and
// the part does not share a page with another: as many rows as hold all of its
// items and stand on the page.
void add_rows(const SheetInput& in, Composer& c, Part& part, Length room) {
  if (part.kind == Part::Kind::sentences || part.items.empty()) return;
  if (columns_height(in, c, part, part.rows) * 2 <= room) return;
  const int columns = columns_of(c, part).columns;
  if (2 * columns > items_for_rows(part.kind, 1)) return;
  while (static_cast<std::size_t>(part.rows) *
                 static_cast<std::size_t>(columns) <
             part.items.size() &&
         columns_height(in, c, part, part.rows + 1) <= room) {
    ++part.rows;
  }
}

void compose(const SheetInput& in, Composer& c) {
  const Length room = c.body().height - 4_mm;
  std::vector<std::vector<Block>> pages;
  for (Part part : fluency_parts(in)) {
    if (part.items.empty()) continue;
    add_rows(in, c, part, room);
    std::vector<Block> blocks = part_blocks(in, c, part);
    // Many rows of large type.
    if (height_of(blocks) > room) even_pages(blocks, room);
    if (pages.empty() || height_of(pages.back()) + height_of(blocks) > room) {
      pages.emplace_back();
    }
    std::ranges::move(blocks, std::back_inserter(pages.back()));
  }
  for (std::vector<Block>& page : pages) {
    stretch_blanks(page, room, 1, 2.5);
    page.front().new_page = &page != &pages.front();
    std::ranges::move(page, std::back_inserter(c.blocks()));
  }
}

std::string missing(const SheetInput& in) {
  const auto parts = fluency_parts(in);
  const bool any = std::ranges::any_of(
      parts, [](const Part& part) { return !part.items.empty(); });
  return any ? "" : "there is too little that can be read to fill its rows";
}

Direction other_direction(const SheetInput& in) {
  constexpr std::array<std::string_view, 5> kFor = {
      "Read aloud for one minute. Colour a bar each time.",
      "Read aloud for two minutes. Colour a bar each time.",
      "Read aloud for three minutes. Colour a bar each time.",
      "Read aloud for four minutes. Colour a bar each time.",
      "Read aloud for five minutes. Colour a bar each time."};
  return {kFor[static_cast<std::size_t>(in.options.count("minutes") - 1)],
          Action::read};
}

// What is on the page, and what is not, for who counts.
void answers(const SheetInput& in, Composer& c) {
  for (const Part& part : fluency_parts(in)) {
    if (part.items.empty()) {
      add_paragraph(c, c.style().teacher_text(),
                    fmt::format("{} are left out: {}.", part_name(part.kind),
                                part.missing));
      continue;
    }
    std::vector<std::string> fresh;
    for (const Part::Item& item : part.items) {
      if (item.fresh && std::ranges::find(fresh, item.text) == fresh.end()) {
        fresh.push_back(item.text);
      }
    }
    if (part.kind == Part::Kind::sentences || fresh.empty()) continue;
    add_paragraph(
        c, c.style().teacher_text(),
        fmt::format("{} with our pattern: {}; the others were taught before.",
                    part_name(part.kind), fmt::join(fresh, ", ")));
  }
  const int minutes = in.options.count("minutes");
  add_paragraph(
      c, c.style().teacher_text(),
      minutes == 1
          ? "Words in a minute: those read, less the errors."
          : fmt::format("Words in a minute: those read, less the errors, "
                        "divided by {}.",
                        minutes));
}

const SheetKind kKind = {
    .name = "fluency",
    .title = "Read it smoothly",
    .direction = "Read aloud for one minute. Colour a bar each time.",
    .action = Action::read,
    .other_direction = other_direction,
    .summary =
        "sounds, words, phrases and sentences to read for a minute, with "
        "bars to colour",
    .part = DayPart::read,
    .minutes = 6,
    .materials = "a clock with seconds, a crayon",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = fluency_script,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::fluency_sheet
