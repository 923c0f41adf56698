// The learner writes words and sentences that the teacher says, on numbered
// lines, then checks and mends them. On the page: nothing that helps; each word
// has a line and a mending line beside it, each sentence as many lines as a
// hand of this size needs and a mending line below; at the end steps to check.
// Three levels: words only; sentences that are printed but for their pattern
// words; whole sentences.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/numbered_steps.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/dictated.h"
#include "sheets/dictation_numbers.h"
#include "sheets/in_sentence.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::dictation_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    {"words", Kind::count, "60", "most words", "0", "60"},
    {"sentences", Kind::count, "30", "most sentences; 0 dictates words only",
     "0", "30"},
    {.name = "sentence-form",
     .kind = Kind::choice,
     .fallback = "whole",
     .help = "whole sentences, or printed with the pattern words missing",
     .choices = "whole gaps"},
    {"self-check", Kind::flag, "yes", "steps to check at the end"},
    {.name = "show",
     .kind = Kind::choice,
     .fallback = "lines",
     .help = "lines to write on, or the numbers alone, for a board",
     .choices = "lines numbers"},
    {"mending-line", Kind::flag, "yes", "a line to write it again, mended"},
};

constexpr Length kNumberWidth = 14_mm;
constexpr Length kMiddle = 8_mm;

struct Sheet {
  const SheetInput& in;
  Composer& c;
  Ruling ruling;
  Ruling mending;
  bool mends;
};

Sheet sheet_of(const SheetInput& in, Composer& c) {
  const Ruling ruling = ruling_of(in, c.style());
  Ruling mending = ruling;
  mending.style = LineStyle::base_only;
  return {in, c, ruling, mending, in.options.flag("mending-line")};
}

void draw_number(Sheet& s, Block& block, std::size_t number, Length left,
                 ElementId label) {
  const TextStyle style = s.c.style().learner_text();
  draw_text(s.c, block, style, fmt::format("{}", number),
            {left, base_in_set(s.ruling)}, label);
}

constexpr std::string_view kMend = "mend";

TextStyle mending_style(const Sheet& s) {
  TextStyle style = s.c.style().text(s.c.style().at_least(14_pt));
  style.ink = 60;
  return style;
}

// What stands left of the lines to mend on; wider where letters are spaced.
Length mending_margin(const Sheet& s) {
  return std::max(kNumberWidth,
                  width_of(s.c.shape(mending_style(s), kMend)) + 2_mm);
}

// A word in the margin of the lines to mend on.
void draw_mending_label(Sheet& s, Block& block, Point at, ElementId element) {
  draw_text(s.c, block, mending_style(s), kMend, at, element);
}

// Words stand one below the other with room to mend beside them, else two
// beside each other.
void add_words(Sheet& s, std::span<const AnalyzedWord> words) {
  const ElementId list = s.c.add(Role::list);
  const Length half = (s.c.width() - kMiddle) / 2;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const From from(s.c, words[i].spelling.span);
    const auto [label, body] = add_list_item(s.c, list);
    const bool right = !s.mends && i % 2 == 1;
    // The first of the lines keeps clear of the heading.
    if (!right) s.c.block(set_pitch(s.ruling), i == 0 ? 2_mm : Length());
    Block& block = s.c.blocks().back();
    const Length left = right ? half + kMiddle : Length();
    draw_number(s, block, i + 1, left, label);
    draw_set(block, s.c.style(), s.ruling, {left + kNumberWidth, 0_mm},
             half - kNumberWidth, add_writing_lines(s.c, body));
    if (!s.mends) continue;
    const Length mending = half + kMiddle;
    draw_mending_label(s, block, {mending, base_in_set(s.mending)}, body);
    const Length margin = mending_margin(s);
    draw_set(block, s.c.style(), s.mending, {mending + margin, 0_mm},
             half - margin, add_writing_lines(s.c, body));
  }
}

// All lines of a sentence stand on one page. Where that has no room for them,
// those to write on do and those to mend on do; lines in large print that are
// more than a page go on on the next.
void keep_item_together(Composer& c, std::size_t first, std::size_t middle) {
  const std::span<Block> item = std::span(c.blocks()).subspan(first);
  if (height_of(item) - item.front().space_before <= c.body().height) {
    keep_on_one_page(item);
    return;
  }
  keep_on_one_page(item.first(middle - first));
  keep_on_one_page(item.subspan(middle - first));
}

void add_sentence(Sheet& s, std::size_t number, const AnalyzedSentence& text,
                  ElementId list) {
  const From from(s.c, text.text.span());
  const auto [label, body] = add_list_item(s.c, list);
  const Length width = s.c.width() - kNumberWidth;
  const int lines = hand_lines(text.text.text(), s.ruling.x_height, width);
  const std::size_t first = s.c.blocks().size();
  const ElementId own = add_writing_lines(s.c, body, lines);
  for (int i = 0; i < lines; ++i) {
    Block& block = s.c.block(set_pitch(s.ruling), i == 0 ? 3_mm : Length());
    if (i == 0) draw_number(s, block, number, Length(), label);
    draw_set(block, s.c.style(), s.ruling, {kNumberWidth, 0_mm}, width, own);
  }
  const std::size_t middle = s.c.blocks().size();
  if (s.mends) {
    const Length margin = mending_margin(s);
    const ElementId mending = add_writing_lines(s.c, body, lines);
    for (int i = 0; i < lines; ++i) {
      Block& block = s.c.block(set_pitch(s.ruling));
      if (i == 0) {
        draw_mending_label(s, block, {0_mm, base_in_set(s.mending)}, body);
      }
      draw_set(block, s.c.style(), s.mending, {margin, 0_mm},
               s.c.width() - margin, mending);
    }
  }
  keep_item_together(s.c, first, middle);
}

// A piece of a printed sentence: letters, or a blank for a pattern word. No
// line is broken between pieces that touch.
struct Piece {
  std::string text;
  Length blank;
  bool after_space = false;
};

std::vector<Piece> pieces_of(const Sheet& s, const AnalyzedSentence& sentence) {
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
                                 s.ruling.x_height),
                      1.3));
    pieces.push_back({.blank = width, .after_space = before});
    done = part.end;
  }
  add_text(text.size());
  return pieces;
}

// The sentence in print with lines to write its pattern words on, as far apart
// as the hand needs.
void add_gap_sentence(Sheet& s, std::size_t number,
                      const AnalyzedSentence& sentence, ElementId list) {
  const From from(s.c, sentence.text.span());
  const auto [label, body] = add_list_item(s.c, list);
  const TextStyle style = s.c.style().text(s.c.style().reading_size);
  const Length pitch = std::max(set_pitch(s.ruling), style.line_height());
  const Length space =
      width_of(s.c.shape(style, "n n")) - 2 * width_of(s.c.shape(style, "n"));
  const Length base = base_in_set(s.ruling);
  const std::size_t first = s.c.blocks().size();
  draw_number(s, s.c.block(pitch, 4_mm), number, Length(), label);
  Length x = kNumberWidth;
  const std::vector<Piece> pieces = pieces_of(s, sentence);
  const auto width_at = [&](std::size_t i) {
    return pieces[i].text.empty() ? pieces[i].blank
                                  : width_of(s.c.shape(style, pieces[i].text));
  };
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    // What follows without a space stays on the line.
    Length needed = width_at(i);
    for (std::size_t k = i + 1; k < pieces.size() && !pieces[k].after_space;
         ++k) {
      needed += width_at(k);
    }
    if (pieces[i].after_space) x += space;
    if (pieces[i].after_space && x + needed > s.c.width()) {
      x = kNumberWidth;
      s.c.block(pitch);
    }
    Block& block = s.c.blocks().back();
    const Point at{x, base};
    // A space that is heard, not seen.
    const bool parted = i + 1 < pieces.size() && pieces[i + 1].after_space;
    const std::string_view behind = parted ? " " : "";
    if (pieces[i].text.empty()) {
      const Point end{x + pieces[i].blank, at.y};
      block.line(at, end, {.width = s.c.style().box_weight},
                 add_blank(s.c, body));
      if (parted) draw_text(s.c, block, style, behind, end, body);
    } else {
      draw_text(s.c, block, style, fmt::format("{}{}", pieces[i].text, behind),
                at, body);
    }
    x += width_at(i);
  }
  keep_on_one_page(std::span(s.c.blocks()).subspan(first));
}

void add_self_check(Composer& c) {
  const std::vector<TickStep> steps = {
      {"I read back what is there."},
      {"I tapped the sounds. Each has its letters."},
      {"I mended what I found."},
  };
  const std::size_t first = c.blocks().size();
  add_tick_steps(c, c.style().learner_text(), steps, 1_mm);
  c.blocks()[first].space_before = 5_mm;
  // Never alone on a page.
  keep_on_one_page(std::span(c.blocks()).subspan(first - 1));
}

void add_heading(Composer& c, std::string_view text, Length before) {
  add_subheading(c, c.style().text_size, text, before);
}

// The sentences, from block `first` on, begin a page of their own where the
// words leave no room for all of them: better than one alone on the last page.
void keep_together(Composer& c, std::size_t first) {
  const std::span<const Block> blocks = c.blocks();
  const Length words = height_of(blocks.first(first));
  const Length rest = height_of(blocks.subspan(first));
  const Length page = c.body().height;
  // Pages that the words take, and what stays free at the end of each.
  const std::int64_t pages = (words + page - 1_pt) / page;
  const Length waste = c.blocks().front().height * (pages > 1 ? pages : 0);
  if (first > 0 && words + rest + waste > page * pages) {
    c.blocks()[first].new_page = true;
  }
}

void compose(const SheetInput& in, Composer& c) {
  Sheet s = sheet_of(in, c);
  const auto [words, sentences] = dictated(in.lesson, in.options);
  if (in.options.choice("show") == "numbers") {
    add_dictation_numbers(c, {words, sentences});
    return;
  }
  if (!words.empty()) {
    add_heading(c, "Words", 0_mm);
    add_words(s, words);
  }
  const std::size_t first = c.blocks().size();
  if (!sentences.empty()) {
    add_heading(c, "Sentences", 6_mm);
    const ElementId list = c.add(Role::list);
    const bool gaps = in.options.choice("sentence-form") == "gaps";
    std::size_t number = words.size();
    for (const AnalyzedSentence& sentence : sentences) {
      if (gaps && sentence.pattern_words() > 0) {
        add_gap_sentence(s, ++number, sentence, list);
      } else {
        add_sentence(s, ++number, sentence, list);
      }
    }
  }
  if (in.options.flag("self-check")) {
    const From from(c, in.options.span("self-check"));
    add_self_check(c);
  }
  if (!sentences.empty()) keep_together(c, first);
  even_pages(c.blocks(), c.body().height);
}

std::string missing(const SheetInput& in) {
  const auto [words, sentences] = dictated(in.lesson, in.options);
  return words.empty() && sentences.empty()
             ? "there are no words or sentences to dictate"
             : "";
}

void answers(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  std::size_t number = 0;
  const auto [words, sentences] = dictated(in.lesson, in.options);
  // The script has the sentences to say words in, else they are said from here.
  for (const AnalyzedWord& word : words) {
    const From from(c, word.spelling.span);
    std::vector<TextPiece> pieces = {{fmt::format("{}.  ", ++number), plain}};
    append(pieces, marked_word(in.lesson, word, plain, strong));
    pieces.push_back({" – ", plain});
    pieces.push_back(spelled_piece(word, plain));
    const InSentence said = in_sentence(in.lesson, word);
    if (!said.alikes.empty()) {
      pieces.push_back({fmt::format(" ({})", said.not_these()), plain});
    }
    if (!in.has_script && !said.sentence.empty()) {
      pieces.push_back({fmt::format(" – “{}”", said.sentence), plain});
    }
    add_paragraph(c, pieces);
  }
  for (const AnalyzedSentence& sentence : sentences) {
    const From from(c, sentence.text.span());
    std::vector<TextPiece> pieces = {{fmt::format("{}.  ", ++number), plain}};
    append(pieces, marked_sentence(sentence, plain, strong));
    add_paragraph(c, pieces);
  }
}

Direction other_direction(const SheetInput& in) {
  if (in.plain_voice) {
    return {"Write what you hear. Read it back and correct it."};
  }
  if (in.options.choice("show") == "lines") return {};
  return {"Listen. Say it. Write it beside its number. Read it back.",
          Action::listen};
}

const SheetKind kKind = {
    .name = "dictation",
    .title = "Listen and write",
    .direction = "Listen. Say it. Write it. Read it back and mend it.",
    .action = Action::listen,
    .other_direction = other_direction,
    .summary = "numbered lines for dictated words and sentences",
    .minutes = 15,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::dictation_sheet
