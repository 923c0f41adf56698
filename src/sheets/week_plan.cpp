// One page for the teacher, or for whoever stands in: the week's days with
// their sheets, minutes, materials and where to stop if time runs out.

#include <fmt/format.h>

#include <algorithm>

#include "layout/table.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::week_plan_sheet {
namespace {

using namespace literals;

struct Day {
  std::vector<const PlannedSheet*> sheets;
  int minutes = 0;
};

std::vector<Day> days_of(const SheetInput& in) {
  std::vector<Day> days(
      static_cast<std::size_t>(std::max(1, in.lesson.lesson->days.value)));
  for (const PlannedSheet& sheet : in.packet) {
    const auto index = static_cast<std::size_t>(sheet.day - 1);
    if (index >= days.size()) continue;
    days[index].sheets.push_back(&sheet);
    days[index].minutes += sheet.minutes;
  }
  return days;
}

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

// A number in brackets behind a sheet does not say what it counts.
std::string heard_with_minutes(const PlannedSheet& sheet) {
  return fmt::format("{} ({})", sheet.kind->title,
                     counted(sheet.minutes, "minute", "minutes"));
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
  fact(fmt::format("Words ({})", words.size()), joined(words));
  fact("Learners", joined({in.learners.begin(), in.learners.end()}));
  fact("Group", lesson.lesson->group.value);
  fact("Author", lesson.lesson->author.value);
  fact("Licence", lesson.lesson->licence.value);
}

void add_days(const SheetInput& in, Composer& c) {
  add_subheading(c, c.style().teacher_size, "Day by day", 5_mm);
  Table table(
      c,
      {{.title = "Day", .share = 0, .fixed = 14_mm},
       {.title = "Do", .share = 5, .none = "nothing"},
       {.title = "Minutes",
        .share = 0,
        .fixed = std::max(20_mm, scaled(c.style().teacher_size, 5.1))},
       {.title = "Have ready", .share = 3, .none = "nothing"},
       {.title = "Short of time? Stop after", .share = 3, .none = "nothing"}});
  auto days = days_of(in);
  // Beyond the last sheet there is nothing to say again.
  while (days.size() > 1 && days.back().sheets.empty()) days.pop_back();
  for (std::size_t i = 0; i < days.size(); ++i) {
    std::vector<std::string> names, heard_names, materials;
    for (const PlannedSheet* sheet : days[i].sheets) {
      names.push_back(
          fmt::format("{} ({})", sheet->kind->title, sheet->minutes));
      heard_names.push_back(heard_with_minutes(*sheet));
      materials.emplace_back(sheet->kind->materials);
    }
    const std::string stop =
        days[i].sheets.empty()
            ? ""
            : std::string(days[i].sheets.front()->kind->title);
    std::string what = joined(names), heard = joined(heard_names);
    if (i > 0) {
      const std::string_view then = what.empty() ? "" : ", then ";
      what = fmt::format("Say yesterday's words again (3){}{}", then, what);
      heard = fmt::format("Say yesterday's words again (3 minutes){}{}", then,
                          heard);
    }
    const int minutes = days[i].minutes + (i > 0 ? 3 : 0);
    const auto cell = [&](std::string shown, std::string said = {}) {
      return Table::Cell{{.text = std::move(shown),
                          .style = c.style().teacher_text(),
                          .heard = std::move(said)}};
    };
    table.add_row(
        {cell(fmt::format("{}", i + 1)), cell(what, heard),
         cell(fmt::format("{}", minutes)), cell(joined(materials)), cell(stop)},
        true);
  }
}

// Sheets that the week does not plan.
void add_extra(const SheetInput& in, Composer& c) {
  std::vector<std::string> titles;
  for (const PlannedSheet& sheet : in.packet) {
    if (sheet.day == 0) titles.emplace_back(sheet.kind->title);
  }
  if (titles.empty()) return;
  add_paragraph(c, c.style().teacher_text(),
                "For more practice, when there is time: " + joined(titles),
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
  add_extra(in, c);
  add_notes(in, c);
}

const SheetKind kKind = {
    .name = "week-plan",
    .title = "The week",
    .summary = "days, minutes, materials and where to stop",
    .for_teacher = true,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::week_plan_sheet
