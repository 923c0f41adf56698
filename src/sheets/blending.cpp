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
#include "sheets/blend_words.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::blending_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"per-page", Kind::count, "12",
     "most words on a page; a single one is as large as fits", "1", "16"},
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
    {"beats", Kind::flag, "no", "a dot and a wider gap between beats"},
    kLongerFirstOption,
    kReadingsOption,
    kModelOption,
};

constexpr Length kRing = 6_mm;
constexpr Length kRingPitch = 7_mm;
constexpr Length kBeforeRings = 5_mm;
constexpr Length kMiddle = 7_mm;  // between two columns, the least
// As wide as this where type may be larger than the layout's, or the rings of
// one word stand beside the next.
constexpr Length kWideMiddle = 12_mm;
constexpr Length kBetween = 2_mm;   // the least between two rows
constexpr double kMostScale = 1.5;  // of the layout's size, where there is room
constexpr Length kAboveAlone = 4_mm;  // tall letters rise above capitals

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
  // Marks grow with a word that is larger than the layout's.
  options.dot = scaled(options.dot, std::clamp(scale, 1.0, 1.75));
  options.arrow = in.options.flag("arrow");
  return options;
}

// Where the beats of a word begin, as bytes, but for the first.
std::vector<std::size_t> beats_of(const SheetInput& in,
                                  const AnalyzedWord& word) {
  std::vector<std::size_t> beats;
  if (!in.options.flag("beats")) return beats;
  for (const WordPart& part : word.parts) {
    if (part.begin > 0) beats.push_back(part.begin);
  }
  return beats;
}

// How much larger a word may be that has a page to itself.
double share_of_page(const Composer& c, const TouchWord& word, Length room) {
  const auto ratio = [](Length whole, Length part) {
    return static_cast<double>(whole.mils()) / static_cast<double>(part.mils());
  };
  return std::min(ratio(room, word.width()),
                  ratio(c.body().height - kAboveAlone, word.height()));
}

// What a word is drawn with at a scale.
TouchWord drawn(const SheetInput& in, Composer& c, const AnalyzedWord& word,
                double scale, bool touched = false) {
  TouchWordOptions options = word_options(in, c.style(), scale);
  options.beats = beats_of(in, word);
  options.touched = touched;
  return TouchWord(c, word.reading.word, graphemes_of(word), options);
}

// The word at a scale, or smaller if it is too long for its room.
TouchWord fitted(const SheetInput& in, Composer& c, const AnalyzedWord& word,
                 double scale, Length room, bool touched = false) {
  TouchWord result = drawn(in, c, word, scale, touched);
  for (int tries = 0; result.width() > room && tries < 4; ++tries) {
    scale *= 0.98 * static_cast<double>(room.mils()) /
             static_cast<double>(result.width().mils());
    result = drawn(in, c, word, scale, touched);
  }
  return result;
}

// A word that has a page to itself: as large as it fits.
TouchWord fitted_alone(const SheetInput& in, Composer& c,
                       const AnalyzedWord& word, Length room) {
  double scale = 1.0;
  TouchWord result = drawn(in, c, word, scale);
  // Not all of its height grows with the letters.
  for (int tries = 0; tries < 5; ++tries) {
    scale = std::clamp(scale * share_of_page(c, result, room), 1.0, 6.0);
    result = drawn(in, c, word, scale);
  }
  while (scale > 1 && share_of_page(c, result, room) < 1) {
    scale = std::max(1.0, scale * 0.99);
    result = drawn(in, c, word, scale);
  }
  return result.width() > room ? fitted(in, c, word, scale, room)
                               : std::move(result);
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
  WordsOnPages(const SheetInput& in, Composer& c)
      : in_(in), c_(c), listed_(blend_words(in)) {}

  void compose();
  // Each on a page of its own.
  void compose_alone();

 private:
  int words() const { return static_cast<int>(listed_.size()); }
  int rings() const { return in_.options.count("readings"); }
  Length column_width(int columns) const {
    return (c_.width() - middle_ * (columns - 1)) / columns;
  }
  // What a word may take of its column.
  Length word_room(int columns, bool model) const;
  // What the box around the first word adds to its row.
  Length model_height() const {
    return has_blend_model(in_) ? model_room(c_.style()).height() : Length();
  }
  Size largest(double scale);
  std::optional<Plan> plan(int columns);
  Plan best_plan();
  // Gives two columns what their words leave.
  void part_columns(const Plan& plan);
  void draw_word(Block& block, std::size_t index, const Plan& plan, Point at,
                 ElementId list);
  void draw_rings(Block& block, Length right, Length middle, bool ticked,
                  ElementId body);

  const SheetInput& in_;
  Composer& c_;
  std::vector<const AnalyzedWord*> listed_;
  Length middle_ = kMiddle;
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
  for (const AnalyzedWord* word : listed_) {
    const TouchWord shown = drawn(in_, c_, *word, scale);
    size.width = std::max(size.width, shown.width());
    size.height = std::max(size.height, shown.height());
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
  const Length large = room - (kWideMiddle - kMiddle) / 2 * (columns - 1);
  for (double scale = kMostScale; scale > 1; scale -= 0.05) {
    const Size size = largest(scale);
    if (size.width > large || (size.height + kBetween) * plan.rows > page) {
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

void WordsOnPages::part_columns(const Plan& plan) {
  if (plan.columns < 2) return;
  Length left = word_room(2, false) - largest(plan.scale).width;
  if (has_blend_model(in_)) {
    left = std::min(left, word_room(2, true) -
                              drawn(in_, c_, *listed_[0], plan.scale).width());
  }
  middle_ = std::clamp(kMiddle + 2 * left, kMiddle, kWideMiddle);
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
  const From from(c_, listed_[index]->spelling.span);
  const ElementId body = add_list_body(c_, list);
  const bool model = has_blend_model(in_) && index == 0;
  const ModelRoom around = model_room(c_.style());
  const Length width = column_width(plan.columns);
  const TouchWord word = fitted(in_, c_, *listed_[index], plan.scale,
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
  part_columns(plan);
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
      top = i == 0 && has_blend_model(in_) ? model_room(c_.style()).above
                                           : Length();
      Block& row = c_.block(pitch + (i == 0 ? model_height() : Length()));
      row.new_page = i > 0 && i % on_page == 0;
    }
    draw_word(c_.blocks().back(), static_cast<std::size_t>(i), plan,
              {(column_width(plan.columns) + middle_) * column, top}, list);
  }
}

void WordsOnPages::compose_alone() {
  const Length room = word_room(1, false);
  const ElementId list = c_.add(Role::list);
  for (std::size_t i = 0; i < listed_.size(); ++i) {
    const TouchWord word = fitted_alone(in_, c_, *listed_[i], room);
    Block& block = c_.block(word.height() + kAboveAlone);
    block.new_page = i > 0;
    const From from(c_, listed_[i]->spelling.span);
    const ElementId body = add_list_body(c_, list);
    word.draw(c_, block, {(room - word.width()) / 2, kAboveAlone}, body);
    draw_rings(block, c_.width(), scaled(c_.style().blending_size, 0.6), false,
               body);
  }
}

void compose(const SheetInput& in, Composer& c) {
  if (in.options.count("per-page") == 1) {
    WordsOnPages(in, c).compose_alone();
  } else {
    WordsOnPages(in, c).compose();
  }
}

std::string missing(const SheetInput& in) {
  return in.lesson.words.empty() ? "the lesson has no words" : "";
}

Direction other_direction(const SheetInput& in) {
  const bool arrow = in.options.flag("arrow");
  if (in.plain_voice) {
    return {in.options.choice("marks") == "none"
                ? "Say each sound, then read the whole word."
                : "Say the sound above each mark, then read the whole word."};
  }
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
  for (const AnalyzedWord* word : blend_words(in)) {
    // Lines end between words and behind the dot.
    if (!pieces.empty()) {
      pieces.back().text += "\u00A0\u00A0·  ";
      pieces.back().heard += ";";
    }
    pieces.push_back(spelled_piece(*word, plain));
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
    .part = DayPart::blend,
    .daily = true,
    .minutes = 4,
    .materials = "highlighter",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .share = sheet_script::share_of_blending,
    .script = sheet_script::blending,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::blending_sheet
