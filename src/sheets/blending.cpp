// The learner marks the pattern while saying its sound, touches the mark under
// each grapheme saying each sound, then sweeps along the arrow and says the
// word. On the page: words in large type, in two columns where they are short,
// a mark exactly under each grapheme, rings to tick off three readings; the
// first word boxed, with its marks touched and a reading ticked.

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "layout/heard.h"
#include "layout/model_frame.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::blending_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"per-page", Kind::count, "12", "most words on a page", "1", "16"},
    {.name = "marks",
     .kind = Kind::choice,
     .fallback = "dots",
     .help = "under each grapheme a dot, a line, or nothing",
     .choices = "dots lines none"},
    {.name = "pattern",
     .kind = Kind::choice,
     .fallback = "plain",
     .help =
         "letters of the pattern: like the others, hollow to colour, or grey",
     .choices = "plain outlined tinted"},
    {"arrow", Kind::flag, "yes", "an arrow to sweep along"},
    kReadingsOption,
    kModelOption,
};

constexpr Length kRing = 6_mm;
constexpr Length kRingPitch = 7_mm;
constexpr Length kBeforeRings = 5_mm;
constexpr Length kMiddle = 7_mm;    // between two columns
constexpr Length kBetween = 2_mm;   // the least between two rows
constexpr double kMostScale = 1.5;  // of the layout's size, where there is room

TouchWordOptions word_options(const SheetInput& in, const Style& style,
                              double scale) {
  TouchWordOptions options;
  options.text = style.text(scaled(style.blending_size, scale));
  const std::string& marks = in.options.choice("marks");
  options.marks = marks == "lines"  ? MarkStyle::lines
                  : marks == "none" ? MarkStyle::none
                                    : MarkStyle::dots;
  const std::string& pattern = in.options.choice("pattern");
  options.pattern = pattern == "outlined" ? PatternLetters::outlined
                    : pattern == "tinted" ? PatternLetters::tinted
                                          : PatternLetters::plain;
  options.mark_spacing = scaled(style.mark_spacing, std::min(scale, 1.0));
  options.guide_weight = style.guide_weight;
  options.arrow = in.options.flag("arrow");
  return options;
}

bool has_model(const SheetInput& in) {
  return in.options.flag("model") && in.lesson.words.size() > 1;
}

// The word at a scale, or smaller if it is too long for its room.
TouchWord fitted(const SheetInput& in, Composer& c, const AnalyzedWord& word,
                 double scale, Length room, bool touched) {
  const auto graphemes = graphemes_of(word);
  const auto at_scale = [&] {
    TouchWordOptions options = word_options(in, c.style(), scale);
    options.touched = touched;
    return TouchWord(c, word.reading.word, graphemes, options);
  };
  TouchWord result = at_scale();
  for (int tries = 0; result.width() > room && tries < 4; ++tries) {
    scale *= 0.98 * static_cast<double>(room.mils()) /
             static_cast<double>(result.width().mils());
    result = at_scale();
  }
  return result;
}

// How the words stand: in one column or two, so many rows on a page, at a
// scale.
struct Plan {
  int columns = 1;
  int rows = 1;
  int pages = 1;
  double scale = 1;
};

class WordsOnPages {
 public:
  WordsOnPages(const SheetInput& in, Composer& c) : in_(in), c_(c) {}

  void compose();

 private:
  int words() const { return static_cast<int>(in_.lesson.words.size()); }
  int rings() const { return in_.options.count("readings"); }
  Length column_width(int columns) const {
    return (c_.width() - kMiddle * (columns - 1)) / columns;
  }
  // What a word may take of its column.
  Length word_room(int columns, bool model) const;
  // What the box around the first word adds to its row.
  Length model_height() const {
    return has_model(in_) ? model_room(c_.style()).height() : Length();
  }
  Size largest(double scale);
  std::optional<Plan> plan(int columns);
  Plan best_plan();
  void draw_word(Block& block, std::size_t index, const Plan& plan, Point at,
                 ElementId list);
  void draw_rings(Block& block, Length right, Length middle, bool ticked,
                  ElementId body);

  const SheetInput& in_;
  Composer& c_;
};

Length WordsOnPages::word_room(int columns, bool model) const {
  Length room = column_width(columns);
  if (rings() > 0) room -= kRing + kRingPitch * (rings() - 1) + kBeforeRings;
  if (model) room -= 2 * model_room(c_.style()).side;
  return room;
}

// The width of the widest word and the height of the tallest.
Size WordsOnPages::largest(double scale) {
  Size size;
  for (const AnalyzedWord& word : in_.lesson.words) {
    const TouchWord drawn(c_, word.reading.word, graphemes_of(word),
                          word_options(in_, c_.style(), scale));
    size.width = std::max(size.width, drawn.width());
    size.height = std::max(size.height, drawn.height());
  }
  return size;
}

// Nothing where two columns are too narrow for the words at the layout's size.
std::optional<Plan> WordsOnPages::plan(int columns) {
  const Size usual = largest(1);
  const Length room = word_room(columns, false);
  if (columns > 1 && usual.width > room) return std::nullopt;
  const Length page = c_.body().height - model_height();
  const int capacity =
      std::clamp(static_cast<int>(page / (usual.height + kBetween)) * columns,
                 1, in_.options.count("per-page"));
  Plan plan{.columns = columns};
  plan.pages = (words() + capacity - 1) / capacity;
  const int on_page = even_rows(words(), capacity);
  plan.rows = (on_page + columns - 1) / columns;
  for (double scale = kMostScale; scale > 1; scale -= 0.05) {
    const Size size = largest(scale);
    if (size.width > room || (size.height + kBetween) * plan.rows > page) {
      continue;
    }
    plan.scale = scale;
    break;
  }
  return plan;
}

// As few pages as can be, then type as large as can be.
Plan WordsOnPages::best_plan() {
  Plan best = *plan(1);
  if (const auto two = plan(2)) {
    if (two->pages < best.pages ||
        (two->pages == best.pages && two->scale > best.scale)) {
      best = *two;
    }
  }
  return best;
}

void WordsOnPages::draw_rings(Block& block, Length right, Length middle,
                              bool ticked, ElementId body) {
  if (rings() == 0) return;
  const ElementId ticks =
      ticked ? c_.add(Role::figure, body,
                      fmt::format("{}, the first one ticked",
                                  counted(rings(), "tick box", "tick boxes")))
             : add_tick_boxes(c_, body, rings());
  for (int i = 0; i < rings(); ++i) {
    const Length x = right - kRing / 2 - kRingPitch * (rings() - 1 - i);
    block.ring({x, middle}, kRing, c_.style().box_weight, ticks);
    if (!ticked || i > 0) continue;
    const Stroke tick{.width = c_.style().box_weight * 3 / 2,
                      .round_ends = true};
    const Point foot{x - 0.4_mm, middle + 1.6_mm};
    block.line({x - 1.7_mm, middle}, foot, tick, ticks);
    block.line(foot, {x + 1.9_mm, middle - 1.9_mm}, tick, ticks);
  }
}

void WordsOnPages::draw_word(Block& block, std::size_t index, const Plan& plan,
                             Point at, ElementId list) {
  const From from(c_, in_.lesson.words[index].spelling.span);
  const ElementId body = add_list_body(c_, list);
  const bool model = has_model(in_) && index == 0;
  const ModelRoom around = model_room(c_.style());
  const Length width = column_width(plan.columns);
  const TouchWord word = fitted(in_, c_, in_.lesson.words[index], plan.scale,
                                word_room(plan.columns, model), model);
  if (model) {
    draw_model_frame(
        c_, block,
        {at.x, at.y - around.above, width, word.height() + around.height()},
        body);
  }
  const Length side = model ? around.side : Length();
  word.draw(c_, block, {at.x + side, at.y}, body);
  draw_rings(block, at.x + width - side,
             at.y + scaled(c_.style().blending_size, 0.6 * plan.scale), model,
             body);
}

void WordsOnPages::compose() {
  const Plan plan = best_plan();
  const Length tallest = largest(plan.scale).height;
  const Length pitch =
      std::min((c_.body().height - model_height()) / plan.rows,
               std::max(scaled(tallest, 1.8), tallest + kBetween));
  const ElementId list = c_.add(Role::list);
  const int on_page = plan.rows * plan.columns;
  Length top;
  for (int i = 0; i < words(); ++i) {
    const int column = i % plan.columns;
    if (column == 0) {
      top = i == 0 && has_model(in_) ? model_room(c_.style()).above : Length();
      Block& row = c_.block(pitch + (i == 0 ? model_height() : Length()));
      row.new_page = i > 0 && i % on_page == 0;
    }
    draw_word(c_.blocks().back(), static_cast<std::size_t>(i), plan,
              {(column_width(plan.columns) + kMiddle) * column, top}, list);
  }
}

void compose(const SheetInput& in, Composer& c) {
  WordsOnPages(in, c).compose();
}

std::string missing(const SheetInput& in) {
  return in.lesson.words.empty() ? "the lesson has no words" : "";
}

Direction other_direction(const SheetInput& in) {
  const bool arrow = in.options.flag("arrow");
  if (in.options.choice("marks") == "none") {
    return {arrow ? "Say each sound. Sweep and say the word."
                  : "Say each sound. Say the word.",
            Action::say};
  }
  if (arrow) return {};
  return {"Touch each mark and say its sound. Say the word.", Action::tap};
}

void answers(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  std::vector<TextPiece> pieces;
  for (const AnalyzedWord& word : in.lesson.words) {
    // Lines end between words and behind the dot.
    if (!pieces.empty()) {
      pieces.back().text += "\u00A0\u00A0·  ";
      pieces.back().heard += ";";
    }
    pieces.push_back(spelled_piece(word, plain));
    std::string parted;
    for (const char letter : pieces.back().text) {
      if (letter == ' ') {
        parted += "\u00A0";
      } else {
        parted += letter;
      }
    }
    pieces.back().text = std::move(parted);
  }
  add_paragraph(c, pieces);
}

const SheetKind kKind = {
    .name = "blending",
    .title = "Touch and blend",
    .direction = "Touch each mark and say its sound. Sweep and say the word.",
    .action = Action::tap,
    .other_direction = other_direction,
    .summary = "large words with a mark under each grapheme",
    .minutes = 10,
    .materials = "highlighter",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::blending_sheet
