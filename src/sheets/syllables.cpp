// The learner marks the vowels of a long word, decides where it divides, says
// what each part is, reads the parts and then the word; then covers it, says it
// in beats and writes a beat on each line, and the word whole. On the page:
// about four numbered words set wide, so that a dot fits under each vowel and a
// line between two letters; beside each a small box for the number of each
// part's kind; below it a line for each beat, dots between, and a line for the
// word. The first word is done in a box, "Like this"; in the second the vowels
// are marked. What the numbers say stands at the head of each page.

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <memory>

#include "layout/begun_line.h"
#include "layout/heard.h"
#include "layout/model_frame.h"
#include "layout/ruled_lines.h"
#include "sheets/common_options.h"
#include "sheets/long_words.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/syllables_plan.h"
#include "sheets/word_parts.h"

namespace sheaf::syllables_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    kPractiseWordsOption,
    {"per-page", Kind::count, "4", "most words on a page", "1", "8"},
    line_height_option(),
    {"kinds", Kind::flag, "yes",
     "a box for the number of each part's kind, and what the numbers say"},
    {.name = "marks",
     .kind = Kind::choice,
     .fallback = "fading",
     .help = "what is marked already: the vowels of the second word (fading), "
             "of all words, vowels and parts of all, or nothing",
     .choices = "fading vowels parts none"},
    kLongerFirstOption,
    kModelOption,
};

constexpr Length kMostBetween = 20_mm;
constexpr Length kKeyPad = 2.5_mm;

class Page {
 public:
  Page(const SheetInput& in, Composer& c)
      : c_(c), plan_(in, c), marks_(in.options.choice("marks")) {}

  void compose();

 private:
  Block key_block();
  void add_item(std::size_t index, Block& block, ElementId list);
  // Gives the element that says what is shown in the word.
  ElementId draw_word(Block& block, const AnalyzedWord& word, Point at,
                      bool vowels, bool parts, ElementId body);
  void draw_kinds(Block& block, const AnalyzedWord& word, Length top, bool done,
                  ElementId body);
  void draw_lines(Block& block, const AnalyzedWord& word, Length top, bool done,
                  ElementId body, ElementId divided);

  Composer& c_;
  Plan plan_;
  const std::string& marks_;
};

// "1 closed   2 open": what the numbers in the boxes say, in a frame.
Block Page::key_block() {
  const TextStyle plain = c_.style().learner_text();
  const TextStyle strong = c_.style().text(c_.style().text_size, true);
  std::vector<TextPiece> pieces;
  for (const PartKind kind : kinds_of(plan_.words())) {
    if (!pieces.empty()) {
      pieces.back().text += "\u00A0\u00A0 ";
      pieces.back().heard += ";";
    }
    std::string name(kind_name(kind));
    for (std::size_t at; (at = name.find(' ')) != std::string::npos;) {
      name.replace(at, 1, "\u00A0");
    }
    pieces.push_back({fmt::format("{}\u00A0", kind_number(kind)), strong});
    pieces.push_back({name, plain});
    pieces.back().heard = std::string(kind_name(kind));
  }
  const Length width = c_.width() - 2 * kKeyPad;
  const std::vector<TextLine> lines = break_lines(c_, pieces, width);
  Block block;
  block.height =
      plain.line_height() * static_cast<std::int64_t>(lines.size()) + kKeyPad;
  block.keep_with_next = true;
  const ElementId element = c_.add(Role::paragraph);
  Length y = kKeyPad / 2;
  for (const TextLine& line : lines) {
    draw_line(c_, block, line, {kKeyPad, y + baseline_in_line(plain)}, element);
    y += plain.line_height();
  }
  block.frame({0_mm, 0_mm, c_.width(), block.height},
              {.width = c_.style().guide_weight});
  return block;
}

// The word, with a dot under each vowel (a line under several letters) and a
// line between two parts, as far as they are to be shown.
ElementId Page::draw_word(Block& block, const AnalyzedWord& word, Point at,
                          bool vowels, bool parts, ElementId body) {
  const std::string& text = word.reading.word;
  const Length base = at.y + baseline_in_line(plan_.text());
  std::string heard = text;
  if (vowels) {
    heard += ", its vowels marked:";
    for (const VowelPlace& v : vowels_of(word)) {
      heard += fmt::format(" {},", text.substr(v.begin, v.end - v.begin));
    }
    heard.pop_back();
  }
  if (parts) heard += fmt::format("; divided: {}", parts_said(word));
  const ElementId element = vowels || parts ? add_heard(c_, body, heard) : body;
  const Length below = base + scaled(plan_.text().size, 0.34);
  const Stroke heavy{.width = c_.style().box_weight * 2, .round_ends = true};
  const std::vector<Piece> pieces = plan_.pieces_of(word, parts);
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Piece& piece = pieces[i];
    const Length left = at.x + piece.x;
    const std::size_t end =
        i + 1 < pieces.size() ? pieces[i + 1].begin : text.size();
    block.glyphs(piece.run, {left, base}, element);
    if (i > 0) {
      const Length x = left - kBetweenParts / 2;
      block.line({x, base - scaled(plan_.text().size, 0.8)},
                 {x, base + scaled(plan_.text().size, 0.24)}, heavy, element);
    }
    if (!vowels) continue;
    for (const VowelPlace& v : vowels_of(word)) {
      if (v.begin < piece.begin || v.begin >= end) continue;
      const InkSpan ink = ink_of(piece.run, v.begin - piece.begin,
                                 std::min(v.end, end) - piece.begin);
      if (v.end - v.begin == 1) {
        block.dot({left + ink.middle(), below}, 2_mm, element);
      } else {
        block.line({left + ink.left, below}, {left + ink.right, below}, heavy,
                   element);
      }
    }
  }
  return element;
}

void Page::draw_kinds(Block& block, const AnalyzedWord& word, Length top,
                      bool done, ElementId body) {
  if (!plan_.has_kinds()) return;
  std::vector<std::string> numbers;
  for (const WordPart& part : word.parts) {
    numbers.push_back(fmt::format("{}", kind_number(part.kind)));
  }
  const ElementId element =
      c_.add(Role::figure, body,
             done ? fmt::format("in the boxes: {}", fmt::join(numbers, ", "))
                  : fmt::format("{} small boxes for the kinds of its parts",
                                numbers.size()));
  const TextStyle text = c_.style().text(c_.style().text_size, true);
  Length x = plan_.right() - Plan::boxes_width(word);
  const Length y = top + (plan_.word_height() - kKindBox) / 2;
  for (const std::string& number : numbers) {
    const Rect box{x, y, kKindBox, kKindBox};
    block.frame(box, {.width = c_.style().box_weight}, element);
    if (done) draw_in_middle(c_, block, text, number, box, element);
    x += kKindBox + kBetweenBoxes;
  }
}

void Page::draw_lines(Block& block, const AnalyzedWord& word, Length top,
                      bool done, ElementId body, ElementId divided) {
  const std::vector<Place> places = plan_.places_of(word);
  const auto y_of = [&](const Place& place) {
    return top + set_pitch(plan_.ruling()) * place.row;
  };
  ElementId element = body;
  ElementId dots = divided;
  if (!done) {
    element = dots =
        c_.add(Role::figure, body,
               fmt::format("{} lines to write on, one for each beat",
                           word.parts.size()));
  }
  for (std::size_t i = 0; i < word.parts.size(); ++i) {
    const Place& place = places[i];
    const Length y = y_of(place);
    if (done) {
      draw_begun_line(c_, block, plan_.ruling(),
                      word.parts[i].of(word.reading.word), {place.x, y},
                      place.width, body, false);
    } else {
      draw_set(block, c_.style(), plan_.ruling(), {place.x, y}, place.width,
               element);
    }
    if (i + 1 < word.parts.size() && places[i + 1].row == place.row) {
      block.dot({place.x + place.width + kBetweenBeats / 2,
                 y + base_in_set(plan_.ruling()) - plan_.ruling().x_height / 2},
                1.6_mm, dots);
    }
  }
  const Place& whole = places.back();
  if (done) {
    draw_begun_line(c_, block, plan_.ruling(), word.reading.word,
                    {whole.x, y_of(whole)}, whole.width, body, false);
    return;
  }
  draw_set(block, c_.style(), plan_.ruling(), {whole.x, y_of(whole)},
           whole.width,
           c_.add(Role::figure, body, "a line for the whole word"));
}

void Page::add_item(std::size_t index, Block& block, ElementId list) {
  const AnalyzedWord& word = *plan_.words()[index];
  const From from(c_, word.spelling.span);
  const bool model = plan_.has_model() && index == 0;
  const ListItem item = add_list_item(c_, list);
  Length top;
  if (model) {
    top = plan_.around().above;
    draw_model_frame(c_, block, model_box(c_, block.height), item.label);
  }
  const TextStyle number = c_.style().learner_text();
  draw_text(c_, block, number, fmt::format("{}", index + 1),
            {plan_.left(), top + baseline_in_line(plan_.text())}, item.label);
  const bool second =
      index == (plan_.has_model() ? 1 : 0) && marks_ == "fading";
  const bool parts = model || marks_ == "parts";
  const ElementId shown =
      draw_word(block, word, {plan_.left() + kNumber, top},
                parts || second || marks_ == "vowels", parts, item.body);
  draw_kinds(block, word, top, model, item.body);
  draw_lines(block, word, top + plan_.to_lines(), model, item.body, shown);
}

void Page::compose() {
  Length key_height;
  std::shared_ptr<const Block> head;
  if (plan_.has_kinds()) {
    Block key = key_block();
    key_height = key.height + kBetweenItems;
    Block again = key;  // with the blank that nothing keeps below a head
    again.height = key_height;
    head = repeated_head(again);
    c_.blocks().push_back(std::move(key));
  }
  plan_.save_pages(key_height);
  const ElementId list = c_.add(Role::list);
  std::size_t begin = 0;
  for (const std::size_t end : plan_.page_ends(key_height)) {
    Length room = c_.body().height - key_height;
    for (std::size_t i = begin; i < end; ++i) room -= plan_.item_height(i);
    const auto gaps = static_cast<std::int64_t>(end - begin);
    const Length gap = std::clamp(room / gaps, kBetweenItems, kMostBetween);
    for (std::size_t i = begin; i < end; ++i) {
      Block& block =
          c_.block(plan_.item_height(i), i == 0 ? kBetweenItems : gap);
      block.new_page = i > 0 && i == begin;
      block.head = head;
      add_item(i, block, list);
    }
    begin = end;
  }
}

void compose(const SheetInput& in, Composer& c) { Page(in, c).compose(); }

std::string missing(const SheetInput& in) {
  const auto words = long_words(in).size();
  if (words > 1) return "";
  return fmt::format("{} word of the list has several beats",
                     words == 0 ? "no" : "only one");
}

Direction other_direction(const SheetInput& in) {
  const bool kinds = in.options.flag("kinds");
  if (in.options.choice("marks") == "parts") {
    return {kinds ? "Number the parts. Read them. Cover the word. Write it in "
                    "beats."
                  : "Read the parts. Cover the word. Write it in beats.",
            Action::read};
  }
  if (in.plain_voice) {
    return {kinds ? "Mark the vowels. Divide the word and number its parts. "
                    "Read it, cover it, and write it in beats."
                  : "Mark the vowels. Divide the word. Read it, cover it, and "
                    "write it in beats."};
  }
  if (!kinds) {
    return {"Mark the vowels. Divide. Read. Cover. Write in beats.",
            Action::read};
  }
  return {};
}

const SheetKind kKind = {
    .name = "syllables",
    .title = "Long words",
    .direction =
        "Mark the vowels. Divide. Number the parts. Read. Cover. Write.",
    .action = Action::read,
    .other_direction = other_direction,
    .summary =
        "long words to divide, with the kind of each part, to read, and to "
        "spell in beats",
    .part = DayPart::spell,
    .daily = true,
    .first_day = 2,
    .minutes = 4,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .share = sheet_script::share_of_syllables,
    .script = sheet_script::syllables,
    .answers = add_long_word_answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::syllables_sheet
