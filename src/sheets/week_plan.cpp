// One page for the teacher, or for whoever stands in, that says all of the
// week: what it is about, its words, what the check asks for, each day with its
// steps and minutes, what to have ready, and what to leave out if time runs
// short.

#include <fmt/format.h>

#include <algorithm>
#include <span>
#include <string_view>

#include "layout/table.h"
#include "sheets/dictated.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/week_text.h"
#include "sheets/word_parts.h"

namespace sheaf::week_plan_sheet {
namespace {

using namespace literals;

// Each part once.
std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (auto part = parts.begin(); part != parts.end(); ++part) {
    if (part->empty() || std::find(parts.begin(), part, *part) != part)
      continue;
    text += (text.empty() ? "" : ", ") + *part;
  }
  return text;
}

// What the check asks for: words of the list, new ones, earlier ones.
template <typename Fact>
void add_check_facts(const SheetInput& in, const Fact& fact) {
  if (!has_sheet(in, "dictation")) return;
  const Dictated said = dictated_in_packet(in);
  std::vector<std::string> listed, fresh, earlier;
  for (const AnalyzedWord& word : said.words) {
    const bool in_list =
        std::ranges::any_of(in.lesson.words, [&](const AnalyzedWord& other) {
          return other.reading.word == word.reading.word;
        });
    (in_list              ? listed
     : word.has_pattern() ? fresh
                          : earlier)
        .push_back(word.reading.word);
  }
  fact("Check: words of the list", joined(listed));
  fact("Check: new words", joined(fresh));
  fact("Check: words from before", joined(earlier));
}

void add_lesson_facts(const SheetInput& in, Composer& c) {
  const AnalyzedLesson& lesson = in.lesson;
  const TextStyle text = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  const auto fact = [&](std::string name, std::string value) {
    if (value.empty()) return;
    const std::vector<TextPiece> pieces = {{std::move(name) + ": ", strong},
                                           {std::move(value), text}};
    add_paragraph(c, pieces);
  };
  std::vector<std::string> names;
  for (const LessonPattern& p : lesson.patterns) names.push_back(p.name);
  fact(names.size() == 1 ? "Pattern" : "Patterns", joined(names));
  std::vector<std::string> words;
  for (const AnalyzedWord& w : lesson.words) words.push_back(w.reading.word);
  if (const auto told = sheet_script::what_is_told(in); !told.empty()) {
    fact("What learners find out", fmt::format("{}", fmt::join(told, " ")));
  }
  fact(fmt::format("Words ({})", words.size()), joined(words));
  add_check_facts(in, fact);
  fact("Learners", joined({in.learners.begin(), in.learners.end()}));
  fact("Group", lesson.lesson->group.value);
  fact("Author", lesson.lesson->author.value);
  fact("Licence", lesson.lesson->licence.value);
}

// One step in its cell: what it is, what of it, how long.
Table::Cell step_cell(const SheetInput& in, Composer& c,
                      const std::vector<const DayStep*>& steps) {
  const TextStyle plain = c.style().teacher_text();
  Table::Cell cell;
  for (const DayStep* step : steps) {
    std::string text = step_title(in, *step);
    if (const std::string share = step_share(in, *step); !share.empty()) {
      text += (text.ends_with('?') ? " " : ", ") + share;
    }
    const bool last = step == steps.back();
    cell.push_back(
        {.text =
             fmt::format("{} ({}){}", text, step->minutes, last ? "" : "; "),
         .style = plain,
         .heard = fmt::format("{} ({}){}", text,
                              counted(step->minutes, "minute", "minutes"),
                              last ? "" : "; ")});
  }
  return cell;
}

// The rows of the plan: what comes back each day, in the order of a day.
struct PlanRow {
  std::string_view title;
  DayPart part;
};
constexpr PlanRow kRows[] = {
    {"Warm up", DayPart::warm_up}, {"New", DayPart::learn},
    {"Check", DayPart::check},     {"Blend", DayPart::blend},
    {"Spell", DayPart::spell},     {"Read", DayPart::read},
};

std::vector<const DayStep*> steps_of(const Day& day, DayPart part) {
  std::vector<const DayStep*> steps;
  for (const DayStep& step : day.steps) {
    if (step.part == part) steps.push_back(&step);
  }
  return steps;
}

// What a day needs beside its sheets.
std::string materials_of(const SheetInput& in, const Day& day) {
  std::vector<std::string> materials;
  for (const DayStep& step : day.steps) {
    if (step.sheet == DayStep::kNoSheet) continue;
    materials.emplace_back(in.packet[step.sheet].kind->materials);
  }
  return joined(materials);
}

struct NumberedDay {
  int number = 1;
  const Day* day = nullptr;
};

// How many days stand beside each other: a column holds its widest word.
int days_beside(const SheetInput& in, Composer& c,
                std::span<const NumberedDay> days, Length first) {
  constexpr Length kBesideWord = 5_mm;
  Length widest;
  const auto measure = [&](std::string_view text) {
    while (!text.empty()) {
      const std::size_t end = std::min(text.find(' '), text.size());
      widest = std::max(widest, width_of(c.shape(c.style().teacher_text(),
                                                 text.substr(0, end))));
      text.remove_prefix(std::min(end + 1, text.size()));
    }
  };
  for (const NumberedDay& d : days) {
    for (const DayStep& step : d.day->steps) {
      for (const TextPiece& piece : step_cell(in, c, {&step})) {
        measure(piece.text);
      }
    }
    measure(materials_of(in, *d.day));
  }
  const auto most =
      static_cast<int>((c.width() - first) / (widest + kBesideWord));
  return even_rows(static_cast<int>(days.size()), std::max(1, most));
}

// Work by ear, whose minutes come on top of the day's.
Table::Cell by_ear_cell(const Composer& c) {
  return {{.text = fmt::format("By ear ({} more)", kMinutesByEar),
           .style = c.style().teacher_text(),
           .heard = fmt::format("By ear ({} more)",
                                counted(kMinutesByEar, "minute", "minutes"))}};
}

// A column a day, read downwards as the day goes.
void add_days_table(const SheetInput& in, Composer& c,
                    std::span<const NumberedDay> days, Length first,
                    int by_ear) {
  std::vector<Table::Column> columns = {
      {.title = "", .share = 0, .fixed = first, .heard = "Part of the day"}};
  for (const NumberedDay& d : days) {
    columns.push_back({.title = fmt::format("Day {}", d.number),
                       .share = 1,
                       .none = "nothing"});
  }
  Table table(c, columns);
  const TextStyle strong = c.style().teacher_text(true);
  if (days.front().number <= by_ear) {
    std::vector<Table::Cell> cells = {{{"First", strong}}};
    for (const NumberedDay& d : days) {
      cells.push_back(d.number <= by_ear ? by_ear_cell(c) : Table::Cell{});
    }
    table.add_row(cells, true);
  }
  for (const PlanRow& row : kRows) {
    std::vector<Table::Cell> cells = {{{std::string(row.title), strong}}};
    bool any = false;
    for (const NumberedDay& d : days) {
      const auto steps = steps_of(*d.day, row.part);
      any = any || !steps.empty();
      cells.push_back(step_cell(in, c, steps));
    }
    if (any) table.add_row(cells, true);
  }
  std::vector<Table::Cell> ready = {{{"Have ready", strong}}};
  bool any = false;
  for (const NumberedDay& d : days) {
    const std::string materials = materials_of(in, *d.day);
    any = any || !materials.empty();
    ready.push_back({{materials, c.style().teacher_text()}});
  }
  if (any) table.add_row(ready, true);
}

// In one table, or in several below each other where days have no room.
void add_days(const SheetInput& in, Composer& c) {
  if (in.week == nullptr) return;
  std::vector<NumberedDay> days;
  int number = 0;
  for (const Day& day : in.week->days) {
    ++number;
    if (!day.steps.empty()) days.push_back({number, &day});
  }
  if (days.empty()) return;
  add_subheading(
      c, c.style().teacher_size,
      fmt::format("Day by day, {} each",
                  counted(in.week->minutes_a_day, "minute", "minutes")),
      5_mm);
  const Length first = scaled(c.style().teacher_size, 6.3);
  const auto beside = static_cast<std::size_t>(days_beside(in, c, days, first));
  const int by_ear = days_by_ear(in);
  for (std::size_t i = 0; i < days.size(); i += beside) {
    if (i > 0) c.block(4_mm);
    add_days_table(
        in, c, std::span(days).subspan(i, std::min(beside, days.size() - i)),
        first, by_ear);
  }
}

void add_hints(const SheetInput& in, Composer& c) {
  if (in.week == nullptr || in.week->days.size() < 2) return;
  add_paragraph(
      c, c.style().teacher_text(),
      "Short of time? Keep the warm-up, the new step and the reading; spell "
      "one "
      "word less. A day that was missed: go on with the next, and leave out "
      "what the check does not need.",
      {.space_before = 4_mm, .whole = true});
}

// Sheets that the week does not plan.
void add_extra(const SheetInput& in, Composer& c) {
  std::vector<std::string> titles;
  for (const PlannedSheet& sheet : in.packet) {
    if (sheet.day == 0) titles.emplace_back(sheet.kind->title);
  }
  if (titles.empty()) return;
  add_paragraph(c, c.style().teacher_text(),
                "Not in these days, for when there is time: " + joined(titles),
                {.space_before = 3_mm});
}

void add_notes(const SheetInput& in, Composer& c) {
  const TextStyle text = c.style().teacher_text();
  bool first = true;
  for (const LessonLine& line : in.lesson.lesson->teacher_note) {
    const From from(c, line.span());
    add_paragraph(c, text, line.text(), {.space_before = first ? 5_mm : 0_mm});
    first = false;
  }
}

void compose(const SheetInput& in, Composer& c) {
  add_lesson_facts(in, c);
  add_days(in, c);
  add_hints(in, c);
  add_extra(in, c);
  add_notes(in, c);
}

const SheetKind kKind = {
    .name = "week-plan",
    .title = "The week",
    .summary = "the week on one page: words, days, minutes, what to have ready",
    .for_teacher = true,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::week_plan_sheet
