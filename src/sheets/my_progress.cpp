// For the learner, by code: what was done and what can be done, and nothing
// that compares. On one page: for each week a column of boxes, one to colour
// for each day of practice; what was taught so far, to be ticked when it can be
// spelled, with words; lines for words to be proud of. Weeks are the steps of
// the sequence so far, else blank ones.

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/numbered_steps.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/deck_cards.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::my_progress_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    {"weeks", Kind::count, "12", "blank weeks, where no sequence has steps",
     "1", "36"},
};

constexpr std::size_t kMostWeeks = 36;  // the latest of a long sequence
constexpr std::size_t kWeeksInRow = 12;
constexpr Length kBetweenRows = 3_mm;
constexpr Length kBeforeHeading = 7_mm;
constexpr Length kAfterHeading = 2_mm;
constexpr Length kBetweenItems = 6_mm;
constexpr int kMostBoxes = 5;  // of a week

// What stands under each column; nothing under a blank one.
std::vector<std::string> weeks_of(const SheetInput& in) {
  const Taught& taught = in.lesson.taught;
  std::vector<std::string> weeks;
  for (int i = 0; i <= taught.step(); ++i) {
    const Taught::Step& step = taught.steps()[static_cast<std::size_t>(i)];
    weeks.push_back(fmt::format("{}", step.number));
  }
  if (weeks.empty()) {
    weeks.resize(static_cast<std::size_t>(in.options.count("weeks")));
  }
  if (weeks.size() > kMostWeeks) {
    weeks.erase(weeks.begin(),
                weeks.end() - static_cast<std::ptrdiff_t>(kMostWeeks));
  }
  return weeks;
}

struct Bars {
  std::vector<std::string> weeks;
  std::size_t in_row = 1;
  int boxes = 1;  // of one week
  Length width, box;
  TextStyle number;
  Length row_height() const { return box * boxes + number.line_height(); }
};

Bars plan_bars(const SheetInput& in, const Composer& c) {
  Bars bars;
  bars.weeks = weeks_of(in);
  bars.boxes = std::clamp(days_of_week(in), 1, kMostBoxes);
  bars.number = c.style().learner_text();
  auto rows = (bars.weeks.size() + kWeeksInRow - 1) / kWeeksInRow;
  bars.box = rows > 2 ? 4.5_mm : 5.5_mm;
  // Large numbers: the latest weeks, so that most of the page is left.
  while (rows > 1 && bars.row_height() * static_cast<std::int64_t>(rows) >
                         scaled(c.body().height, 0.45)) {
    --rows;
    bars.weeks.erase(
        bars.weeks.begin(),
        bars.weeks.end() - static_cast<std::ptrdiff_t>(rows * kWeeksInRow));
  }
  bars.in_row = (bars.weeks.size() + rows - 1) / rows;
  // A few weeks do not become wide bars.
  constexpr std::int64_t kFewest = 8;
  bars.width =
      c.width() / std::max(static_cast<std::int64_t>(bars.in_row), kFewest);
  return bars;
}

std::string heard_bars(std::span<const std::string> weeks, int boxes) {
  const std::string each =
      fmt::format("{} to colour", counted(boxes, "box", "boxes"));
  if (weeks.front().empty()) {
    return fmt::format("{}, {} for each",
                       counted(static_cast<int>(weeks.size()), "week", "weeks"),
                       each);
  }
  if (weeks.size() == 1) return fmt::format("week {}: {}", weeks.front(), each);
  return fmt::format("weeks {} to {}, {} for each", weeks.front(), weeks.back(),
                     each);
}

void add_bars(Composer& c, const Bars& bars) {
  for (std::size_t first = 0; first < bars.weeks.size(); first += bars.in_row) {
    const std::size_t end = std::min(first + bars.in_row, bars.weeks.size());
    const auto row = std::span(bars.weeks).subspan(first, end - first);
    Block& block = c.block(bars.row_height(), first == 0 ? 0_mm : kBetweenRows);
    const ElementId figure =
        c.add(Role::figure, 0, heard_bars(row, bars.boxes));
    for (std::size_t i = 0; i < row.size(); ++i) {
      const Length left = bars.width * static_cast<std::int64_t>(i);
      for (int box = 0; box < bars.boxes; ++box) {
        block.frame({left, bars.box * box, bars.width - 2_mm, bars.box},
                    {.width = c.style().box_weight}, figure);
      }
      if (row[i].empty()) continue;
      draw_centred(c, block, bars.number, row[i],
                   {left + (bars.width - 2_mm) / 2,
                    bars.box * bars.boxes + baseline_in_line(bars.number)},
                   figure);
    }
  }
}

// A grapheme with its words, to tick.
struct Item {
  std::string grapheme, words;
};

std::vector<Item> items_of(const SheetInput& in) {
  std::vector<Item> items;
  for (const DeckCard& card : deck_cards(in)) {
    std::vector<std::string> words;
    for (const DeckCard::Says& says : card.says) {
      if (!says.word.empty() && words.size() < 2) words.push_back(says.word);
    }
    if (words.empty()) continue;
    items.push_back({card.grapheme, fmt::format("{}", fmt::join(words, ", "))});
  }
  return items;
}

struct Ticks {
  std::vector<Item> items;
  TextStyle text, strong;
  Length label;  // from the box to the words
  Length pitch;  // from one item to the next
  std::int64_t columns = 1;
  std::int64_t rows() const {
    const auto count = static_cast<std::int64_t>(items.size());
    return (count + columns - 1) / columns;
  }
  Length height() const { return text.line_height() * rows(); }
};

Ticks plan_ticks(const SheetInput& in, Composer& c) {
  Ticks ticks;
  ticks.items = items_of(in);
  ticks.text = c.style().learner_text();
  ticks.strong = c.style().text(c.style().text_size, true);
  const Length box = tick_side(ticks.text) + 2_mm;
  ticks.label =
      box + widest_text(c, ticks.strong, ticks.items, &Item::grapheme) + 3_mm;
  const Length wanted =
      ticks.label + widest_text(c, ticks.text, ticks.items, &Item::words);
  ticks.columns = std::clamp<std::int64_t>(
      (c.width() + kBetweenItems) / (wanted + kBetweenItems), 1, 5);
  ticks.pitch = (c.width() + kBetweenItems) / ticks.columns;
  return ticks;
}

// The latest of them, as many as there is room for.
void keep_latest(Ticks& ticks, Length room) {
  const auto rows = std::max<std::int64_t>(1, room / ticks.text.line_height());
  const auto most = static_cast<std::size_t>(rows * ticks.columns);
  if (ticks.items.size() <= most) return;
  ticks.items.erase(ticks.items.begin(),
                    ticks.items.end() - static_cast<std::ptrdiff_t>(most));
}

void add_ticks(Composer& c, const Ticks& ticks) {
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < ticks.items.size(); ++i) {
    const Item& item = ticks.items[i];
    const auto column = static_cast<std::int64_t>(i) % ticks.columns;
    if (column == 0) c.block(ticks.text.line_height());
    Block& block = c.blocks().back();
    const Length left = ticks.pitch * column;
    const Length base = baseline_in_line(ticks.text);
    const ElementId body = add_list_body(c, list);
    draw_tick_box(block, c.style(), ticks.text, {left, base},
                  add_tick_boxes(c, body));
    draw_text(c, block, ticks.strong, item.grapheme,
              {left + tick_side(ticks.text) + 2_mm, base},
              add_heard(c, body, heard_grapheme(item.grapheme) + ","));
    draw_text(c, block, ticks.text, item.words, {left + ticks.label, base},
              body);
  }
}

Length heading_height(const Composer& c) {
  return c.style().learner_text().line_height() + kAfterHeading;
}

void add_heading(Composer& c, std::string_view text, Length before) {
  add_subheading(c, c.style().text_size, text, before);
  c.blocks().back().height += kAfterHeading;
}

void compose(const SheetInput& in, Composer& c) {
  const Bars bars = plan_bars(in, c);
  add_heading(c, "Colour one box for each day you practised", 0_mm);
  add_bars(c, bars);
  const Ruling ruling = ruling_of(in, c.style());
  // A line for words is left in any case, if the page is no wall of ticks.
  const Length lines_least =
      kBeforeHeading + heading_height(c) + set_height(ruling);
  const auto room = [&] { return c.body().height - height_of(c.blocks()); };
  Ticks ticks = plan_ticks(in, c);
  if (!ticks.items.empty()) {
    keep_latest(ticks,
                room() - kBeforeHeading - heading_height(c) - lines_least);
    add_heading(c, "Tick what you can spell now", kBeforeHeading);
    add_ticks(c, ticks);
  }
  if (room() < lines_least) return;
  const Length for_lines = room() - kBeforeHeading - heading_height(c);
  const auto lines = (for_lines + ruling.gap) / set_pitch(ruling);
  add_heading(c, "Words I am proud of", kBeforeHeading);
  add_sets(c, ruling, static_cast<int>(std::max<std::int64_t>(1, lines)), 0_mm);
}

std::string missing(const SheetInput& in) {
  return in.lesson.patterns.empty() ? "it teaches no pattern" : "";
}

ScriptLines script(const SheetInput&, const DayStep&) {
  return {
      {Lead::show,
       "the learner’s own page. It stays in the folder and is "
       "shown to nobody else."},
      {Lead::say, "“What can you spell now that you could not before?”"},
      {Lead::act,
       "The learner colours one box for each day of practice, ticks what can "
       "be spelled without help, and writes a word or two to be proud of. "
       "You try one ticked word together."},
      {Lead::wait,
       "the learner’s own choice. A box that stays empty needs no word."},
      {Lead::done_when,
       "the week is coloured and you have said one thing that was done "
       "well."}};
}

const SheetKind kKind = {
    .name = "my-progress",
    .title = "My progress",
    .direction = "Colour, tick and write. This page is yours.",
    .action = Action::write,
    .summary =
        "for the learner: weeks to colour, what can be spelled now, "
        "words to be proud of",
    .part = DayPart::read,
    .minutes = 3,
    .materials = "a crayon",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = script,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::my_progress_sheet
