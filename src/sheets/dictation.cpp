// The learner writes words and sentences that the teacher says, on numbered
// lines, then checks and mends them. On the page: nothing that helps; each word
// has a line and a mending line beside it, each sentence as many lines as a
// hand of this size needs and a mending line below.

#include <fmt/format.h>

#include <algorithm>

#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"line-height", Kind::length, "6 mm", "height of small letters", "3 mm",
     "15 mm"},
    {"mending-line", Kind::flag, "yes", "a line to write it again, mended"},
};

constexpr Length kNumberWidth = 10_mm;
constexpr Length kMiddle = 8_mm;

struct Sheet {
  const SheetInput& in;
  Composer& c;
  Ruling ruling;
  Ruling mending;
  bool mends;
};

Sheet sheet_of(const SheetInput& in, Composer& c) {
  Ruling ruling = c.style().ruling;
  ruling.x_height = in.options.length("line-height");
  Ruling mending = ruling;
  mending.style = LineStyle::base_only;
  return {in, c, ruling, mending, in.options.flag("mending-line")};
}

void draw_number(Sheet& s, Block& block, std::size_t number, ElementId label) {
  const TextStyle style = s.c.style().learner_text();
  draw_text(s.c, block, style, fmt::format("{}", number),
            {0_mm, base_in_set(s.ruling)}, label);
}

// A small pencil-written word in the margin of the line to mend on.
void draw_mending_label(Sheet& s, Block& block, Point at, ElementId element) {
  TextStyle style = s.c.style().text(s.c.style().footer_size);
  style.ink = 70;
  draw_text(s.c, block, style, "mend", at, element);
}

struct ItemElements {
  ElementId label, body;
};
ItemElements add_item(Composer& c, ElementId list) {
  const ElementId item = c.add(Role::list_item, list);
  const ElementId label = c.add(Role::list_label, item);
  return {label, c.add(Role::list_body, item)};
}

void add_word(Sheet& s, std::size_t number, ElementId list) {
  const auto [label, body] = add_item(s.c, list);
  Block& block = s.c.block(set_pitch(s.ruling));
  draw_number(s, block, number, label);
  const Length half = s.mends
                          ? (s.c.width() - kNumberWidth - kMiddle) / 2
                          : s.c.width() - kNumberWidth;
  draw_set(block, s.c.style(), s.ruling, {kNumberWidth, 0_mm}, half);
  if (!s.mends) return;
  const Length left = kNumberWidth + half + kMiddle;
  draw_mending_label(s, block, {left, base_in_set(s.mending) + 4_mm}, body);
  draw_set(block, s.c.style(), s.mending, {left, 0_mm}, half);
}

void add_sentence(Sheet& s, std::size_t number, const AnalyzedSentence& text,
                  ElementId list) {
  const auto [label, body] = add_item(s.c, list);
  const Length width = s.c.width() - kNumberWidth;
  const int lines = hand_lines(text.text.text(), s.ruling.x_height, width);
  const int sets = lines + (s.mends ? lines : 0);
  Block& block = s.c.block(set_pitch(s.ruling) * sets, 3_mm);
  draw_number(s, block, number, label);
  for (int i = 0; i < lines; ++i) {
    draw_set(block, s.c.style(), s.ruling,
             {kNumberWidth, set_pitch(s.ruling) * i}, width);
  }
  if (!s.mends) return;
  for (int i = lines; i < sets; ++i) {
    const Length top = set_pitch(s.ruling) * i;
    if (i == lines) {
      draw_mending_label(s, block, {0_mm, top + base_in_set(s.mending)}, body);
    }
    draw_set(block, s.c.style(), s.mending, {kNumberWidth, top}, width);
  }
}

void add_heading(Composer& c, std::string_view text, Length before) {
  ParagraphOptions options;
  options.role = Role::heading2;
  options.space_before = before;
  options.keep_with_next = true;
  add_paragraph(c, c.style().text(c.style().text_size, true), text, options);
}

// The sentences begin a page of their own where the words leave no room for
// all of them: better than one alone on the last page.
void keep_together(Composer& c, std::size_t first) {
  Length all;
  for (const Block& block : c.blocks()) all += block.space_before + block.height;
  if (first > 0 && all > c.body().height) c.blocks()[first].new_page = true;
}

void compose(const SheetInput& in, Composer& c) {
  Sheet s = sheet_of(in, c);
  const auto& words = in.lesson.dictate_words;
  const auto& sentences = in.lesson.dictate_sentences;
  std::size_t number = 0;
  if (!words.empty()) {
    add_heading(c, "Words", 0_mm);
    const ElementId list = c.add(Role::list);
    for (std::size_t i = 0; i < words.size(); ++i) {
      add_word(s, ++number, list);
    }
  }
  if (!sentences.empty()) {
    const std::size_t first = c.blocks().size();
    add_heading(c, "Sentences", 6_mm);
    const ElementId list = c.add(Role::list);
    for (const AnalyzedSentence& sentence : sentences) {
      add_sentence(s, ++number, sentence, list);
    }
    keep_together(c, first);
  }
}

std::string missing(const SheetInput& in) {
  const bool nothing = in.lesson.dictate_words.empty() &&
                       in.lesson.dictate_sentences.empty();
  return nothing ? "there are no words or sentences to dictate" : "";
}

void answers(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  TextStyle strong = plain;
  strong.font = c.style().bold;
  std::size_t number = 0;
  for (const AnalyzedWord& word : in.lesson.dictate_words) {
    std::vector<TextPiece> pieces = {{fmt::format("{}.  ", ++number), plain}};
    for (TextPiece& piece : marked_word(word, plain, strong)) {
      pieces.push_back(std::move(piece));
    }
    pieces.push_back({" – " + spelled_out(word), plain});
    add_paragraph(c, pieces);
  }
  for (const AnalyzedSentence& sentence : in.lesson.dictate_sentences) {
    std::vector<TextPiece> pieces = {{fmt::format("{}.  ", ++number), plain}};
    for (TextPiece& piece : marked_sentence(sentence, plain, strong)) {
      pieces.push_back(std::move(piece));
    }
    add_paragraph(c, pieces);
  }
}

const SheetKind kKind = {
    .name = "dictation",
    .title = "Listen and write",
    .direction = "Listen. Say it. Write it. Read it back and mend it.",
    .action = Action::listen,
    .summary = "numbered lines for dictated words and sentences",
    .minutes = 15,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf
