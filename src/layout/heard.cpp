#include "layout/heard.h"

#include <fmt/format.h>

#include <array>
#include <utility>

#include "layout/heard_text.h"

namespace sheaf {

ElementId add_heard(Composer& composer, ElementId parent, std::string text) {
  return composer.add(Role::span, parent, std::move(text));
}

ElementId add_heard_as(Composer& composer, ElementId parent,
                       std::string_view text, std::string heard) {
  return heard == text ? parent : add_heard(composer, parent, std::move(heard));
}

ElementId add_blank(Composer& composer, ElementId parent) {
  return add_heard(composer, parent, "blank");
}

ElementId add_tick_boxes(Composer& composer, ElementId parent, int count) {
  return composer.add(
      Role::figure, parent,
      count == 1 ? "tick box" : fmt::format("{} tick boxes", count));
}

ElementId add_writing_lines(Composer& composer, ElementId parent, int count) {
  return composer.add(Role::figure, parent,
                      count == 1 ? "a line to write on"
                                 : fmt::format("{} lines to write on", count));
}

ElementId add_empty_places(Composer& composer, ElementId parent, int count,
                           std::string_view things) {
  return composer.add(Role::figure, parent,
                      fmt::format("{} empty {} for {}", count,
                                  count == 1 ? "place" : "places", things));
}

ElementId add_cut_lines(Composer& composer, std::size_t cards,
                        std::string_view code) {
  std::string text =
      fmt::format("{} to cut out along the dashed lines",
                  cards == 1 ? "a card" : fmt::format("{} cards", cards));
  if (!code.empty()) {
    text += fmt::format("; {} code: {}", cards == 1 ? "its" : "their", code);
  }
  return composer.add(Role::figure, 0, std::move(text));
}

ElementId add_fold_line(Composer& composer) {
  return composer.add(Role::figure, 0,
                      "a dashed line to fold along, at the right of the words");
}

std::string heard_parts(std::span<const std::string> parts) {
  return fmt::format("{}", fmt::join(parts, ", "));
}

std::string heard_grapheme(std::string_view grapheme) {
  if (grapheme.size() > 1 && grapheme.starts_with('-')) {
    return fmt::format("{}, at the end", grapheme.substr(1));
  }
  if (grapheme.size() > 1 && grapheme.ends_with('-')) {
    return fmt::format("{}, at the start",
                       grapheme.substr(0, grapheme.size() - 1));
  }
  std::string heard;
  for (const char letter : grapheme) {
    if (letter == '_') {
      heard += "-blank-";
    } else {
      heard += letter;
    }
  }
  return heard;
}

std::string heard_signs(std::string_view shown) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 6>
      kSigns = {{{"+", "plus"},
                 {"=", "equals"},
                 {"/", ""},
                 {"·", ", "},
                 {"–", "-blank-"},
                 {"_", "-blank-"}}};
  const std::string in_words = heard_text(shown);
  std::string_view text = in_words;
  std::string heard;
  while (!text.empty()) {
    bool is_sign = false;
    for (const auto& [sign, name] : kSigns) {
      if (!text.starts_with(sign)) continue;
      heard += name;
      text.remove_prefix(sign.size());
      is_sign = true;
      break;
    }
    if (is_sign) continue;
    heard += text.front();
    text.remove_prefix(1);
  }
  return heard;
}

}  // namespace sheaf
