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

  // A page of its own, with as many numbered lines. They stand nearer to each
  // other where a page would else not have room for all.
  void add(std::string_view heading, std::size_t count) {
    const std::size_t first = c_.blocks().size();
    const auto rows = (static_cast<std::int64_t>(count) + columns_ - 1) /
                      static_cast<std::int64_t>(columns_);
    const Length heading_height =
        c_.style().text(c_.style().text_size, true).line_height() +
        kBelowHeading;
    const Length full = ruling_.gap;
    while (ruling_.gap > kLeastBetween &&
           heading_height + set_pitch(ruling_) * rows >
               c_.body().height - 2_mm) {
      ruling_.gap -= 0.25_mm;
    }
    add_subheading(c_, c_.style().text_size, heading, 0_mm);
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
    ruling_.gap = full;
    spread(first);
    c_.blocks()[first].new_page = first > 0;
  }

 private:
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
  lines.add("Part one", check.part_one().size());
  lines.add("Part two", check.most_in_part_two());
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
