#include "packet/cut_leaves.h"

#include <fmt/format.h>

#include "layout/cut_leaf.h"

namespace sheaf {

namespace {

std::vector<const PlannedSheet*> sheets_with_cards(
    const Bindery& b, std::span<const PlannedSheet> sheets,
    std::span<const PlannedSheet> packet) {
  std::vector<const PlannedSheet*> with_cards;
  for (const PlannedSheet& sheet : sheets) {
    const SheetKind& kind = *sheet.kind;
    if (kind.cards != nullptr &&
        kind.has_cards(sheet_input(b, sheet.options, packet))) {
      with_cards.push_back(&sheet);
    }
  }
  return with_cards;
}

}  // namespace

CutFrame cut_frame(const Bindery& b, std::span<const PlannedSheet> sheets,
                   std::span<const PlannedSheet> packet) {
  CutFrame cut{.sheets = sheets_with_cards(b, sheets, packet)};
  if (cut.sheets.empty()) return cut;
  cut.frame = frame_text(b, *cut.sheets.front(), packet);
  cut.frame.action = Action::cut;
  if (cut.several()) {
    cut.frame.sheet = "Cut these out";
    cut.frame.direction = "Cut along the dashed lines. Keep each set together.";
    cut.frame.day.clear();
  } else {
    // What is done with the cards is told when they are cut.
    cut.frame.direction =
        fmt::format("Cut along the dashed lines. {}", cut.frame.direction);
  }
  return cut;
}

std::vector<CutSet> cut_sets(const Bindery& b,
                             std::span<const PlannedSheet* const> sheets,
                             std::span<const PlannedSheet> packet,
                             Composer& composer) {
  std::vector<CutSet> sets;
  for (const PlannedSheet* sheet : sheets) {
    const FrameText own = frame_text(b, *sheet, packet);
    CutSet set =
        sheet->kind->cards(sheet_input(b, sheet->options, packet), composer);
    set.title = own.sheet;
    set.day = own.day;
    set.direction = own.direction;
    set.action = own.action;
    sets.push_back(std::move(set));
  }
  return sets;
}

void compose_cut_leaf(const Bindery& b, std::span<const PlannedSheet> sheets,
                      std::span<const PlannedSheet> packet, Document& document,
                      Binder& binder, Diagnostics& diagnostics) {
  const CutFrame cut = cut_frame(b, sheets, packet);
  if (cut.sheets.empty()) return;
  const PlannedSheet& first = *cut.sheets.front();
  FitCheck fit(first, *b.lesson.lesson, diagnostics);
  const auto begin = static_cast<ElementId>(document.elements.size() + 1);
  std::vector<Page> pages = compose_framed(
      b, b.style, cut.frame, asked_for(b, first), fit, document,
      [&](Composer& composer) {
        add_cut_sets(composer, cut_sets(b, cut.sheets, packet, composer),
                     cut.several());
      });
  binder.add_cut_leaf(cut.several() ? "cards" : first.kind->name,
                      cut.frame.sheet, std::move(pages), begin);
}

}  // namespace sheaf
