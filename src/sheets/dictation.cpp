// The learner writes words and sentences that the teacher says, on numbered
// lines, then checks and mends them. On the page: nothing that helps; a line
// for each word, two beside each other, for each sentence as many lines as a
// hand of this size needs; below them lines for what is written again, and
// steps to check. Three levels: words only; sentences that are printed but for
// their pattern words; whole sentences.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/numbered_steps.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/dictated.h"
#include "sheets/dictation_numbers.h"
#include "sheets/gap_sentence.h"
#include "sheets/in_sentence.h"
#include "sheets/own_words.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
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
    {"mending-line", Kind::flag, "yes",
     "lines to write again what was mended, where there is room"},
};

constexpr Length kMiddle = 8_mm;
// The first lines keep clear of what is above.
constexpr Length kFirstRow = 2_mm;
constexpr Length kBeforeSentence = 3_mm;
constexpr Length kBeforeGapSentence = 4_mm;
constexpr Length kBeforeHeading = 6_mm;
constexpr Length kBeforeCheck = 4_mm;
constexpr Length kBetweenChecks = 1_mm;       // one below the other
constexpr Length kLeastBetweenChecks = 8_mm;  // beside each other
// Lines stand this near where a page would else not have room for all.
constexpr Length kLeastGap = 2_mm;
constexpr int kMostMending = 4;

struct Sheet {
  const SheetInput& in;
  Composer& c;
  Ruling ruling;
  Length indent;  // behind the numbers
  int word_columns;
  bool mends;
};

// Two columns where the words, by hand, leave room for it.
int word_columns(const Sheet& s, std::span<const AnalyzedWord> words) {
  const Length room = (s.c.width() - kMiddle) / 2 - s.indent;
  const bool fit = std::ranges::all_of(words, [&](const AnalyzedWord& word) {
    return scaled(hand_width(word.reading.word, s.ruling.x_height), 1.1) <=
           room;
  });
  return fit ? 2 : 1;
}

Sheet sheet_of(const SheetInput& in, Composer& c) {
  const auto [words, sentences] = dictated(in.lesson, in.options);
  const std::string last = fmt::format("{}", words.size() + sentences.size());
  Sheet s{.in = in,
          .c = c,
          .ruling = ruling_of(in, c.style()),
          .indent = std::max(
              10_mm, width_of(c.shape(c.style().learner_text(), last)) + 3_mm),
          .word_columns = 1,
          .mends = in.options.flag("mending-line")};
  s.word_columns = word_columns(s, words);
  return s;
}

void draw_number(Sheet& s, Block& block, std::size_t number, Length left,
                 ElementId label) {
  const TextStyle style = s.c.style().learner_text();
  draw_text(s.c, block, style, fmt::format("{}", number),
            {left, base_in_set(s.ruling)}, label);
}

Length column_width(const Sheet& s, int columns) {
  return (s.c.width() - kMiddle * (columns - 1)) / columns;
}

void add_words(Sheet& s, std::span<const AnalyzedWord> words) {
  const ElementId list = s.c.add(Role::list);
  const Length width = column_width(s, s.word_columns);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const From from(s.c, words[i].spelling.span);
    const auto [label, body] = add_list_item(s.c, list);
    const int column = static_cast<int>(i) % s.word_columns;
    if (column == 0) {
      s.c.block(set_pitch(s.ruling), i == 0 ? kFirstRow : Length());
    }
    Block& block = s.c.blocks().back();
    const Length left = (width + kMiddle) * column;
    draw_number(s, block, i + 1, left, label);
    draw_set(block, s.c.style(), s.ruling, {left + s.indent, 0_mm},
             width - s.indent, add_writing_lines(s.c, body));
  }
}

int lines_of(const Sheet& s, const AnalyzedSentence& text) {
  return hand_lines(text.text.text(), s.ruling.x_height,
                    s.c.width() - s.indent);
}

void add_sentence(Sheet& s, std::size_t number, const AnalyzedSentence& text,
                  ElementId list) {
  const From from(s.c, text.text.span());
  const auto [label, body] = add_list_item(s.c, list);
  const Length width = s.c.width() - s.indent;
  const int lines = lines_of(s, text);
  const std::size_t first = s.c.blocks().size();
  const ElementId own = add_writing_lines(s.c, body, lines);
  for (int i = 0; i < lines; ++i) {
    Block& block =
        s.c.block(set_pitch(s.ruling), i == 0 ? kBeforeSentence : Length());
    if (i == 0) draw_number(s, block, number, Length(), label);
    draw_set(block, s.c.style(), s.ruling, {s.indent, 0_mm}, width, own);
  }
  // Lines in large print that are more than a page go on on the next.
  keep_on_one_page(std::span(s.c.blocks()).subspan(first));
}

// The sentence in print with lines to write its pattern words on, as far apart
// as the hand needs.
void add_gap_sentence(Sheet& s, std::size_t number,
                      const AnalyzedSentence& sentence, ElementId list) {
  const From from(s.c, sentence.text.span());
  const auto [label, body] = add_list_item(s.c, list);
  const GapSentence text =
      place_gap_sentence(s.c, sentence, s.ruling, s.indent);
  const Length base = base_in_set(s.ruling);
  const std::size_t first = s.c.blocks().size();
  draw_number(s, s.c.block(text.pitch, kBeforeGapSentence), number, Length(),
              label);
  int line = 0;
  for (std::size_t i = 0; i < text.places.size(); ++i) {
    const GapSentence::Place& place = text.places[i];
    if (place.line > line) s.c.block(text.pitch);
    line = place.line;
    Block& block = s.c.blocks().back();
    const Point at{place.x, base};
    // A space that is heard, not seen.
    const bool parted =
        i + 1 < text.places.size() && text.places[i + 1].piece.after_space;
    const std::string_view behind = parted ? " " : "";
    if (place.piece.text.empty()) {
      const Point end{place.x + place.piece.blank, at.y};
      block.line(at, end, {.width = s.c.style().box_weight},
                 add_blank(s.c, body));
      if (parted) draw_text(s.c, block, text.style, behind, end, body);
    } else {
      draw_text(s.c, block, text.style,
                fmt::format("{}{}", place.piece.text, behind), at, body);
    }
  }
  keep_on_one_page(std::span(s.c.blocks()).subspan(first));
}

const std::vector<std::string>& steps_to_check() {
  static const std::vector<std::string> kSteps = {
      "I read it back.", "I tapped each sound.", "I mended it."};
  return kSteps;
}

Length check_indent(const TextStyle& text) {
  return tick_side(text) + text.size * 7 / 10;
}

// What is left of a line that has all of them; less than nothing where they
// stand one below the other.
Length room_beside_checks(Composer& c) {
  const TextStyle text = c.style().learner_text();
  Length room = c.width();
  for (const std::string& step : steps_to_check()) {
    room -= check_indent(text) + width_of(c.shape(text, step));
  }
  return room;
}

bool checks_stand_beside(Composer& c) {
  return room_beside_checks(c) >= kLeastBetweenChecks * 2;
}

void add_self_check(Composer& c) {
  const TextStyle text = c.style().learner_text();
  const bool beside = checks_stand_beside(c);
  const Length between = std::min(room_beside_checks(c) / 2, 20_mm);
  const ElementId list = c.add(Role::list);
  const Length base = baseline_in_line(text);
  Length left;
  for (const std::string& step : steps_to_check()) {
    const bool first = &step == steps_to_check().data();
    if (first || !beside) {
      // Never alone on a page.
      if (!c.blocks().empty()) c.blocks().back().keep_with_next = true;
      c.block(text.line_height(), first ? kBeforeCheck : kBetweenChecks);
    }
    Block& block = c.blocks().back();
    const auto [label, body] = add_list_item(c, list);
    draw_tick_box(block, c.style(), text, {left, base},
                  add_tick_boxes(c, label));
    const Length wide = draw_text(c, block, text, step,
                                  {left + check_indent(text), base}, body);
    if (beside) left += check_indent(text) + wide + between;
  }
}

void add_heading(Composer& c, std::string_view text, Length before) {
  add_subheading(c, c.style().text_size, text, before);
}

// Lines to write again what was mended, whichever it was. They take no room for
// letters above and below.
void add_mending(Sheet& s, int rows, int columns) {
  const From from(s.c, s.in.options.span("mending-line"));
  add_heading(s.c, s.in.plain_voice ? "Corrections" : "Mend it here",
              kBeforeHeading);
  Ruling ruling = s.ruling;
  ruling.style = LineStyle::base_only;
  const ElementId lines =
      add_writing_lines(s.c, s.c.add(Role::paragraph), rows * columns);
  const Length width = column_width(s, columns);
  for (int row = 0; row < rows; ++row) {
    Block& block = s.c.block(set_height(ruling));
    block.keep_with_next = row + 1 < rows;
    for (int column = 0; column < columns; ++column) {
      draw_set(block, s.c.style(), ruling, {(width + kMiddle) * column, 0_mm},
               width, lines);
    }
  }
}

// The words, the sentences or both as they stand on a page of their own, first
// as heights, then as blocks.
struct Part {
  std::span<const AnalyzedWord> words;
  std::span<const AnalyzedSentence> sentences;
  std::size_t numbered = 0;  // items on pages before
  bool checks = false;
};

class PartMaker {
 public:
  PartMaker(const SheetInput& in, Composer& c)
      : s_(sheet_of(in, c)),
        full_gap_(s_.ruling.gap),
        least_gap_(std::min(kLeastGap, full_gap_)) {}

  bool fits(const Part& part) {
    return height(part, least_gap_, s_.mends ? 1 : 0) <= page();
  }
  // All of it on one page that it fits. What is left there becomes more lines
  // to mend on, and then room between the lines.
  void add_on_page(const Part& part);
  // On as many pages as it takes, which has no lines to mend on.
  void add_flowing(const Part& part);

 private:
  // The last line keeps clear of the footer.
  Length page() const { return s_.c.body().height - 2_mm; }
  Length heading_height() const {
    return s_.c.style().text(s_.c.style().text_size, true).line_height();
  }
  bool has_gaps(const AnalyzedSentence& sentence) const {
    return s_.in.options.choice("sentence-form") == "gaps" &&
           sentence.pattern_words() > 0;
  }
  // Beside each other where words are mended, else as wide as the page.
  int mending_columns(const Part& part) const {
    return part.words.empty() ? 1 : s_.word_columns;
  }
  Length sentence_height(const AnalyzedSentence& sentence);
  Length height(const Part& part, Length gap, int mending_rows);
  void add_items(const Part& part);
  void spread(std::size_t first, Length room);

  Sheet s_;
  Length full_gap_, least_gap_;
};

Length PartMaker::sentence_height(const AnalyzedSentence& sentence) {
  if (!has_gaps(sentence)) {
    return kBeforeSentence + set_pitch(s_.ruling) * lines_of(s_, sentence);
  }
  const GapSentence text =
      place_gap_sentence(s_.c, sentence, s_.ruling, s_.indent);
  return kBeforeGapSentence + text.pitch * text.lines();
}

// Where lines stand this far apart, with so many rows of lines to mend on.
Length PartMaker::height(const Part& part, Length gap, int mending_rows) {
  s_.ruling.gap = gap;
  Length sum;
  if (!part.words.empty()) {
    const int rows =
        (static_cast<int>(part.words.size()) + s_.word_columns - 1) /
        s_.word_columns;
    sum += heading_height() + kFirstRow + set_pitch(s_.ruling) * rows;
  }
  if (!part.sentences.empty()) {
    if (sum > Length()) sum += kBeforeHeading;
    sum += heading_height();
    for (const AnalyzedSentence& sentence : part.sentences) {
      sum += sentence_height(sentence);
    }
  }
  if (mending_rows > 0) {
    sum += kBeforeHeading + heading_height() +
           set_height(s_.ruling) * mending_rows;
  }
  if (part.checks) {
    const auto rows = static_cast<std::int64_t>(
        checks_stand_beside(s_.c) ? 1 : steps_to_check().size());
    sum += kBeforeCheck + kBetweenChecks * (rows - 1) +
           s_.c.style().learner_text().line_height() * rows;
  }
  return sum;
}

void PartMaker::add_items(const Part& part) {
  if (!part.words.empty()) {
    add_heading(s_.c, "Words", 0_mm);
    add_words(s_, part.words);
  }
  if (part.sentences.empty()) return;
  add_heading(s_.c, "Sentences", part.words.empty() ? 0_mm : kBeforeHeading);
  const ElementId list = s_.c.add(Role::list);
  std::size_t number = part.numbered + part.words.size();
  for (const AnalyzedSentence& sentence : part.sentences) {
    if (has_gaps(sentence)) {
      add_gap_sentence(s_, ++number, sentence, list);
    } else {
      add_sentence(s_, ++number, sentence, list);
    }
  }
}

// Room between all lines alike, but not so much that they fall apart.
void PartMaker::spread(std::size_t first, Length room) {
  const std::span<Block> blocks = std::span(s_.c.blocks()).subspan(first);
  if (blocks.size() < 2) return;
  const Length most = s_.mends ? 5_mm : 9_mm;
  const Length each =
      std::min(room / static_cast<std::int64_t>(blocks.size() - 1), most);
  for (Block& block : blocks.subspan(1)) block.space_before += each;
}

void PartMaker::add_on_page(const Part& part) {
  int rows = s_.mends ? 1 : 0;
  Length gap = full_gap_;
  while (gap > least_gap_ && height(part, gap, rows) > page()) gap -= 0.25_mm;
  gap = std::max(gap, least_gap_);
  while (rows > 0 && rows < kMostMending &&
         height(part, gap, rows + 1) <= page()) {
    ++rows;
  }
  const Length room = page() - height(part, gap, rows);
  const std::size_t first = s_.c.blocks().size();
  add_items(part);
  if (rows > 0) add_mending(s_, rows, mending_columns(part));
  if (part.checks) add_self_check(s_.c);
  spread(first, room);
  s_.c.blocks()[first].new_page = first > 0;
}

void PartMaker::add_flowing(const Part& part) {
  s_.ruling.gap = full_gap_;
  add_items(part);
  if (part.checks) add_self_check(s_.c);
  even_pages(s_.c.blocks(), s_.c.body().height);
}

void compose(const SheetInput& in, Composer& c) {
  const auto [words, sentences] = dictated(in.lesson, in.options);
  if (in.options.choice("show") == "numbers") {
    add_dictation_numbers(c, {words, sentences});
    return;
  }
  const bool checks = in.options.flag("self-check");
  PartMaker maker(in, c);
  const Part all{.words = words, .sentences = sentences, .checks = checks};
  const Part first{.words = words};
  const Part second{
      .sentences = sentences, .numbered = words.size(), .checks = checks};
  if (maker.fits(all)) {
    maker.add_on_page(all);
  } else if (!words.empty() && !sentences.empty() && maker.fits(first) &&
             maker.fits(second)) {
    maker.add_on_page(first);
    maker.add_on_page(second);
  } else {
    maker.add_flowing(all);
  }
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
    const InSentence said = in.has_script ? only_alikes(in.lesson, word)
                                          : in_sentence(in.lesson, word);
    if (!said.alikes.empty()) {
      pieces.push_back({fmt::format(" ({})", said.not_these()), plain});
    }
    if (!in.has_script && !said.sentence.empty()) {
      pieces.push_back({fmt::format(" – “{}”", said.sentence), plain});
    }
    add_paragraph(c, pieces);
  }
  if (const auto own = dictate_own_words(in, words.size()); !own.empty()) {
    add_paragraph(c, plain, own);
  }
  for (std::size_t i = 0; i < sentences.size(); ++i) {
    const AnalyzedSentence& sentence = sentences[i];
    const From from(c, sentence.text.span());
    const std::string place = sentence_number(in, words.size(), i);
    std::vector<TextPiece> pieces = {
        {place.empty() ? "Next:  " : fmt::format("{}.  ", place), plain}};
    append(pieces, marked_sentence(sentence, plain, strong));
    add_paragraph(c, pieces);
  }
}

Direction other_direction(const SheetInput& in) {
  if (in.plain_voice) {
    return {"Write what you hear. Read it back and correct it."};
  }
  if (in.options.choice("show") == "lines") return {};
  return {"Listen. Say it. Write the number and the word. Read it back.",
          Action::listen};
}

const SheetKind kKind = {
    .name = "dictation",
    .title = "Listen and write",
    .direction = "Listen. Say it. Write it. Read it back and mend it.",
    .action = Action::listen,
    .other_direction = other_direction,
    .summary = "numbered lines for dictated words and sentences",
    .part = DayPart::check,
    .minutes = 14,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::dictation,
    .script_extra = sheet_script::dictation_extra,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::dictation_sheet
