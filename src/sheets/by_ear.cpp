// For the teacher: two minutes a day without letters. On the page: how to do
// it, then a table with some rows for each day: sounds to put together, a word
// to take apart, a word to turn into another by one sound, with the answers in
// bold. The days grow harder. Common practice, no source.

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "layout/numbered_steps.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "sheets/ear_work.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::by_ear_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"items", Kind::count, "3", "of each kind on a day", "1", "5"},
};

const std::vector<EarDay>& work_of(const SheetInput& in) {
  return ear_days(in, in.options.count("items"));
}

std::string sounds_text_of(const SheetInput& in, const EarWord& word) {
  std::string text;
  for (const auto& sound : word.sounds) {
    text += (text.empty() ? "" : " ") + said(in.lesson, sound);
  }
  return text;
}

// In quotes, or "add, put /h/ in front" were two things to do.
std::string asked(const SheetInput& in, const EarSwap& swap) {
  const std::string out = said(in.lesson, swap.out);
  const std::string put = said(in.lesson, swap.in);
  switch (swap.change) {
    case EarChange::add:
      return fmt::format("“{}”, put {} {}: ", swap.from.word, put,
                         swap.at_end ? "at the end" : "in front");
    case EarChange::leave_out:
      return fmt::format("“{}”, leave out {}: ", swap.from.word, out);
    case EarChange::first:
    case EarChange::last:
    case EarChange::middle:
      break;
  }
  return fmt::format("“{}”, change {} to {}: ", swap.from.word, out, put);
}

void add_day(const SheetInput& in, Composer& c, Table& table, std::size_t index,
             const EarDay& day) {
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  const std::size_t rows =
      std::max({day.together.size(), day.apart.size(), day.swaps.size()});
  for (std::size_t i = 0; i < rows; ++i) {
    Table::Cell head, together, apart, swap;
    if (i == 0) head = {{fmt::format("{}", index + 1), strong}};
    if (i < day.together.size()) {
      const EarWord& word = day.together[i];
      together = {{sounds_text_of(in, word) + ": ", plain},
                  {word.word, strong}};
    }
    if (i < day.apart.size()) {
      const EarWord& word = day.apart[i];
      apart = {{word.word + ": ", plain}, {sounds_text_of(in, word), strong}};
    }
    if (i < day.swaps.size()) {
      const EarSwap& own = day.swaps[i];
      swap = {{asked(in, own), plain}, {own.to.word, strong}};
    }
    table.add_row({head, together, apart, swap}, true);
  }
}

void compose(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  add_numbered_steps(
      c, plain,
      std::vector<std::string>{
          "Before the warm-up, no letters in sight. Say each sound short and "
          "clear, with no “uh” behind it, and a breath before the next.",
          "Put together: you say the sounds, all say the word. Take apart: you "
          "say the word, all say its sounds, a finger for each. Change a "
          "sound: you say it as it stands, all say the new word.",
          "Where no answer comes within three seconds, say it yourself and let "
          "all say it after you. What is printed in bold is the answer."});
  const std::vector<EarDay>& days = work_of(in);
  c.block(3_mm);
  Table table(
      c, {{.title = "Day", .share = 0, .fixed = 12_mm, .none = "the same day"},
          {.title = "Put together", .share = 10, .none = "no more"},
          {.title = "Take apart", .share = 10, .none = "no more"},
          {.title = "Change a sound", .share = 13, .none = "no more"}});
  for (std::size_t i = 0; i < days.size(); ++i) {
    add_day(in, c, table, i, days[i]);
  }
  add_paragraph(
      c, plain,
      "From day to day the words are longer, and sounds are added, left out, "
      "then changed at the front, at the end and in the middle. Where most "
      "answers came from you, do the same day again.",
      {.space_before = 4_mm, .whole = true});
}

std::string missing(const SheetInput& in) {
  if (in.lesson.patterns.empty()) return "it teaches no pattern";
  const std::vector<EarDay>& days = work_of(in);
  return days.empty() || days.front().together.empty()
             ? "Sheaf knows no words with the sounds taught so far"
             : "";
}

const SheetKind kKind = {
    .name = "by-ear",
    .title = "By ear",
    .direction = "Two minutes a day with sounds alone.",
    .summary =
        "sounds to put together, take apart and change, day by day, "
        "without letters",
    .for_teacher = true,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::by_ear_sheet
