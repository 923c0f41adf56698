#include "sheets/gap_sentence.h"

#include <algorithm>
#include <utility>

#include "layout/text_block.h"

namespace sheaf {

namespace {

using namespace literals;

using Piece = GapSentence::Piece;

std::vector<Piece> pieces_of(const AnalyzedSentence& sentence,
                             const Ruling& ruling) {
  const std::string text = sentence.text.text();
  std::vector<Piece> pieces;
  std::size_t done = 0;
  const auto add_text = [&](std::size_t end) {
    bool space = false;
    std::string word;
    for (; done < end; ++done) {
      if (text[done] != ' ') {
        word += text[done];
        continue;
      }
      if (!word.empty())
        pieces.push_back({.text = std::move(word), .after_space = space});
      word.clear();
      space = true;
    }
    if (word.empty()) return space;
    pieces.push_back({.text = std::move(word), .after_space = space});
    return false;
  };
  for (const AnalyzedSentence::Part& part : sentence.words) {
    if (!part.word.has_pattern()) continue;
    const bool before = add_text(part.begin);
    const Length width = std::max(
        24_mm, scaled(hand_width(text.substr(part.begin, part.end - part.begin),
                                 ruling.x_height),
                      1.3));
    pieces.push_back({.blank = width, .after_space = before});
    done = part.end;
  }
  add_text(text.size());
  return pieces;
}

}  // namespace

GapSentence place_gap_sentence(Composer& c, const AnalyzedSentence& sentence,
                               const Ruling& ruling, Length indent) {
  GapSentence text;
  text.style = c.style().text(c.style().reading_size);
  text.pitch = std::max(set_pitch(ruling), text.style.line_height());
  const auto wide = [&](std::string_view letters) {
    return width_of(c.shape(text.style, letters));
  };
  const Length space = wide("n n") - 2 * wide("n");
  const std::vector<Piece> pieces = pieces_of(sentence, ruling);
  const auto width_at = [&](std::size_t i) {
    return pieces[i].text.empty() ? pieces[i].blank : wide(pieces[i].text);
  };
  Length x = indent;
  int line = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    // What follows without a space stays on the line.
    Length needed = width_at(i);
    for (std::size_t k = i + 1; k < pieces.size() && !pieces[k].after_space;
         ++k) {
      needed += width_at(k);
    }
    if (pieces[i].after_space) x += space;
    if (pieces[i].after_space && x + needed > c.width()) {
      x = indent;
      ++line;
    }
    text.places.push_back({pieces[i], x, line});
    x += width_at(i);
  }
  return text;
}

}  // namespace sheaf
