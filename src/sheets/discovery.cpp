// The learner reads a list and finds out what its words share, by eye and by
// ear. On the page: the words, large, in plain type, nothing marked and nothing
// named; below them lines to write down what was noticed.

#include <algorithm>

#include "layout/ruled_lines.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"columns", Kind::count, "2", "columns of words", "1", "4"},
    {"words", Kind::count, "12", "most words on the sheet", "2", "60"},
    {"lines", Kind::count, "2", "lines to write what was noticed", "0", "8"},
};

// Words of one pattern stand as the teacher listed them; words of several are
// mixed, so that there is something to find.
std::vector<const AnalyzedWord*> listed(const SheetInput& in) {
  std::vector<const AnalyzedWord*> words;
  if (in.lesson.patterns.size() > 1) {
    words = mixed_words(in.lesson, "discovery");
  } else {
    for (const AnalyzedWord& w : in.lesson.words) {
      if (w.has_pattern()) words.push_back(&w);
    }
  }
  const auto most = static_cast<std::size_t>(in.options.count("words"));
  if (words.size() > most) words.resize(most);
  return words;
}

std::string missing(const SheetInput& in) {
  return listed(in).size() < 2 ? "it needs two words with the pattern" : "";
}

void add_words(const SheetInput& in, Composer& c) {
  const auto words = listed(in);
  const TextStyle style = c.style().text(c.style().word_size);
  Length widest;
  for (const AnalyzedWord* w : words) {
    widest = std::max(widest, width_of(c.shape(style, w->reading.word)));
  }
  const int asked = in.options.count("columns");
  const int fitting = static_cast<int>(c.width() / (widest + 8_mm));
  const int columns = std::clamp(fitting, 1, asked);
  const Length column = c.width() / columns;
  const Length row_height = scaled(c.style().word_size, 1.75);
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto place = static_cast<int>(i) % columns;
    if (place == 0) c.block(row_height);
    const ElementId item = c.add(Role::list_item, list);
    const ElementId body = c.add(Role::list_body, item);
    draw_text(c, c.blocks().back(), style, words[i]->reading.word,
              {column * place + 4_mm, baseline_in_line(style)}, body);
  }
}

void add_question(const SheetInput& in, Composer& c, std::string_view text,
                  int lines) {
  ParagraphOptions options;
  options.space_before = 7_mm;
  options.keep_with_next = lines > 0;
  add_paragraph(c, c.style().learner_text(), text, options);
  for (int i = 0; i < lines; ++i) {
    Block& block = c.block(set_pitch(c.style().ruling), i == 0 ? 1_mm : 0_mm);
    draw_set(block, c.style(), c.style().ruling, {}, c.width());
  }
  (void)in;
}

void compose(const SheetInput& in, Composer& c) {
  add_words(in, c);
  const int lines = in.options.count("lines");
  if (in.lesson.patterns.size() > 1) {
    add_question(in, c, "What do you see? Which words belong together?",
                 (lines + 1) / 2);
    add_question(in, c, "What do you hear?", lines / 2);
  } else {
    add_question(in, c, "What do you see in every word?", (lines + 1) / 2);
    add_question(in, c, "What do you hear in every word?", lines / 2);
  }
}

void answers(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  TextStyle strong = plain;
  strong.font = c.style().bold;
  std::vector<TextPiece> pieces;
  for (const AnalyzedWord* w : listed(in)) {
    for (TextPiece& piece : marked_word(*w, plain, strong)) {
      pieces.push_back(std::move(piece));
    }
    pieces.push_back({"  ", plain});
  }
  add_paragraph(c, pieces);
}

const SheetKind kKind = {
    .name = "discovery",
    .title = "What do you notice?",
    .direction = "Look at the words. Say them. What do they share?",
    .summary = "a list of words to find the pattern in",
    .minutes = 10,
    .materials = "coloured pencil",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf
