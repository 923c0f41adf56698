// The learner writes the words of a placement check on numbered lines: part one
// on the first page, part two on the second. On the page: numbers and lines,
// nothing that tells a pattern or a step, and nothing that tells how far others
// come. The lines fill the page evenly, two columns where the words, by hand,
// leave room for it.

#include <fmt/format.h>

#include <algorithm>

#include "analysis/placement_check.h"
#include "layout/heard.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/placement_parts.h"
#include "sheets/sheet.h"

namespace sheaf::placement_words_sheet {
namespace {

using namespace literals;

constexpr OptionSpec kOptions[] = {line_height_option()};

constexpr Length kBetweenColumns = 8_mm;
constexpr Length kBelowHeading = 2_mm;
constexpr Length kBetweenParts = 8_mm;
constexpr std::size_t kFewWords = 10;
constexpr Length kLeastBetween = 1_mm;
constexpr Length kMostBetween = 12_mm;  // else lines fall apart

class PlacementLines {
 public:
  PlacementLines(const SheetInput& in, Composer& c)
      : in_(in),
        c_(c),
        ruling_(ruling_of(in, c.style())),
        indent_(std::max(
            10_mm, width_of(c.shape(c.style().learner_text(), "00")) + 3_mm)) {
    const Length room = (c.width() - kBetweenColumns) / 2 - indent_;
    const bool fit = std::ranges::all_of(
        in.lesson.dictate_words, [&](const AnalyzedWord& word) {
          return scaled(hand_width(word.reading.word, ruling_.x_height), 1.1) <=
                 room;
        });
    columns_ = fit ? 2 : 1;
  }

  // Both parts on one page, one word below the other, where they are so short
  // that two pages would stay almost empty; else a page for each.
  void add(std::size_t part_one, std::size_t part_two) {
    const std::size_t words = part_one + part_two;
    const Length together = heading_height() * 2 + kBetweenParts +
                            set_pitch(ruling_) * static_cast<int>(words);
    if (words <= kFewWords && together <= c_.body().height - 2_mm) {
      columns_ = 1;
      add_part("Part one", part_one, 0_mm);
      add_part("Part two", part_two, kBetweenParts);
      spread(0);
      return;
    }
    for (const std::size_t count : {part_one, part_two}) {
      const std::size_t first = c_.blocks().size();
      const Length full = ruling_.gap;
      draw_nearer_for(count);
      add_part(first == 0 ? "Part one" : "Part two", count, 0_mm);
      ruling_.gap = full;
      spread(first);
      c_.blocks()[first].new_page = first > 0;
    }
  }

 private:
  Length heading_height() const {
    return c_.style().text(c_.style().text_size, true).line_height() +
           kBelowHeading;
  }

  // Lines stand nearer to each other where a page would else not have room.
  void draw_nearer_for(std::size_t count) {
    const auto rows = (static_cast<int>(count) + columns_ - 1) / columns_;
    while (ruling_.gap > kLeastBetween &&
           heading_height() + set_pitch(ruling_) * rows >
               c_.body().height - 2_mm) {
      ruling_.gap -= 0.25_mm;
    }
  }

  void add_part(std::string_view heading, std::size_t count, Length before) {
    add_subheading(c_, c_.style().text_size, heading, before);
    const ElementId list = c_.add(Role::list);
    const Length width =
        (c_.width() - kBetweenColumns * (columns_ - 1)) / columns_;
    for (std::size_t i = 0; i < count; ++i) {
      const auto [label, body] = add_list_item(c_, list);
      const int column = static_cast<int>(i) % columns_;
      if (column == 0) {
        c_.block(set_pitch(ruling_), i == 0 ? kBelowHeading : Length());
      }
      Block& block = c_.blocks().back();
      const Length left = (width + kBetweenColumns) * column;
      draw_text(c_, block, c_.style().learner_text(), fmt::format("{}", i + 1),
                {left, base_in_set(ruling_)}, label);
      draw_set(block, c_.style(), ruling_, {left + indent_, 0_mm},
               width - indent_, add_writing_lines(c_, body));
    }
  }

  // What is left of the page goes between the lines.
  void spread(std::size_t first) {
    const std::span<Block> blocks = std::span(c_.blocks()).subspan(first);
    Length used;
    for (const Block& block : blocks) used += block.space_before + block.height;
    const Length left = c_.body().height - 2_mm - used;
    if (left <= Length() || blocks.size() < 3) return;
    const Length each = std::min(
        left / static_cast<std::int64_t>(blocks.size() - 1), kMostBetween);
    for (Block& block : blocks.subspan(1)) block.space_before += each;
  }

  const SheetInput& in_;
  Composer& c_;
  Ruling ruling_;
  Length indent_;
  int columns_ = 1;
};

void compose(const SheetInput& in, Composer& c) {
  const PlacementCheck check(in.lesson);
  PlacementLines lines(in, c);
  lines.add(check.part_one().size(), check.most_in_part_two());
}

Direction other_direction(const SheetInput& in) {
  if (!in.plain_voice) return {};
  return {"Write each word that you hear. Some may be new to you."};
}

// The words, and when to stop, stand on the teacher's own page.
ScriptLines script(const SheetInput&, const DayStep&) {
  return {
      {Lead::show, "The page, part one upwards."},
      {Lead::say,
       "“Some of these words may be new to you. Write what you hear. When it "
       "gets hard, we stop.”"},
      {Lead::act,
       "Dictate as the page about where to begin says: part one up to where it "
       "stops, then the steps of part two that its table names."},
      {Lead::wait, "Every pen is down before the next word. Do not help."},
      {Lead::done_when, "All words of part two have been written."}};
}

const SheetKind kKind = {
    .name = "placement-words",
    .title = "Words to write",
    .direction = "Listen. Say it. Write it. Some words are new.",
    .action = Action::listen,
    .other_direction = other_direction,
    .summary = "numbered lines for the words of a placement check",
    .part = DayPart::check,
    .minutes = 15,
    .options = kOptions,
    .missing = placement_missing,
    .compose = compose,
    .script = script,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::placement_words_sheet
