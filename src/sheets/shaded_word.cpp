#include "sheets/shaded_word.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <vector>

#include "layout/strokes.h"

namespace sheaf {

std::string heard_shaded(std::string_view word,
                         std::span<const Grapheme> graphemes) {
  std::vector<std::string> parts;
  for (const Grapheme& g : graphemes) {
    if (!g.shaded) continue;
    parts.emplace_back(word.substr(g.begin, g.end - g.begin));
    if (g.split_e != std::string_view::npos) {
      parts.back() += fmt::format(" with {}", word.substr(g.split_e, 1));
    }
  }
  if (parts.empty()) return std::string(word);
  return fmt::format("{}, {} underlined", word, fmt::join(parts, " and "));
}

void draw_shaded(Composer& c, Block& block, const TextStyle& style,
                 std::string_view word, std::span<const Grapheme> graphemes,
                 Point base, ElementId element) {
  const GlyphRun run = c.shape(style, word);
  const Length top = base.y - baseline_in_line(style);
  const Length pad = style.size / 16;
  const auto shade = [&](std::size_t begin, std::size_t end) {
    const InkSpan ink = ink_of(run, begin, end);
    draw_underlined_ground(block, c.style(),
                           {base.x + ink.left - pad, top, ink.width() + 2 * pad,
                            style.line_height()});
  };
  for (const Grapheme& g : graphemes) {
    if (!g.shaded) continue;
    shade(g.begin, g.end);
    if (g.split_e != std::string_view::npos) shade(g.split_e, g.split_e + 1);
  }
  block.glyphs(run, base, element);
}

}  // namespace sheaf
