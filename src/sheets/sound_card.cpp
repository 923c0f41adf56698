// Ties the pattern to a key word. On the page, for each pattern of the lesson:
// a large card with the grapheme (a blend with a mark under each grapheme, a
// word in its beats, base and ending: whatever the pattern is about), a picture
// of the key word or a frame to draw it in, the key word, what the learner is
// told of it, and lines to write on while saying it; then the teacher's rhyme,
// with its blanks, and pictures of words to swap into them.

#include <fmt/format.h>

#include <algorithm>

#include "layout/begun_line.h"
#include "layout/heard.h"
#include "layout/picture_frame.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/pattern_card.h"
#include "sheets/rhyme_words.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::sound_card_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"grapheme-size", Kind::length, "96 pt", "the grapheme on the card",
     "40 pt", "200 pt"},
    {"card-height", Kind::length, "72 mm",
     "height of a card; two on a page may be lower", "40 mm", "120 mm"},
    {"picture", Kind::flag, "yes", "a picture of the key word, or a frame"},
    {"write", Kind::flag, "yes", "lines to write on; else the card alone"},
    {"lines", Kind::count, "0",
     "lines to write the grapheme, for each card; 0 fills the page", "0", "8"},
};

// The type size at which a text fits a width.
TextStyle fitted(Composer& c, Length size, bool bold, std::string_view text,
                 Length room) {
  const TextStyle style = c.style().text(size, bold);
  return fitted_style(style, width_of(c.shape(style, text)), room);
}

// Where the parts of a card go: the middle line of what is beside the picture,
// its width, and how far up and down there is room.
struct Room {
  Length middle, width, top, bottom;
  Length small;  // size of the text beside what is largest
  Length height() const { return bottom - top; }
};

Length pad_of(Length card) { return std::min(6_mm, card / 10); }
constexpr Length kAboveCard = 5_mm;
constexpr Length kLowestCard = 40_mm;
constexpr Length kAboveTold = 3_mm;
constexpr Length kAboveLines = 8_mm;

void draw_key_picture(const SheetInput& in, Composer& c, Block& block,
                      const PatternCard& card, std::size_t number, Length pad,
                      Length side) {
  const From from(c, card.key->spelling.span);
  const Picture* picture = in.pictures.find(card.key->reading.word);
  const ElementId figure =
      add_picture(c, 0, picture,
                  {.word = card.key->reading.word,
                   .number = number,
                   .what = "key picture",
                   .frame = "an empty frame to draw the key word in"});
  draw_picture(block, c.style(), picture, {pad, pad, side, side}, figure);
}

ElementId add_text(Composer& c, std::string_view text, std::string heard) {
  return add_heard_as(c, c.add(Role::paragraph), text, std::move(heard));
}

// A line of text at the foot of the card, which takes its room.
void draw_foot(Composer& c, Block& block, std::string_view text, Room& room) {
  const TextStyle style = fitted(c, room.small, false, text, room.width);
  draw_centred(c, block, style, text,
               {room.middle, room.bottom - scaled(style.size, 0.3)},
               add_text(c, text, heard_signs(text)));
  room.bottom -= scaled(style.size, 1.15);
}

// What the word is made of, above what came of it. A letter that goes is struck
// out.
void draw_sum(Composer& c, Block& block, const PatternCard& card, Room& room) {
  const std::string sum = card.sum();
  const TextStyle style = fitted(c, room.small, false, sum, room.width);
  const GlyphRun run = c.shape(style, sum);
  const Length left = room.middle - width_of(run) / 2;
  const Length base =
      room.top + style.line_height() / 2 + scaled(style.size, 0.25);
  const bool goes = card.joint == Joint::dropped_e ||
                    card.joint == Joint::y_to_i || card.joint == Joint::f_to_v;
  std::string heard = heard_signs(sum);
  if (goes) {
    heard += fmt::format(", {} struck out", card.parts.front().back());
  }
  const ElementId text = add_text(c, sum, heard);
  block.glyphs(run, {left, base}, text);
  if (goes) {
    const std::string& word = card.parts.front();
    const Length before =
        width_of(c.shape(style, word.substr(0, word.size() - 1)));
    const Length behind = width_of(c.shape(style, word));
    block.line({left + before - 0.5_mm, base + scaled(style.size, 0.12)},
               {left + behind + 0.5_mm, base - scaled(style.size, 0.6)},
               {.width = c.style().box_weight * 2}, text);
  }
  room.top += style.line_height();
}

std::string heard_face(const PatternCard& card) {
  if (!card.beats.empty()) return heard_parts(card.beats);
  std::string heard = heard_grapheme(card.face);
  if (card.changed_end > card.changed_begin) {
    heard +=
        fmt::format(", {} underlined",
                    card.face.substr(card.changed_begin,
                                     card.changed_end - card.changed_begin));
  }
  return heard;
}

// The largest text of the card, in the middle of its room; a line under the
// letters that an ending changed.
void draw_face(const SheetInput& in, Composer& c, Block& block,
               const PatternCard& card, const Room& room) {
  const Length wanted =
      std::min(in.options.length("grapheme-size"), scaled(room.height(), 0.85));
  const Length middle = room.top + room.height() / 2;
  if (!card.touched.empty()) {
    TouchWordOptions options;
    options.text = c.style().text(wanted, true);
    options.mark_spacing = c.style().mark_spacing;
    options.guide_weight = c.style().guide_weight;
    options.arrow = false;
    TouchWord word(c, card.face, card.touched, options);
    for (int tries = 0; tries < 8; ++tries) {
      const double share =
          std::min(static_cast<double>(room.width.mils()) /
                       static_cast<double>(word.width().mils()),
                   static_cast<double>(room.height().mils()) /
                       static_cast<double>(word.height().mils()));
      if (share >= 1) break;
      options.text.size = scaled(options.text.size, share * 0.99);
      word = TouchWord(c, card.face, card.touched, options);
    }
    word.draw(c, block,
              {room.middle - word.width() / 2, middle - word.height() / 2},
              c.add(Role::paragraph));
    return;
  }
  const TextStyle big = fitted(c, wanted, true, card.face, room.width);
  const Length base = middle + scaled(big.size, 0.25);
  const ElementId text = add_text(c, card.face, heard_face(card));
  draw_centred(c, block, big, card.face, {room.middle, base}, text);
  if (card.changed_end == card.changed_begin) return;
  const Length left = room.middle - width_of(c.shape(big, card.face)) / 2;
  const auto to = [&](std::size_t end) {
    return left + width_of(c.shape(big, card.face.substr(0, end)));
  };
  const bool hangs =
      card.face.find_first_of("gjpqy", card.changed_begin) < card.changed_end;
  const Length under = base + scaled(big.size, hangs ? 0.28 : 0.1);
  block.line({to(card.changed_begin), under}, {to(card.changed_end), under},
             {.width = c.style().box_weight * 3}, text);
}

void draw_card(const SheetInput& in, Composer& c, const PatternCard& card,
               std::size_t number, Length height, bool new_page) {
  using Look = PatternText::Card;
  Block& block = c.block(height, kAboveCard);
  block.new_page = new_page;
  block.keep_with_next = true;
  block.frame({0_mm, 0_mm, c.width(), height},
              {.width = c.style().box_weight * 3 / 2});
  const Length pad = pad_of(height);
  // A frame to draw in says nothing, and not every word can be drawn.
  const bool has_picture = in.options.flag("picture") && card.key != nullptr &&
                           in.pictures.has(card.key->reading.word);
  const Length side = has_picture ? height - 2 * pad : Length();
  Room room{pad + side + (c.width() - pad - side) / 2,
            c.width() - side - 4 * pad, pad, height - pad,
            std::min(scaled(c.style().word_size, 1.2), scaled(height, 0.19))};
  if (card.key != nullptr && has_picture) {
    draw_key_picture(in, c, block, card, number, pad, side);
  }
  const bool made = card.look == Look::join || card.look == Look::parts;
  const bool affix = card.look == Look::ending || card.look == Look::prefix;
  if (made) draw_sum(c, block, card, room);
  if (card.key != nullptr && card.face != card.key->reading.word) {
    const From from(c, card.key->spelling.span);
    const std::string& word = card.key->reading.word;
    const std::string sum = affix ? card.sum() : "";
    draw_foot(c, block, sum.empty() ? word : sum + " = " + word, room);
  }
  draw_face(in, c, block, card, room);
}

// What the learner is told of the pattern. Where that takes a second line, "as
// in ship" stays together on it: a word alone there looks lost.
std::string told_text(Composer& c, const TextStyle& style,
                      const PatternCard& card) {
  constexpr std::string_view kExample = " as in ";
  constexpr std::size_t kWords = 3;
  const auto lines = break_lines(c, style, card.learner, c.width());
  const std::size_t at = card.learner.rfind(kExample);
  if (lines.size() < 2 || lines.back().runs.size() >= kWords ||
      at == std::string::npos) {
    return card.learner;
  }
  std::string together = card.learner.substr(0, at + 1);
  for (const char letter : card.learner.substr(at + 1)) {
    together += letter == ' ' ? "\u00A0" : std::string(1, letter);
  }
  return break_lines(c, style, together, c.width()).size() == lines.size()
             ? together
             : card.learner;
}

// That, and beneath it the sounds of an ending that has several, with that of
// the week in bold.
void add_told(Composer& c, const PatternCard& card) {
  const TextStyle style = c.style().text(c.style().reading_size);
  if (!card.learner.empty()) {
    add_paragraph(c, style, told_text(c, style, card),
                  {.space_before = kAboveTold, .keep_with_next = true});
  }
  if (card.sounds.empty()) return;
  const TextStyle strong = c.style().text(c.style().reading_size, true);
  std::vector<TextPiece> pieces;
  std::string heard;
  for (const PatternCard::Sounds& s : card.sounds) {
    if (!pieces.empty()) pieces.push_back({"   ", style});
    heard += fmt::format("{}{}, {}{}", heard.empty() ? "" : "; ", s.word,
                         heard_signs(s.sound), s.own ? ", in bold" : "");
    pieces.push_back(
        {fmt::format("{}\u00A0{}", s.word, s.sound), s.own ? strong : style});
  }
  add_paragraph(c, pieces, {.keep_with_next = true, .heard = heard});
}

Length told_height(Composer& c, const PatternCard& card) {
  const TextStyle style = c.style().text(c.style().reading_size);
  if (card.learner.empty()) return Length();
  const auto lines = static_cast<std::int64_t>(
      break_lines(c, style, card.learner, c.width()).size());
  return kAboveTold +
         style.line_height() * (lines + (card.sounds.empty() ? 0 : 1));
}

constexpr Length kSwapPicture = 22_mm;
constexpr Length kAboveSwap = 4_mm;

// Whether words to swap into the rhyme are shown as pictures.
bool has_swap_pictures(const SheetInput& in,
                       const std::vector<RhymeWord>& words) {
  return in.options.flag("picture") &&
         std::ranges::any_of(
             words, [](const RhymeWord& w) { return w.picture != nullptr; });
}

// How much of the page the rhyme takes, with the words to swap in.
Length rhyme_height(const SheetInput& in, const Composer& c,
                    const std::vector<RhymeWord>& words) {
  const auto verses = static_cast<std::int64_t>(in.lesson.lesson->rhyme.size());
  if (verses == 0) return Length();
  const Length line = c.style().text(c.style().reading_size).line_height();
  Length height = line * verses + 6_mm;
  if (has_swap_pictures(in, words)) {
    height += kSwapPicture + kAboveSwap;
  } else if (!words.empty()) {
    height += line + kAboveSwap;
  }
  return height;
}

// How the cards lie: two on a page where they fit without being much lower than
// asked for, else one; and as many lines to write on as there is room for.
struct Plan {
  std::size_t per_page = 1;
  Length card;
  int lines = 1;
};

Plan plan_cards(const SheetInput& in, Composer& c,
                const std::vector<PatternCard>& cards, Length rhyme) {
  constexpr int kMostLines = 8;
  const Length pitch = set_pitch(c.style().ruling);
  const bool writes = in.options.flag("write");
  const int asked = writes ? in.options.count("lines") : 0;
  Length told;
  for (const PatternCard& card : cards) {
    told = std::max(told, told_height(c, card));
  }
  const Length rest = kAboveCard + kAboveLines + told;
  Plan plan{1, in.options.length("card-height"), asked};
  Length room = c.body().height - (cards.size() == 1 ? rhyme : Length());
  if (!writes) {
    plan.lines = 0;
    return plan;
  }
  if (cards.size() > 1) {
    const Length low = room / 2 - rest - pitch * std::max(1, asked);
    if (low >= std::min(kLowestCard, plan.card)) {
      plan.per_page = 2;
      plan.card = std::min(plan.card, low);
      room = room / 2;
    }
  }
  if (asked == 0) {
    plan.lines = std::clamp(static_cast<int>((room - rest - plan.card) / pitch),
                            1, kMostLines);
  }
  return plan;
}

// What is written on the lines: the grapheme; where the pattern is not about
// one, the key word.
std::string to_write(const PatternCard& card) {
  // Without a key word the card has the name of the pattern.
  if (card.key == nullptr) return "";
  return card.is_sound() && card.beats.empty() ? card.face
                                               : card.key->reading.word;
}

// The first line begins with what is to be written, as large as it is written.
void add_lines(Composer& c, const PatternCard& card, int lines) {
  if (lines == 0) return;
  const Ruling& ruling = c.style().ruling;
  const std::string model = to_write(card);
  const bool begun =
      !model.empty() && begun_width(c, ruling, model) < c.width() / 2;
  ElementId element = kDecoration;
  for (int i = 0; i < lines; ++i) {
    Block& block = c.block(set_pitch(ruling), i == 0 ? kAboveLines : 0_mm);
    block.keep_with_next = i + 1 < lines;
    if (i == 0 && begun) {
      const ElementId text = c.add(Role::paragraph);
      draw_begun_line(c, block, ruling, model, {}, c.width(), text, true,
                      card.is_sound() ? heard_grapheme(model) : "");
      continue;
    }
    // One element for all: heard as so many lines.
    if (element == kDecoration) {
      element = add_writing_lines(c, 0, lines - (begun ? 1 : 0));
    }
    draw_set(block, c.style(), ruling, {}, c.width(), element);
  }
}

// A line of the rhyme: what stands in braces becomes a blank to write in.
Block& add_rhyme_line(Composer& c, const std::string& line, bool first) {
  const TextStyle style = c.style().text(c.style().reading_size);
  Block& block = c.block(style.line_height(), first ? 6_mm : 0_mm);
  const ElementId element = c.add(Role::paragraph);
  const Length base = baseline_in_line(style);
  Length x;
  std::string_view rest = line;
  while (!rest.empty()) {
    const std::size_t open = std::min(rest.find('{'), rest.size());
    const std::string_view text = rest.substr(0, open);
    if (!text.empty()) {
      x += draw_text(c, block, style, text, {x, base}, element);
    }
    rest.remove_prefix(open);
    const std::size_t close = rest.find('}');
    if (close == std::string_view::npos) break;
    const Length blank = 34_mm;
    block.line({x + 1_mm, base + 1_mm}, {x + blank - 1_mm, base + 1_mm},
               {.width = c.style().box_weight}, add_blank(c, element));
    x += blank;
    rest.remove_prefix(close + 1);
  }
  return c.blocks().back();
}

// Pictures in a row, for learners who cannot read yet; else the words.
void add_swap_words(const SheetInput& in, Composer& c,
                    const std::vector<RhymeWord>& words) {
  if (!has_swap_pictures(in, words)) {
    std::string text;
    for (const RhymeWord& word : words) {
      text += (text.empty() ? "" : "    ") + word.word;
    }
    const TextStyle style = c.style().text(c.style().reading_size);
    Block& block = c.block(style.line_height(), kAboveSwap);
    draw_text(c, block, style, text, {Length(), baseline_in_line(style)},
              c.add(Role::paragraph));
    return;
  }
  Block& block = c.block(kSwapPicture, kAboveSwap);
  const Length step = c.width() / static_cast<std::int64_t>(kMostRhymeWords);
  Length x;
  std::size_t number = 0;
  for (const RhymeWord& word : words) {
    if (word.picture == nullptr) continue;
    const ElementId figure = add_picture(
        c, 0, word.picture,
        {.word = word.word, .number = ++number, .what = "to swap in"});
    draw_picture(block, c.style(), word.picture,
                 {x, Length(), kSwapPicture, kSwapPicture}, figure);
    x += step;
  }
}

void compose(const SheetInput& in, Composer& c) {
  const std::vector<RhymeWord> words = rhyme_words(in);
  const Length height = rhyme_height(in, c, words);
  std::vector<PatternCard> cards;
  for (std::size_t i = 0; i < in.lesson.patterns.size(); ++i) {
    cards.push_back(pattern_card(in.lesson, i));
  }
  const Plan plan = plan_cards(in, c, cards, height);
  for (std::size_t i = 0; i < cards.size(); ++i) {
    const From from(c, in.lesson.patterns[i].written.span);
    // Without lines a card is as tall as what is told of it allows.
    const Length card =
        in.options.flag("write")
            ? plan.card
            : std::clamp(c.body().height - told_height(c, cards[i]) - height,
                         kLowestCard, plan.card);
    draw_card(in, c, cards[i], i + 1, card, i > 0 && i % plan.per_page == 0);
    add_told(c, cards[i]);
    add_lines(c, cards[i], plan.lines);
  }
  const auto& rhyme = in.lesson.lesson->rhyme;
  for (std::size_t i = 0; i < rhyme.size(); ++i) {
    // A short rhyme stays whole.
    constexpr std::size_t kShort = 8;
    const From from(c, rhyme[i].span());
    add_rhyme_line(c, rhyme[i].text(), i == 0).keep_with_next =
        rhyme.size() <= kShort && (i + 1 < rhyme.size() || !words.empty());
  }
  if (!words.empty()) add_swap_words(in, c, words);
}

// Not every pattern is one sound to say.
Direction other_direction(const SheetInput& in) {
  using Look = PatternText::Card;
  const bool in_the_air = !in.options.flag("write");
  bool blends = true;
  for (std::size_t i = 0; i < in.lesson.patterns.size(); ++i) {
    const PatternCard card = pattern_card(in.lesson, i);
    if (card.is_sound() && in.plain_voice) {
      return {"Say the key word and its sound, then write the spelling."};
    }
    if (card.is_sound() && in_the_air) {
      return {"Say the word. Say the sound. Write it in the air.", Action::say};
    }
    if (card.is_sound()) return {};
    blends &= card.look == Look::blend || card.look == Look::closed;
  }
  if (in.plain_voice) {
    return {blends ? "Say the word and each of its sounds, then write it."
                   : "Say the word and how it is made, then write it."};
  }
  if (in_the_air) {
    return {blends ? "Say the word. Say each sound. Write it in the air."
                   : "Say the word. Say how it is made. Write it in the air.",
            Action::say};
  }
  if (blends) {
    return {"Say the word. Say each sound. Write it as you say it.",
            Action::say};
  }
  return {"Say the word. Say how it is made. Write it as you say it.",
          Action::say};
}

const SheetKind kKind = {
    .name = "sound-card",
    .title = "Key word card",
    .direction = "Say the word. Say the sound. Write it as you say it.",
    .action = Action::say,
    .other_direction = other_direction,
    .summary = "the pattern, its key word and lines to write it",
    .minutes = 5,
    .options = kOptions,
    .compose = compose,
    .script = sheet_script::sound_card,
    .script_extra = sheet_script::sound_card_extra,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::sound_card_sheet
