// The learner sees, feels and hears how the sound of the week is made, beside a
// sound that is often taken for it. On the page: a card for each of the two,
// with its spelling, a word, the mouth from the side and what lips, tongue, air
// and voice do; three things to do with a mirror, each to tick; then numbered
// words that the teacher says, with two boxes each: which one do you hear? In
// large type those have a page of their own.

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "layout/heard.h"
#include "layout/mouth_view.h"
#include "layout/numbered_steps.h"
#include "layout/picture_frame.h"
#include "layout/text_block.h"
#include "sheets/mouth_shapes.h"
#include "sheets/sheet.h"
#include "sheets/sound_mouth.h"
#include "sheets/word_parts.h"

namespace sheaf::sound_mouth_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"picture", Kind::length, "58 mm", "height of a mouth", "40 mm", "80 mm"},
    {"mirror", Kind::flag, "yes", "things to do with a mirror, to tick"},
    {"items", Kind::count, "8", "words to tell apart by ear", "0", "16"},
};

constexpr Length kBetweenCards = 6_mm;
constexpr Length kCardPad = 4_mm;
constexpr Length kKeyPicture = 16_mm;
constexpr Length kLeastMouth = 34_mm;
constexpr Length kAboveHeading = 5_mm;
constexpr std::size_t kSounds = 2;

// How both cards are shared out; they are alike.
struct Plan {
  TextStyle grapheme, word, told;
  Length width, mouth, head;
  bool items_apart = false;  // those to tell apart by ear, on a second page
  std::array<std::vector<std::vector<TextLine>>, kSounds> lines;
  Length height;
};

std::string head_of(const SoundMouth& content, std::size_t i) {
  const SoundMouth::Sound& sound = content.sounds[i];
  return sound.grapheme.empty() ? "another sound" : sound.grapheme;
}

// How the words to tell apart stand: in columns, numbers across.
struct Items {
  TextStyle text, number;
  Length numbers, box;
  std::array<Length, kSounds> labels;
  std::int64_t columns = 1, rows = 0;
  Length step, height;
};

Items plan_items(Composer& c, const SoundMouth& content, bool apart) {
  constexpr std::int64_t kFewColumns = 3, kMostColumns = 4;
  Items items;
  items.number = c.style().learner_text();
  items.numbers = width_of(c.shape(items.number, "16")) + 3_mm;
  // In smaller type where the labels are long.
  for (const Length size : {c.style().reading_size, c.style().text_size}) {
    items.text = c.style().text(size);
    items.box = tick_side(items.text) + 2.5_mm;
    Length needed = items.numbers + 2 * items.box;
    for (std::size_t i = 0; i < kSounds; ++i) {
      const std::string label = content.label(static_cast<int>(i));
      items.labels[i] = width_of(c.shape(items.text, label)) + 4_mm;
      needed += items.labels[i];
    }
    items.columns =
        std::clamp<std::int64_t>(c.width() / needed, 1, kMostColumns);
    if (items.columns >= (apart ? kFewColumns - 1 : kFewColumns)) break;
  }
  const auto count = static_cast<std::int64_t>(content.items.size());
  items.rows = (count + items.columns - 1) / items.columns;
  // As many in each row.
  if (items.rows > 0) items.columns = (count + items.rows - 1) / items.rows;
  items.step = c.width() / items.columns;
  items.height = scaled(items.text.size, apart ? 2.8 : 1.7);
  return items;
}

// What stands below the cards takes so much.
Length heading_height(const Composer& c) {
  return kAboveHeading +
         c.style().text(c.style().text_size, true).line_height();
}

Length mirror_height(const SheetInput& in, const Composer& c) {
  if (!in.options.flag("mirror")) return {};
  return heading_height(c) + 3 * c.style().learner_text().line_height() + 4_mm;
}

Length items_height(Composer& c, const SoundMouth& content) {
  if (content.items.empty()) return {};
  const Items items = plan_items(c, content, false);
  return heading_height(c) + items.height * items.rows + 1_mm;
}

Plan plan_cards(const SheetInput& in, Composer& c, const SoundMouth& content) {
  Plan plan;
  plan.width = (c.width() - kBetweenCards) / 2;
  plan.mouth = in.options.length("picture");
  const Length room = plan.width - 2 * kCardPad;
  plan.told = c.style().learner_text();
  plan.told.leading = 1.25;
  plan.word = c.style().text(c.style().reading_size);
  plan.grapheme = c.style().text(scaled(c.style().word_size, 1.5), true);
  plan.grapheme.leading = 1.1;
  Length widest;
  for (std::size_t i = 0; i < kSounds; ++i) {
    const std::string head = head_of(content, i);
    // Words in place of a spelling are no larger than words.
    if (content.sounds[i].grapheme.empty()) continue;
    widest = std::max(widest, width_of(c.shape(plan.grapheme, head)));
  }
  plan.grapheme = fitted_style(plan.grapheme, widest, room / 3);
  plan.head = std::max(plan.grapheme.line_height(), kKeyPicture);
  Length most;
  for (std::size_t i = 0; i < kSounds; ++i) {
    Length height;
    for (const std::string& text : told_of_mouth(content.sounds[i].phonemes)) {
      plan.lines[i].push_back(break_lines(c, plan.told, text, room));
      height += plan.told.line_height() *
                static_cast<std::int64_t>(plan.lines[i].back().size());
    }
    most = std::max(most, height);
  }
  // A smaller mouth where all else then stands on the page; in large type what
  // is seen and felt stands together, and what is heard on a page of its own.
  const Length around = 2 * kCardPad + plan.head + 2_mm + most;
  const Length beside_mirror = c.body().height - around - mirror_height(in, c);
  const Length room_left = beside_mirror - items_height(c, content);
  plan.items_apart = room_left < kLeastMouth && beside_mirror >= kLeastMouth;
  for (const Length room_for_it : {room_left, beside_mirror}) {
    if (room_for_it < kLeastMouth) continue;
    plan.mouth = std::min(plan.mouth, room_for_it);
    break;
  }
  plan.height = around + plan.mouth;
  return plan;
}

// The spelling, and at the right its word, shown and, where it can be read,
// written.
void draw_head(const SheetInput& in, Composer& c, Block& block,
               const Plan& plan, const SoundMouth& content, std::size_t i,
               const Rect& room, ElementId body) {
  const SoundMouth::Sound& sound = content.sounds[i];
  const bool spelled = !sound.grapheme.empty();
  const std::string head = head_of(content, i);
  const TextStyle style =
      spelled ? plan.grapheme : c.style().text(c.style().text_size, true);
  const ElementId text = c.add(Role::paragraph, body);
  const Length base = room.y + plan.head / 2 + scaled(style.size, 0.27);
  draw_text(c, block, style, head, {room.x, base},
            spelled ? add_heard_as(c, text, head, heard_grapheme(head)) : text);
  Length right = room.right();
  const Picture* picture = in.pictures.find(sound.word);
  if (picture != nullptr) {
    const ElementId figure = add_picture(
        c, body, picture,
        {.word = sound.word, .number = i + 1, .what = "key picture"});
    draw_picture(block, c.style(), picture,
                 {right - kKeyPicture, room.y + (plan.head - kKeyPicture) / 2,
                  kKeyPicture, kKeyPicture},
                 figure);
    right -= kKeyPicture + 3_mm;
  }
  if (!sound.can_be_read) return;
  const Length left = room.x + width_of(c.shape(style, head)) + 4_mm;
  TextStyle word = plan.word;
  const Length wide = width_of(c.shape(word, sound.word));
  word = fitted_style(word, wide, right - left);
  const Length middle = left + (right - left) / 2;
  draw_centred(c, block, word, sound.word,
               {middle, room.y + plan.head / 2 + scaled(word.size, 0.27)},
               c.add(Role::paragraph, body));
}

void draw_card(const SheetInput& in, Composer& c, Block& block,
               const Plan& plan, const SoundMouth& content, std::size_t i,
               ElementId list) {
  const From from(c, content.sounds[i].span);
  const Length left =
      (plan.width + kBetweenCards) * static_cast<std::int64_t>(i);
  block.frame({left, 0_mm, plan.width, plan.height},
              {.width = c.style().box_weight});
  const ElementId body = add_list_body(c, list);
  const Rect room{left + kCardPad, kCardPad, plan.width - 2 * kCardPad,
                  plan.height - 2 * kCardPad};
  draw_head(in, c, block, plan, content, i, room, body);
  const auto& phonemes = content.sounds[i].phonemes;
  const ElementId figure =
      c.add(Role::figure, body,
            fmt::format("a mouth from the side as it says {}",
                        heard_signs(said(in.lesson, phonemes))));
  draw_mouth(block, c.style(), mouth_shape(phonemes),
             {room.x, room.y + plan.head, room.width, plan.mouth}, figure);
  Length y = room.y + plan.head + plan.mouth + 2_mm;
  for (const std::vector<TextLine>& lines : plan.lines[i]) {
    const ElementId text = c.add(Role::paragraph, body);
    for (const TextLine& line : lines) {
      draw_line(block, line, {room.x, y + baseline_in_line(plan.told)}, text);
      y += plan.told.line_height();
    }
  }
}

void add_mirror(Composer& c) {
  const std::size_t first = c.blocks().size();
  add_subheading(c, c.style().text_size, "With a mirror, for both sounds",
                 kAboveHeading);
  const std::vector<TickStep> steps = {
      {"Look at your lips. Do they look like the picture?"},
      {"Put a hand on your throat. Does it hum?"},
      {"Say it three times, then its word."}};
  add_tick_steps(c, c.style().learner_text(), steps, 1_mm);
  keep_on_one_page(std::span(c.blocks()).subspan(first));
}

void add_items(Composer& c, const SoundMouth& content, bool apart) {
  if (content.items.empty()) return;
  add_subheading(c, c.style().text_size, "Listen. Which one do you hear?",
                 kAboveHeading);
  const auto [text, number, numbers, box, labels, columns, rows, step, height] =
      plan_items(c, content, apart);
  const auto count = static_cast<std::int64_t>(content.items.size());
  const ElementId list = c.add(Role::list);
  for (std::int64_t i = 0; i < count; ++i) {
    // Numbers go across, as they are read.
    if (i % columns == 0) {
      Block& row = c.block(height, i == 0 ? 1_mm : 0_mm);
      row.keep_with_next = i / columns + 1 < rows;
    }
    Block& block = c.blocks().back();
    const auto [label, body] = add_list_item(c, list);
    Length x = step * (i % columns);
    const Length base = baseline_in_line(text);
    draw_text(c, block, number, fmt::format("{}", i + 1), {x, base}, label);
    x += numbers;
    for (std::size_t s = 0; s < kSounds; ++s) {
      const std::string shown = content.label(static_cast<int>(s));
      draw_tick_box(block, c.style(), text, {x, base}, add_tick_boxes(c, body));
      const bool grapheme = shown == content.sounds[s].grapheme;
      draw_text(c, block, text, shown, {x + box, base},
                grapheme ? add_heard_as(c, body, shown, heard_grapheme(shown))
                         : body);
      x += box + labels[s];
    }
  }
}

void compose(const SheetInput& in, Composer& c) {
  const SoundMouth& content = sound_mouth(in);
  const Plan plan = plan_cards(in, c, content);
  Block& block = c.block(plan.height);
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < kSounds; ++i) {
    draw_card(in, c, block, plan, content, i, list);
  }
  if (in.options.flag("mirror")) add_mirror(c);
  const std::size_t items = c.blocks().size();
  add_items(c, content, plan.items_apart);
  if (plan.items_apart && items < c.blocks().size()) {
    c.blocks()[items].new_page = true;
    return;
  }
  stretch_blanks(c.blocks(), c.body().height - 4_mm, 0.6, 1.8);
}

std::string missing(const SheetInput& in) { return sound_mouth(in).missing; }

Direction other_direction(const SheetInput& in) {
  if (!in.plain_voice) return {};
  return {"See and feel how each sound is made. Then tell them apart by ear."};
}

void answers(const SheetInput& in, Composer& c) {
  const SoundMouth& content = sound_mouth(in);
  for (std::size_t i = 0; i < content.items.size(); ++i) {
    const SoundMouth::Item& item = content.items[i];
    const auto& phonemes =
        content.sounds[static_cast<std::size_t>(item.sound)].phonemes;
    const std::string rest =
        item.other.empty() ? "" : fmt::format(" (not {})", item.other);
    add_paragraph(c, c.style().teacher_text(),
                  fmt::format("{}. {}{} – {}", i + 1, item.word, rest,
                              said(in.lesson, phonemes)));
  }
}

const SheetKind kKind = {
    .name = "sound-mouth",
    .title = "How the sound is made",
    .direction = "Look, feel and say. Then listen.",
    .action = Action::say,
    .other_direction = other_direction,
    .summary = "how the mouth makes the sound, beside one that is taken for it",
    .minutes = 7,
    .materials = "a small mirror for each learner",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sound_mouth_script,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::sound_mouth_sheet
