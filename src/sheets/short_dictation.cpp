// A few words a day to write from dictation, and from the third day on a
// sentence: practice with what was read and built before, so that the check at
// the end of the week is not the first time. On the page, for each such day: a
// heading, numbered lines beside each other, lines for the sentence; below, as
// there is room, lines to mend a word.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/reading_foot.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/daily_words.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::short_dictation_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    {"words-a-day", Kind::count, "3", "words on each day", "1", "6"},
    {"sentences", Kind::flag, "yes", "a sentence too, from the third day on"},
};

constexpr Length kNumberWidth = 9_mm;
constexpr Length kGap = 6_mm;

std::vector<DayDictation> planned(const SheetInput& in) {
  auto days = short_dictations(in.lesson, days_of_week(in),
                               in.options.count("words-a-day"));
  if (!in.options.flag("sentences")) {
    for (DayDictation& day : days) day.sentence = nullptr;
  }
  return days;
}

// As many beside each other as the longest has room when written by hand.
int columns_of(const SheetInput& in, Composer& c, const Ruling& ruling,
               const std::vector<DayDictation>& days) {
  Length widest;
  for (const DayDictation& day : days) {
    widest = std::max(widest, widest_by_hand(day.words, ruling.x_height));
  }
  const int most = in.options.count("words-a-day");
  for (int columns = most; columns > 1; --columns) {
    const Length width = (c.width() - kGap * (columns - 1)) / columns;
    if (width - kNumberWidth >= widest) return columns;
  }
  return 1;
}

void add_words(Composer& c, const Ruling& ruling, const DayDictation& day,
               int columns) {
  const ElementId list = c.add(Role::list);
  const Length width = (c.width() - kGap * (columns - 1)) / columns;
  for (std::size_t i = 0; i < day.words.size(); ++i) {
    const int column = static_cast<int>(i) % columns;
    if (column == 0) {
      c.block(set_height(ruling), i == 0 ? 1_mm : ruling.gap);
    }
    Block& block = c.blocks().back();
    const From from(c, day.words[i]->spelling.span);
    const Length left = (width + kGap) * column;
    const auto [label, body] = add_list_item(c, list);
    draw_text(c, block, c.style().learner_text(), fmt::format("{}", i + 1),
              {left, base_in_set(ruling)}, label);
    draw_set(block, c.style(), ruling, {left + kNumberWidth, 0_mm},
             width - kNumberWidth, add_writing_lines(c, body));
  }
}

void add_sentence(Composer& c, const Ruling& ruling,
                  const AnalyzedSentence& sentence) {
  const From from(c, sentence.text.span());
  const int lines =
      hand_lines(sentence.text.text(), ruling.x_height, c.width());
  add_sets(c, ruling, lines, ruling.gap);
}

void compose(const SheetInput& in, Composer& c) {
  const Ruling ruling = ruling_of(in, c.style());
  const auto days = planned(in);
  // One day alone has the page, where that is tall enough: a line for each
  // word, and room to mend.
  const bool alone =
      days.size() == 1 &&
      set_pitch(ruling) * static_cast<std::int64_t>(days[0].words.size()) <=
          c.body().height / 2;
  const int columns = alone ? 1 : columns_of(in, c, ruling, days);
  for (const DayDictation& day : days) {
    const std::size_t first = c.blocks().size();
    add_subheading(c, c.style().text_size, fmt::format("Day {}", day.day),
                   first == 0 ? 0_mm : 6_mm);
    add_words(c, ruling, day, columns);
    if (day.sentence != nullptr) add_sentence(c, ruling, *day.sentence);
    keep_on_one_page(std::span(c.blocks()).subspan(first));
  }
  if (alone) {
    constexpr int kMostLines = 8;
    add_lines_as_room(c, "Mend it here", kMostLines);
    return;
  }
  stretch_blanks(c.blocks(), c.body().height - 4_mm, 0.4, 2);
  // A word that went wrong is written again, where there is room for it.
  constexpr int kMostMending = 3;
  add_lines_as_room(c, "Mend it here", kMostMending);
}

std::string missing(const SheetInput& in) {
  if (days_of_week(in) <= kFirstDictationDay) {
    return "a week of one or two days has no day between the first and the "
           "check";
  }
  return planned(in).empty() ? "no word of the list has the pattern" : "";
}

void answers(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  for (const DayDictation& day : planned(in)) {
    std::vector<TextPiece> pieces = {
        {fmt::format("Day {}: ", day.day), strong}};
    for (std::size_t i = 0; i < day.words.size(); ++i) {
      pieces.push_back({fmt::format("{}{}. {} ", i == 0 ? "" : "   ", i + 1,
                                    day.words[i]->reading.word),
                        plain});
      pieces.push_back(spelled_piece(*day.words[i], plain, "(", ")"));
    }
    if (day.sentence != nullptr) {
      pieces.push_back({"   ", plain});
      append(pieces, marked_sentence(*day.sentence, plain, strong));
    }
    add_paragraph(c, pieces);
  }
}

const SheetKind kKind = {
    .name = "short-dictation",
    .title = "A few words",
    .direction = "Listen. Say it. Tap the sounds. Write it.",
    .action = Action::listen,
    .summary = "lines for a few words and a sentence on each day of practice",
    .part = DayPart::spell,
    .daily = true,
    .first_day = kFirstDictationDay,
    .minutes = 4,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::short_dictation,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::short_dictation_sheet
