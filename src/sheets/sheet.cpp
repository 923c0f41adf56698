#include "sheets/sheet.h"

#include <algorithm>

namespace sheaf {

namespace {

// Kept in order of names, so that the order of linking never shows.
std::vector<const SheetKind*>& table() {
  static std::vector<const SheetKind*> kinds;
  return kinds;
}

}  // namespace

SheetRegistration::SheetRegistration(const SheetKind& kind) {
  auto& kinds = table();
  const auto place = std::ranges::lower_bound(
      kinds, kind.name, {}, [](const SheetKind* k) { return k->name; });
  kinds.insert(place, &kind);
}

std::span<const SheetKind* const> sheet_kinds() { return table(); }

const SheetKind* find_sheet_kind(std::string_view name) {
  const auto& kinds = table();
  const auto found = std::ranges::find(
      kinds, name, [](const SheetKind* k) { return k->name; });
  return found == kinds.end() ? nullptr : *found;
}

bool has_sheet(const SheetInput& input, std::string_view name) {
  return std::ranges::any_of(input.packet, [&](const PlannedSheet& s) {
    return s.kind->name == name;
  });
}

SheetInput input_of(const SheetInput& input, const PlannedSheet& sheet) {
  return {.lesson = input.lesson,
          .options = sheet.options,
          .pictures = input.pictures,
          .memory = input.memory,
          .packet = input.packet,
          .learners = input.learners,
          .has_script = input.has_script,
          .week = input.week,
          .plain_voice = input.plain_voice,
          .ear_items = input.ear_items,
          .cards = input.cards};
}

int days_of_week(const SheetInput& input) {
  return input.week == nullptr ? input.lesson.lesson->days.value
                               : static_cast<int>(input.week->days.size());
}

TurnShare turn_share(std::size_t things, int turn, int turns) {
  if (things == 0 || turns < 1) return {};
  const auto at = static_cast<std::size_t>(turn);
  const auto all = static_cast<std::size_t>(turns);
  if (things < all) return {at % things, 1};
  const std::size_t first = at * things / all;
  return {first, (at + 1) * things / all - first};
}

}  // namespace sheaf
