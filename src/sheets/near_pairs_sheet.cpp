// The learner hears one of two words that differ in one sound, and draws a ring
// round it. On the page: numbered pairs of frames, with a picture in each where
// both words have one, else with the words, or with 1 and 2 where they cannot
// be read yet; round one of the first pair the ring is drawn already.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/heard_text.h"
#include "layout/picture_frame.h"
#include "layout/strokes.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/near_pair_rows.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::near_pairs_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;
using Show = NearPairRow::Show;

constexpr OptionSpec kOptions[] = {
    {"pairs", Kind::count, "8", "most pairs on the sheet", "3", "24"},
    {.name = "show",
     .kind = Kind::choice,
     .fallback = "pictures",
     .help = "what the learner looks at; pictures only where both words have "
             "one, words only where both can be read, else numbers",
     .choices = "pictures words numbers"},
    {"picture", Kind::length, "38 mm", "side of a frame, or less", "20 mm",
     "60 mm"},
    {.name = "model",
     .kind = Kind::flag,
     .fallback = "yes",
     .help = "the ring round one of the first pair drawn already"},
};

constexpr std::size_t kFewestPairs = 3;
constexpr Length kNumberWidth = 9_mm;
constexpr Length kBetweenPairs = 10_mm;
constexpr Length kBetweenRows = 6_mm;
constexpr Length kUnderRows = 4_mm;
constexpr Length kInRing = 8_mm;

// The widest that frames in so many columns of pairs may be.
Length frame_width(const Composer& c, int columns) {
  return ((c.width() - kBetweenPairs * (columns - 1)) / columns -
          kNumberWidth) /
         2;
}

struct Grid {
  int columns = 2;
  Size frame;
  TextStyle words, numbers;
};

// A slide is read from the back of the room: frames take all of it, without
// more slides, and what is in them grows with them.
void fill_slide(Composer& c, Grid& grid, std::size_t pairs, Length widest) {
  const Length body = c.body().height - kUnderRows;
  const auto columns = static_cast<std::size_t>(grid.columns);
  const auto fitting =
      (body + kBetweenRows) / (grid.frame.height + kBetweenRows);
  const int rows = even_rows(static_cast<int>((pairs + columns - 1) / columns),
                             static_cast<int>(fitting));
  grid.frame.width = frame_width(c, grid.columns);
  grid.frame.height =
      std::clamp((body - kBetweenRows * (rows - 1)) / rows, grid.frame.height,
                 std::max(grid.frame.height, grid.frame.width));
  // A ring goes round the widest word, too.
  const Length room = std::min(grid.frame.width, grid.frame.height) - kInRing;
  constexpr double kMost = 2;
  TextStyle large = grid.numbers;
  large.size = scaled(large.size, kMost);
  grid.numbers = fitted_style(large, 2 * large.size, room);
  large = grid.words;
  large.size = scaled(large.size, kMost);
  grid.words = fitted_style(large, scaled(widest, kMost), room);
}

Grid plan_grid(const SheetInput& in, Composer& c,
               const std::vector<NearPairRow>& rows) {
  Grid grid;
  grid.words = c.style().text(c.style().word_size);
  grid.numbers = c.style().text(c.style().word_size, true);
  std::vector<const AnalyzedWord*> shown;
  bool pictured = false;
  for (const NearPairRow& row : rows) {
    pictured = pictured || row.show == Show::pictures;
    if (row.show != Show::words) continue;
    shown.insert(shown.end(), {&row.pair->own, &row.pair->other});
  }
  const Length widest_shown = widest_word(c, grid.words, shown);
  const Length widest = widest_shown + 10_mm;
  // Words a little smaller are better than half as many on a page.
  if (frame_width(c, 2) < scaled(std::min(widest, frame_width(c, 1)), 0.75)) {
    grid.columns = 1;
  }
  grid.frame.width = std::min(frame_width(c, grid.columns),
                              std::max(in.options.length("picture"), widest));
  grid.words =
      fitted_style(grid.words, widest - 10_mm, grid.frame.width - 8_mm);
  grid.frame.height = in.options.length("picture");
  if (!pictured) {
    // Tall enough for a ring round the widest word.
    const Length ring =
        shown.empty() ? 18_mm : widest_word(c, grid.words, shown) + 6_mm;
    grid.frame.height = std::min(
        grid.frame.height, std::max({18_mm, ring, scaled(grid.words.size, 2)}));
  }
  if (!c.style().on_paper) fill_slide(c, grid, rows.size(), widest_shown);
  return grid;
}

// A ring that stands inside the frame and round what is in it.
void draw_ring(Composer& c, Block& block, const Rect& frame,
               ElementId element) {
  const Length weight = 2_pt;
  const Length inside = std::min(frame.width, frame.height) - 2_mm;
  block.ring({frame.x + frame.width / 2, frame.y + frame.height / 2}, inside,
             std::max(weight, c.style().box_weight), element);
}

void draw_choice(const SheetInput& in, Composer& c, Block& block,
                 const Grid& grid, const NearPairRow& row, bool left,
                 bool ringed, const Rect& frame, std::size_t number,
                 ElementId body) {
  const AnalyzedWord& word = left ? row.left() : row.right();
  const From from(c, word.spelling.span);
  if (ringed) {
    draw_ring(c, block, frame, add_heard(c, body, "ringed already:"));
  }
  // The first of two texts is heard with a word between them.
  const auto choice = [&](const std::string& text) {
    return left ? add_heard(c, body, text + " or") : c.add(Role::span, body);
  };
  // A copy in braille has no pictures; it has their words.
  const bool unseen = row.show == Show::pictures &&
                      c.style().picture_names == PictureNames::left_out;
  switch (unseen ? Show::words : row.show) {
    case Show::pictures: {
      const Picture* picture = in.pictures.find(word.reading.word);
      const Length side = std::min(frame.width, frame.height);
      const Length pad = side / 6;
      const Rect room{frame.x + (frame.width - side) / 2 + pad,
                      frame.y + (frame.height - side) / 2 + pad, side - 2 * pad,
                      side - 2 * pad};
      const ElementId figure =
          add_picture(c, body, picture,
                      {.word = word.reading.word,
                       .number = 2 * number + (left ? 0 : 1) - 1});
      block.frame(frame, thin_stroke(c.style()), figure);
      draw_picture(block, c.style(), picture, room, figure);
      return;
    }
    case Show::words:
      draw_in_middle(c, block, grid.words, word.reading.word, frame,
                     choice(word.reading.word));
      break;
    case Show::numbers:
      draw_in_middle(c, block, grid.numbers, left ? "1" : "2", frame,
                     choice(left ? "1" : "2"));
      break;
  }
  block.frame(frame, thin_stroke(c.style()));
}

void compose(const SheetInput& in, Composer& c) {
  const auto rows = near_pair_rows(in);
  const Grid grid = plan_grid(in, c, rows);
  const bool model = is_model_asked(in.options, rows.size());
  const ElementId list = c.add(Role::list);
  const Length pitch =
      (c.width() - kBetweenPairs * (grid.columns - 1)) / grid.columns +
      kBetweenPairs;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const int column = static_cast<int>(i) % grid.columns;
    if (column == 0) {
      c.block(grid.frame.height, i == 0 ? Length() : kBetweenRows);
    }
    Block& block = c.blocks().back();
    const Length x = pitch * column;
    const auto [label, body] = add_list_item(c, list);
    const TextStyle number = c.style().learner_text();
    draw_text(c, block, number, fmt::format("{}", i + 1),
              {x, baseline_in_line(number)}, label);
    for (const bool left : {true, false}) {
      const Rect frame{x + kNumberWidth + (left ? Length() : grid.frame.width),
                       Length(), grid.frame.width, grid.frame.height};
      draw_choice(in, c, block, grid, rows[i], left,
                  model && i == 0 && left == rows[i].left_said(), frame, i + 1,
                  body);
    }
  }
  stretch_blanks(c.blocks(), c.body().height - kUnderRows, 0.4, 3);
  even_pages(c.blocks(), c.body().height);
}

std::string missing(const SheetInput& in) {
  return near_pair_rows(in).size() < kFewestPairs
             ? "too few words differ from another in its sound alone"
             : "";
}

Direction other_direction(const SheetInput& in) {
  if (!in.plain_voice) return {};
  return {"Listen to each word. Draw a ring round the one that you hear."};
}

void answers(const SheetInput& in, Composer& c) {
  const auto rows = near_pair_rows(in);
  const TextStyle plain = c.style().teacher_text();
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const NearPairRow& row = rows[i];
    const SoundStep& step = row.pair->step;
    const std::string own = said(in.lesson, step.from.sound);
    const std::string other = said(in.lesson, step.to.sound);
    std::string sounds;
    if (step.kind == SoundStep::Kind::take) {
      sounds = row.own_said ? fmt::format("with {}", own)
                            : fmt::format("without {}", own);
    } else {
      sounds = row.own_said ? fmt::format("{}, not {}", own, other)
                            : fmt::format("{}, not {}", other, own);
    }
    const std::string text =
        fmt::format("{}. {}, not {}: {}{}", i + 1, row.said().reading.word,
                    row.not_said().reading.word, sounds,
                    row.show == Show::numbers
                        ? fmt::format("; number {}", row.left_said() ? 1 : 2)
                        : "");
    add_paragraph(c, plain, text, {.heard = heard_text(text)});
  }
}

const SheetKind kKind = {
    .name = "near-pairs",
    .title = "Which word?",
    .direction = "Listen. Say the word. Draw a ring round it.",
    .action = Action::listen,
    .other_direction = other_direction,
    .summary = "pairs of words that differ in one sound, one of them said",
    .minutes = 5,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = near_pairs_script,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::near_pairs_sheet
