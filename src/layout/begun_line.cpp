#include "layout/begun_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "layout/heard.h"
#include "layout/ruled_lines.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kBeforePrint = 2_mm;

// A stretch of letters that are all given, or all to be written.
struct Stretch {
  std::string_view letters;
  bool given = false;
  Length width;
};

Length gap_for(std::string_view letters, const Ruling& ruling) {
  return std::max(hand_width(letters, ruling.x_height), ruling.x_height) +
         ruling.x_height / 2;
}

std::vector<Stretch> stretches_of(Composer& composer, const Ruling& ruling,
                                  std::string_view word,
                                  const std::vector<bool>& given) {
  const TextStyle text = line_print(composer.style(), ruling);
  std::vector<Stretch> stretches;
  for (std::size_t i = 0; i < word.size();) {
    std::size_t end = i + 1;
    while (end < word.size() && given[end] == given[i]) ++end;
    const std::string_view letters = word.substr(i, end - i);
    stretches.push_back({letters, given[i],
                         given[i] ? width_of(composer.shape(text, letters))
                                  : gap_for(letters, ruling)});
    i = end;
  }
  return stretches;
}

std::string heard_stretches(const std::vector<Stretch>& stretches) {
  std::string heard;
  for (const Stretch& stretch : stretches) {
    if (!heard.empty()) heard += ", ";
    if (stretch.given) {
      heard += stretch.letters;
    } else {
      heard += fmt::format("room for {} {}", stretch.letters.size(),
                           stretch.letters.size() == 1 ? "letter" : "letters");
    }
  }
  return heard;
}

void draw_base_line(Composer& composer, Block& block, Length left, Length right,
                    Length base, ElementId element) {
  block.line({left, base}, {right, base},
             {.width = composer.style().box_weight}, element);
}

}  // namespace

TextStyle line_print(const Style& style, const Ruling& ruling) {
  TextStyle text = style.text(style.word_size);
  text.size = size_for_x_height(*text.font, ruling.x_height);
  return text;
}

Length begun_width(Composer& composer, const Ruling& ruling,
                   std::string_view text) {
  return kBeforePrint +
         width_of(composer.shape(line_print(composer.style(), ruling), text)) +
         ruling.x_height;
}

void draw_begun_line(Composer& composer, Block& block, const Ruling& ruling,
                     std::string_view text, Point at, Length width,
                     ElementId parent, bool to_write, std::string heard) {
  const TextStyle print = line_print(composer.style(), ruling);
  const Length base = at.y + base_in_set(ruling);
  const ElementId printed =
      heard.empty() ? parent
                    : add_heard_as(composer, parent, text, std::move(heard));
  // What follows is another word, also to who reads without the tags.
  draw_text(composer, block, print, fmt::format("{} ", text),
            {at.x + kBeforePrint, base}, printed);
  const Length wide = to_write ? begun_width(composer, ruling, text) : width;
  draw_base_line(composer, block, at.x, at.x + wide, base, printed);
  if (!to_write) return;
  draw_set(block, composer.style(), ruling, {at.x + wide, at.y}, width - wide,
           add_writing_lines(composer, parent));
}

Length gapped_width(Composer& composer, const Ruling& ruling,
                    std::string_view word, const std::vector<bool>& given) {
  Length width = kBeforePrint;
  for (const Stretch& s : stretches_of(composer, ruling, word, given)) {
    width += s.width;
  }
  return width;
}

void draw_gapped_word(Composer& composer, Block& block, const Ruling& ruling,
                      std::string_view word, const std::vector<bool>& given,
                      Point at, Length width, ElementId parent) {
  const TextStyle print = line_print(composer.style(), ruling);
  const auto stretches = stretches_of(composer, ruling, word, given);
  const ElementId element =
      add_heard(composer, parent, heard_stretches(stretches));
  const Length base = at.y + base_in_set(ruling);
  Length x = at.x;
  Length next = at.x + kBeforePrint;
  for (const Stretch& stretch : stretches) {
    // What is written last has the rest of the line.
    const bool last = &stretch == &stretches.back() && !stretch.given;
    const Length end = last ? at.x + width : next + stretch.width;
    if (stretch.given) {
      // The blank keeps letters apart that are not one word here.
      draw_text(composer, block, print, fmt::format("{} ", stretch.letters),
                {next, base}, element);
      draw_base_line(composer, block, x, end, base, element);
    } else {
      draw_set(block, composer.style(), ruling, {x, at.y}, end - x, element);
    }
    x = end;
    next = end;
  }
  if (x < at.x + width) {
    draw_base_line(composer, block, x, at.x + width, base, element);
  }
}

}  // namespace sheaf
