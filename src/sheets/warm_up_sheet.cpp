// A few minutes at the start of each day with what was learned before: the
// learner says six graphemes every day, writes six sounds that the teacher says
// on one day, four words on two others, a sentence on the next. On the page:
// the graphemes in a row of boxes; under a heading for each day numbered
// spaces, a numbered line for each word, a line for the sentence.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/numbered_steps.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/in_sentence.h"
#include "sheets/own_words.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/warm_up_days.h"
#include "sheets/word_parts.h"

namespace sheaf::warm_up_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    {"sentence-lines", Kind::count, "1", "lines for the sentence", "0", "4"},
};

constexpr Length kNumberWidth = 9_mm;

void add_heading(Composer& c, std::string_view text, Length before) {
  add_subheading(c, c.style().text_size, text, before);
}

void add_graphemes(const SheetInput& in, Composer& c) {
  const auto& items = in.lesson.warm_up.to_say;
  TextStyle style = c.style().text(c.style().word_size);
  const Length width = c.width() / static_cast<std::int64_t>(items.size());
  const Length widest = widest_text(c, style, items, &WarmUp::Item::grapheme);
  style = fitted_style(style, widest, width - 4_mm);
  Block& block = c.block(style.line_height() + 2_mm, 1_mm);
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < items.size(); ++i) {
    const Length left = width * static_cast<std::int64_t>(i);
    block.frame({left, 0_mm, width, block.height},
                {.width = c.style().box_weight});
    const std::string& grapheme = items[i].grapheme;
    draw_centred(c, block, style, grapheme,
                 {left + width / 2, 1_mm + baseline_in_line(style)},
                 add_heard_as(c, add_list_body(c, list), grapheme,
                              heard_grapheme(grapheme)));
  }
}

// Numbered stretches of line beside each other: `count` of them, from number
// `first` + 1 on.
void add_spaces(Composer& c, const Ruling& ruling, std::size_t first,
                std::size_t count, int columns) {
  const ElementId list = c.add(Role::list);
  const Length gap = 5_mm;
  const Length width = (c.width() - gap * (columns - 1)) / columns;
  for (std::size_t i = 0; i < count; ++i) {
    const int column = static_cast<int>(i) % columns;
    if (column == 0) c.block(set_height(ruling), i == 0 ? 1_mm : ruling.gap);
    Block& block = c.blocks().back();
    const Length left = (width + gap) * column;
    const auto [label, body] = add_list_item(c, list);
    draw_text(c, block, c.style().learner_text(),
              fmt::format("{}", first + i + 1), {left, base_in_set(ruling)},
              label);
    draw_set(block, c.style(), ruling, {left + kNumberWidth, 0_mm},
             width - kNumberWidth, add_writing_lines(c, body));
  }
}

std::string_view sounds_heading(const WarmUp& warm_up) {
  const bool several = std::ranges::any_of(
      warm_up.to_hear,
      [](const WarmUp::Item& item) { return item.spellings.size() > 1; });
  return several ? "Write each sound in every way you know"
                 : "Write each sound";
}

void add_sounds(const WarmUp& warm_up, Composer& c, const Ruling& ruling) {
  const Length least = kNumberWidth + 6 * ruling.x_height;
  const int most = c.width() > 6 * least ? 6 : 3;
  // As many in each row: four stand two and two.
  const auto count = static_cast<int>(warm_up.to_hear.size());
  const int rows = (count + most - 1) / most;
  add_spaces(c, ruling, 0, warm_up.to_hear.size(), (count + rows - 1) / rows);
}

void compose(const SheetInput& in, Composer& c) {
  const WarmUp& warm_up = in.lesson.warm_up;
  const Ruling ruling = ruling_of(in, c.style());
  const Length before = 6_mm;
  const int days = days_of_week(in);
  // A week of one day has no days to tell apart.
  const auto heading = [&](int day, std::string_view text) {
    add_heading(c, days > 1 ? fmt::format("Day {}: {}", day, text) : text,
                before);
  };
  if (!warm_up.to_say.empty()) {
    add_heading(c, days > 1 ? "Every day: say each sound" : "Say each sound",
                0_mm);
    add_graphemes(in, c);
  }
  for (const WarmUpTask& task : warm_up_tasks(in, days)) {
    switch (task.kind) {
      case WarmUpTask::Kind::sounds:
        heading(task.day, sounds_heading(warm_up));
        add_sounds(warm_up, c, ruling);
        break;
      case WarmUpTask::Kind::words:
        heading(task.day,
                task.count == 1 ? "Write the word" : "Write each word");
        add_spaces(c, ruling, task.first, task.count, 2);
        break;
      case WarmUpTask::Kind::sentence: {
        heading(task.day, "Write the sentence");
        const std::size_t first = c.blocks().size();
        add_sets(c, ruling, in.options.count("sentence-lines"), 1_mm);
        keep_on_one_page(std::span(c.blocks()).subspan(first));
        break;
      }
    }
  }
  // One page, and all of it; or two alike.
  stretch_blanks(c.blocks(), c.body().height - 4_mm, 0.4, 2);
  even_pages(c.blocks(), c.body().height);
}

std::string missing(const SheetInput& in) {
  return in.lesson.warm_up.empty() ? "no earlier patterns are known" : "";
}

// What the teacher says each word in; nothing where no word has a sentence.
void add_sentences(const SheetInput& in, Composer& c) {
  const auto& words = in.lesson.warm_up.words;
  const std::vector<InSentence> said = in_sentences(in.lesson, words);
  if (have_sentences(said) == HaveSentences::none) return;
  std::vector<std::vector<TextPiece>> texts;
  for (std::size_t i = 0; i < words.size(); ++i) {
    texts.push_back(said_pieces(said[i], words[i], c.style().teacher_text(),
                                c.style().teacher_text(true)));
  }
  add_numbered_texts(c, c.style().teacher_text(), texts);
}

void answers(const SheetInput& in, Composer& c) {
  const WarmUp& warm_up = in.lesson.warm_up;
  const TextStyle plain = c.style().teacher_text();
  const auto listed = [&](const std::vector<WarmUp::Item>& items,
                          bool sound_first) {
    std::string text;
    for (std::size_t i = 0; i < items.size(); ++i) {
      const std::string sound = said(in.lesson, items[i].sound);
      text += fmt::format(
          "{}{}. {} – {}", i == 0 ? "" : "   ", i + 1,
          sound_first ? sound : items[i].grapheme,
          sound_first ? fmt::format("{}", fmt::join(items[i].spellings, " or "))
                      : sound);
    }
    return text;
  };
  if (!warm_up.to_say.empty()) {
    add_paragraph(c, plain, "To say: " + listed(warm_up.to_say, false));
    add_paragraph(c, plain,
                  "Say for writing: " + listed(warm_up.to_hear, true));
  }
  std::vector<TextPiece> words;
  if (has_own_words(in)) {
    words.push_back(
        {fmt::format("Words: each learner’s own, in the table “{}”.",
                     kOwnWordsTitle),
         plain});
  }
  for (std::size_t i = 0; i < warm_up.words.size() && !has_own_words(in); ++i) {
    words.push_back({fmt::format("{}{}. {} ", i == 0 ? "Words: " : "   ", i + 1,
                                 warm_up.words[i].reading.word),
                     plain});
    words.push_back(spelled_piece(warm_up.words[i], plain, "(", ")"));
  }
  if (!words.empty()) add_paragraph(c, words);
  // The script has them, where there is one.
  if (!in.has_script && !has_own_words(in)) add_sentences(in, c);
  add_paragraph(c, plain,
                warm_up.sentence.empty()
                    ? "Sentence: one of yours, with words from above."
                    : "Sentence: " + warm_up.sentence);
}

const SheetKind kKind = {
    .name = "warm-up",
    .title = "Warm up",
    .direction = "Say the sounds. Then listen and write.",
    .action = Action::say,
    .summary = "graphemes, sounds, words and a sentence learned before",
    .part = DayPart::warm_up,
    .daily = true,
    .minutes = 3,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::warm_up,
    .script_extra = sheet_script::warm_up_extra,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::warm_up_sheet
