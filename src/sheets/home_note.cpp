// A page for whoever reads with the learner at home: the words, how to say the
// sound, ten minutes a night in steps, what to say when a word goes wrong, and
// the teacher's own text. In plain words: not everyone at home reads easily.
// The advice is common practice, no source.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/numbered_steps.h"
#include "layout/text_block.h"
#include "sheets/pattern_card.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::home_note_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"text-size", Kind::length, "14 pt",
     "size of the text, or less so that it fits one page", "10 pt", "24 pt"},
    {"words", Kind::count, "24", "most words on the page", "1", "60"},
    {"nights", Kind::flag, "yes", "squares to tick, one for each night"},
};

constexpr Length kSmallest = 10_pt;
constexpr Length kBetweenParts = 4_mm;
constexpr Length kPad = 4_mm;  // inside the frame of the words

// A part of the page: sentences under a heading, or steps in order.
struct Part {
  std::string heading;
  std::vector<std::string> texts;
  bool steps = false;
  bool pattern = false;  // written in signs: "i–e says /igh/"
};

TextStyle note_text(const Composer& c, Length size) {
  TextStyle style = c.style().text(size);
  style.leading = 1.4;
  return style;
}

// The words on a grid as wide as the longest needs, rows about equally long.
struct WordGrid {
  std::vector<const AnalyzedWord*> words;
  TextStyle style;
  std::int64_t in_row = 1;
  std::int64_t rows = 1;
  Length height() const { return style.line_height() * rows + kPad; }
};

WordGrid plan_words(const SheetInput& in, Composer& c, const TextStyle& text) {
  WordGrid grid;
  grid.words = practice_words(in.lesson, in.options.count("words"));
  grid.style = text;
  grid.style.size = scaled(text.size, 1.2);
  const Length room = c.width() - 2 * kPad;
  const Length widest = widest_word(c, grid.style, grid.words);
  grid.style = fitted_style(grid.style, widest, room);
  const auto count = static_cast<std::int64_t>(grid.words.size());
  const auto columns = std::clamp<std::int64_t>(
      room / (std::min(widest, room) + 7_mm), 1, count);
  grid.rows = (count + columns - 1) / columns;
  grid.in_row = (count + grid.rows - 1) / grid.rows;
  return grid;
}

void draw_words(Composer& c, const WordGrid& grid) {
  const Length step = (c.width() - 2 * kPad) / grid.in_row;
  const ElementId list = c.add(Role::list);
  Block& block = c.block(grid.height(), 1_mm);
  block.frame({0_mm, 0_mm, c.width(), block.height},
              {.width = c.style().box_weight});
  for (std::size_t i = 0; i < grid.words.size(); ++i) {
    const auto place = static_cast<std::int64_t>(i);
    const From from(c, grid.words[i]->spelling.span);
    const ElementId body = add_list_body(c, list);
    const Length y = kPad / 2 +
                     grid.style.line_height() * (place / grid.in_row) +
                     baseline_in_line(grid.style);
    draw_text(c, block, grid.style, grid.words[i]->reading.word,
              {kPad + step * (place % grid.in_row), y}, body);
  }
}

// In one plain sentence; the script says more.
std::string plain_way(const std::vector<Phoneme>& sound) {
  using Way = SoundWay::Way;
  const bool with_r =
      sound.size() == 2 && is_vowel(sound[0]) && sound[1] == Phoneme::r;
  if (sound.size() > 1 && !with_r) {
    return "These are two sounds, one straight after the other.";
  }
  switch (way_of(sound.front()).way) {
    case Way::hold:
      return "Hold it for a moment, with no “uh” after it.";
    case Way::quick:
      return "Say it short, with no “uh” after it.";
    case Way::into:
      return "Say it short and go straight on to the vowel.";
    case Way::vowel:
    case Way::glide:
      break;
  }
  return "Say it by itself, clear and steady.";
}

// "sh", "ee or ea", "i–e (with a letter between)".
std::string letters_of(const std::vector<std::string>& graphemes) {
  std::string text;
  for (const std::string& grapheme : graphemes) {
    if (!text.empty()) text += " or ";
    const std::size_t gap = grapheme.find('_');
    if (gap == std::string::npos) {
      text += grapheme;
    } else {
      text += grapheme.substr(0, gap) + "–" + grapheme.substr(gap + 1) +
              " (with a letter between)";
    }
  }
  return text;
}

Part patterns(const SheetInput& in) {
  Part part{.pattern = true};
  bool all_sounds = true;
  for (std::size_t i = 0; i < in.lesson.patterns.size(); ++i) {
    const LessonPattern& pattern = in.lesson.patterns[i];
    const int key = in.lesson.key_words[i];
    const PatternCard card = pattern_card(in.lesson, i);
    std::string text = card.learner;
    if (card.is_sound() && !pattern.sound.empty() && key >= 0) {
      const std::string& word =
          in.lesson.words[static_cast<std::size_t>(key)].reading.word;
      const std::string sound = said(in.lesson, pattern.sound);
      // What the key word's grapheme says may be another thing in another word.
      const bool always =
          std::ranges::find(pattern.alike, pattern.graphemes.front()) !=
          pattern.alike.end();
      const std::string says =
          always ? fmt::format("{} says {}, as in {}.",
                               letters_of(pattern.alike), sound, word)
                 : fmt::format("In {}, {} says {}.", word,
                               letters_of({pattern.graphemes.front()}), sound);
      text = fmt::format("{} {}{}{}", says, plain_way(pattern.sound),
                         text.empty() ? "" : " ", text);
    } else {
      all_sounds = false;
    }
    if (!text.empty()) part.texts.push_back(std::move(text));
  }
  part.heading = !all_sounds             ? "What we learn"
                 : part.texts.size() > 1 ? "The sounds"
                                         : "The sound";
  return part;
}

// What stands below the words; parts without text are left out.
std::vector<Part> parts_of(const SheetInput& in) {
  Part teacher{.heading = "From the teacher"};
  for (const LessonLine& line : in.lesson.lesson->home_note) {
    teacher.texts.push_back(line.text());
  }
  std::vector<Part> parts = {
      patterns(in),
      {.heading = "Ten minutes a night",
       .texts =
           {"Read the words aloud together, a finger under each. (2 minutes)",
            "You say a word. Your reader says it, taps once for each sound, "
            "and "
            "writes it. Do three or four. (4 minutes)",
            "Look at this list. Tick what is right. Mend one part at a time. "
            "(2 minutes)",
            "Your reader tells you a sentence with one of the words. "
            "(2 minutes)"},
       .steps = true},
      {.heading = "When a word goes wrong",
       .texts = {"Wait, and count to five.",
                 "Say what is right: “Yes, that is how it begins.”",
                 "Show the hard part only. “What sound is this?” If it does "
                 "not come, "
                 "say it yourself.",
                 "Read the whole word together and go on. Three such words are "
                 "enough "
                 "for one night."},
       .steps = true},
      std::move(teacher)};
  std::erase_if(parts, [](const Part& p) { return p.texts.empty(); });
  return parts;
}

// The height of the page at a size of text, before anything is drawn.
Length height_at(const SheetInput& in, Composer& c, Length size,
                 const std::vector<Part>& parts) {
  const TextStyle text = note_text(c, size);
  std::int64_t lines = 1;  // the first heading
  Length height = 1_mm + plan_words(in, c, text).height();
  for (const Part& part : parts) {
    ++lines;
    height += kBetweenParts;
    const Length indent = part.steps ? step_indent(text) : Length();
    for (const std::string& t : part.texts) {
      lines += static_cast<std::int64_t>(
          break_lines(c, text, t, c.width() - indent).size());
    }
  }
  if (in.options.flag("nights")) {
    ++lines;
    height += kBetweenParts;
  }
  return height + text.line_height() * lines;
}

// One page is all that anyone reads in the evening: a long text of the
// teacher's makes the type smaller, down to a limit.
Length size_of_text(const SheetInput& in, Composer& c,
                    const std::vector<Part>& parts) {
  const Length wanted = in.options.length("text-size");
  Length size = wanted;
  while (size > kSmallest && height_at(in, c, size, parts) > c.body().height) {
    size -= 0.5_pt;
  }
  return std::min(wanted, std::max(size, kSmallest));
}

void add_heading(Composer& c, const TextStyle& text, std::string_view heading,
                 Length space_before) {
  TextStyle style = text;
  style.font = c.style().bold;
  add_paragraph(c, style, heading,
                {.role = Role::heading2,
                 .space_before = space_before,
                 .keep_with_next = true});
}

void add_nights(const SheetInput& in, Composer& c, const TextStyle& text,
                Length space_before) {
  const From from(c, in.options.span("nights"));
  Block& block = c.block(text.line_height(), space_before);
  const Length base = baseline_in_line(text);
  const Length side = tick_side(text);
  const ElementId element = c.add(Role::paragraph);
  Length x = draw_text(c, block, text, "Nights done: ", {0_mm, base}, element);
  const auto fitting = static_cast<int>((c.width() - x) / (side + 2_mm));
  const int nights = std::min(in.lesson.lesson->days.value, fitting);
  if (nights < 1) return;
  const ElementId boxes = add_tick_boxes(c, element, nights);
  for (int i = 0; i < nights; ++i) {
    x += 2_mm;
    draw_tick_box(block, c.style(), text, {x, base}, boxes);
    x += side;
  }
}

void compose(const SheetInput& in, Composer& c) {
  const std::vector<Part> parts = parts_of(in);
  const Length size = size_of_text(in, c, parts);
  const TextStyle text = note_text(c, size);
  // What is left of the page goes between the parts, as far as that looks well.
  const Length left = c.body().height - 5_mm - height_at(in, c, size, parts);
  const auto gaps = static_cast<std::int64_t>(parts.size()) + 1;
  const Length gap = kBetweenParts + std::clamp(left / gaps, 0_mm, 6_mm);
  add_heading(c, text, "Our words this week", 0_mm);
  draw_words(c, plan_words(in, c, text));
  for (const Part& part : parts) {
    add_heading(c, text, part.heading, gap);
    if (part.steps) {
      add_numbered_steps(c, text, part.texts);
    } else {
      for (const std::string& t : part.texts) {
        const std::string heard = part.pattern ? heard_signs(t) : t;
        add_paragraph(c, text, t, {.heard = heard == t ? "" : heard});
      }
    }
  }
  if (in.options.flag("nights")) add_nights(in, c, text, gap);
}

std::string missing(const SheetInput& in) {
  return practice_words(in.lesson, 1).empty() ? "no word has the pattern" : "";
}

const SheetKind kKind = {
    .name = "home-note",
    .title = "At home this week",
    .direction = "For whoever reads with me at home.",
    .summary = "a page for home: the words, the sound, ten minutes a night",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::home_note_sheet
