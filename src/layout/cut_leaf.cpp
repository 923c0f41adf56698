#include "layout/cut_leaf.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>
#include <variant>

#include "layout/heard.h"
#include "layout/strokes.h"
#include "layout/text_block.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kAboveSet = 6_mm;
constexpr Length kAboveRows = 2_mm;
constexpr Length kFrameInset = 1.5_mm;
// From the least size of a card to the best.
constexpr int kSteps = 24;

Length size_at(const CutSet& set, int step) {
  return set.least + (set.best - set.least) * step / kSteps;
}

int columns_at(const Composer& c, const CutSet& set, Length height) {
  const Length width = set.width == Length() ? height : set.width;
  return std::max(1, static_cast<int>(c.width() / width));
}

int rows_of(std::size_t cards, int columns) {
  return (static_cast<int>(cards) + columns - 1) / columns;
}

class CutLeaf {
 public:
  CutLeaf(Composer& composer, bool titled) : c_(composer), titled_(titled) {}

  void add(std::span<CutSet> sets);
  // How many of the sets, from the first on, stand on one page.
  std::size_t first_page(std::span<const CutSet> sets) const;
  std::vector<int> steps_for(std::span<const CutSet> sets) const;
  Length height_of(std::span<const CutSet> sets,
                   std::span<const int> steps) const;

 private:
  const Style& style_of(const CutSet& set) const {
    return set.style == nullptr ? c_.style() : *set.style;
  }
  Length head_height(const CutSet& set) const;
  Length height_of(const CutSet& set, int step) const;
  void add_page(std::span<const CutSet> sets);
  void add_heading(const CutSet& set);
  void add_direction(const CutSet& set);
  void add_set(const CutSet& set, Length height);
  void add_cards(const CutSet& set, const std::vector<Card>& cards, bool heads,
                 Length height, ElementId cut, ElementId list);
  void draw_card(const CutSet& set, const Card& card, std::size_t number,
                 const Rect& place, ElementId list);
  void begin_row(Length height, Length before);

  Composer& c_;
  bool titled_;
  bool page_begun_ = false;
};

// The title and the direction of a set, with what parts it from the one above.
Length CutLeaf::head_height(const CutSet& set) const {
  if (!titled_) return kAboveRows;
  const TextStyle text = style_of(set).learner_text();
  const Length side = scaled(style_of(set).text_size, 1.45) + 3_mm;
  const auto lines =
      set.direction.empty()
          ? std::int64_t{0}
          : static_cast<std::int64_t>(
                break_lines(c_, text, set.direction, c_.width() - side).size());
  return kAboveSet + text.line_height() * (1 + lines) + kAboveRows;
}

Length CutLeaf::height_of(const CutSet& set, int step) const {
  const Length height = size_at(set, step);
  const int columns = columns_at(c_, set, height);
  return head_height(set) + height * (rows_of(set.heads.size(), columns) +
                                      rows_of(set.cards.size(), columns));
}

Length CutLeaf::height_of(std::span<const CutSet> sets,
                          std::span<const int> steps) const {
  Length height;
  for (std::size_t i = 0; i < sets.size(); ++i) {
    height += height_of(sets[i], steps[i]);
  }
  return height;
}

// All sets grow alike while there is room, then each as far as it can.
std::vector<int> CutLeaf::steps_for(std::span<const CutSet> sets) const {
  std::vector<int> steps(sets.size(), kSteps);
  while (steps.front() > 0 && height_of(sets, steps) > c_.body().height) {
    for (int& step : steps) --step;
  }
  for (std::size_t i = sets.size(); i-- > 0;) {
    const int common = steps[i];
    for (int step = kSteps; step > common; --step) {
      steps[i] = step;
      if (height_of(sets, steps) <= c_.body().height) break;
      steps[i] = common;
    }
  }
  return steps;
}

std::size_t CutLeaf::first_page(std::span<const CutSet> sets) const {
  const std::vector<int> least(sets.size());
  std::size_t count = 1;
  while (count < sets.size() &&
         height_of(sets.first(count + 1), least) <= c_.body().height) {
    ++count;
  }
  return count;
}

void CutLeaf::add(std::span<CutSet> sets) {
  while (!sets.empty()) {
    const std::size_t count = first_page(sets);
    add_page(sets.first(count));
    sets = sets.subspan(count);
  }
}

void CutLeaf::add_page(std::span<const CutSet> sets) {
  const std::vector<int> steps = steps_for(sets);
  page_begun_ = false;
  for (std::size_t i = 0; i < sets.size(); ++i) {
    add_heading(sets[i]);
    add_set(sets[i], size_at(sets[i], steps[i]));
  }
}

void CutLeaf::begin_row(Length height, Length before) {
  Block& row = c_.block(height, before);
  row.own_leaf = true;
  row.new_page = !page_begun_ && c_.blocks().size() > 1;
  page_begun_ = true;
}

void CutLeaf::add_heading(const CutSet& set) {
  if (!titled_) return;
  const TextStyle strong = style_of(set).text(style_of(set).text_size, true);
  begin_row(strong.line_height(), kAboveSet);
  Block& block = c_.blocks().back();
  block.keep_with_next = true;
  const Length base = baseline_in_line(strong);
  draw_text(c_, block, strong, set.title, {0_mm, base}, c_.add(Role::heading2));
  if (!set.day.empty()) {
    const GlyphRun day = c_.shape(style_of(set).learner_text(), set.day);
    block.glyphs(day, {c_.width() - width_of(day), base},
                 c_.add(Role::paragraph));
  }
  if (!set.direction.empty()) add_direction(set);
}

void CutLeaf::add_direction(const CutSet& set) {
  const TextStyle text = style_of(set).learner_text();
  const bool has_sign = set.action != Action::none;
  const Length side = scaled(style_of(set).text_size, 1.45);
  const Length left = has_sign ? side + 3_mm : 0_mm;
  const ElementId paragraph = c_.add(Role::paragraph);
  const auto lines = break_lines(c_, text, set.direction, c_.width() - left);
  for (const TextLine& line : lines) {
    begin_row(text.line_height(), 0_mm);
    Block& block = c_.blocks().back();
    block.keep_with_next = true;
    if (has_sign && &line == lines.data()) {
      draw_action(block, set.action, {0_mm, (block.height - side) / 2}, side);
      // The words say the same.
      for (Mark& mark : block.marks) {
        std::visit([&](auto& m) { m.element = paragraph; }, mark);
      }
    }
    draw_line(c_, block, line, {left, baseline_in_line(text)}, paragraph);
  }
}

void CutLeaf::add_set(const CutSet& set, Length height) {
  const ElementId cut = add_cut_lines(c_, set.heads.size() + set.cards.size());
  const ElementId list = c_.add(Role::list);
  add_cards(set, set.heads, true, height, cut, list);
  add_cards(set, set.cards, false, height, cut, list);
}

void CutLeaf::add_cards(const CutSet& set, const std::vector<Card>& cards,
                        bool heads, Length height, ElementId cut,
                        ElementId list) {
  const Length width = set.width == Length() ? height : set.width;
  const int columns = columns_at(c_, set, height);
  const bool begins = heads || set.heads.empty();
  for (std::size_t i = 0; i < cards.size(); ++i) {
    const int column = static_cast<int>(i) % columns;
    if (column == 0) begin_row(height, begins && i == 0 ? kAboveRows : 0_mm);
    const Rect place{width * column, 0_mm, width, height};
    draw_cut_lines(c_.blocks().back(), style_of(set), place, cut);
    draw_card(set, cards[i], heads ? 0 : i + 1, place, list);
  }
}

// A head has no number.
void CutLeaf::draw_card(const CutSet& set, const Card& card, std::size_t number,
                        const Rect& place, ElementId list) {
  Block& block = c_.blocks().back();
  const From from(c_, card.from);
  if (number > 0 && set.numbered) {
    const auto [label, body] = add_list_item(c_, list);
    draw_text(
        c_, block, card_number_style(style_of(set)), fmt::format("{}", number),
        {place.x + 2_mm, place.y + card_number_base(style_of(set))}, label);
    card.front(block, place, body);
    return;
  }
  const ElementId body = add_list_body(c_, list);
  if (number == 0) {
    block.frame({place.x + kFrameInset, place.y + kFrameInset,
                 place.width - 2 * kFrameInset, place.height - 2 * kFrameInset},
                {.width = style_of(set).box_weight * 2},
                add_heard(c_, body, "head of a column: "));
  }
  card.front(block, place, body);
}

}  // namespace

TextStyle card_number_style(const Style& style) {
  TextStyle small = style.text(style.at_least(style.footer_size));
  small.ink = 60;
  return small;
}

Length card_number_base(const Style& style) {
  const TextStyle text = card_number_style(style);
  return 1.5_mm + at_size(*text.font, text.size, text.font->cap_height());
}

void add_cut_sets(Composer& composer, std::vector<CutSet> sets, bool titled) {
  CutLeaf(composer, titled).add(sets);
}

std::vector<std::vector<CutSet>> part_cut_sets(Composer& composer,
                                               std::vector<CutSet> sets,
                                               bool titled) {
  const CutLeaf leaf(composer, titled);
  std::vector<std::vector<CutSet>> pages;
  for (std::span<CutSet> rest = sets; !rest.empty();) {
    const std::size_t count = leaf.first_page(rest);
    const std::vector<int> steps = leaf.steps_for(rest.first(count));
    std::vector<CutSet>& page = pages.emplace_back();
    for (std::size_t i = 0; i < count; ++i) {
      rest[i].least = size_at(rest[i], steps[i]);
      page.push_back(std::move(rest[i]));
    }
    rest = rest.subspan(count);
  }
  return pages;
}

Length least_height_of(Composer& composer, std::span<const CutSet> sets) {
  const std::vector<int> least(sets.size());
  return CutLeaf(composer, true).height_of(sets, least);
}

}  // namespace sheaf
