#include "packet/sheet_choice.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <limits>
#include <numeric>

#include "packet/week.h"

namespace sheaf {

namespace {

// What a teacher may do about a sheet that is left out.
std::string help_for(std::string_view why) {
  if (why.ends_with("`sentences`")) {
    return "write `sentences: |` and, under it, six or more sentences, one on "
           "each line, indented by two spaces";
  }
  if (why.ends_with("`passage`")) {
    return "`passage: 80` lets Sheaf look for one of about 80 words; a text of "
           "your own stands under `passage: |`";
  }
  return "";
}

// Whether the lesson has something for a sheet; else a note says why not.
bool has_something(const Bindery& b, const SheetKind& kind,
                   const OptionValues& options,
                   std::span<const PlannedSheet> packet,
                   Diagnostics& diagnostics) {
  const SheetInput input = sheet_input(b, options, packet);
  const std::string why = kind.missing == nullptr ? "" : kind.missing(input);
  if (why.empty()) return true;
  diagnostics.note(
      diagnostic::sheet_left_out, Span::whole(b.lesson.lesson->file),
      fmt::format("the sheet `{}` is left out: {}", kind.name, why),
      help_for(why));
  return false;
}

// Whether the layout keeps a sheet for other lessons. Who asks for it by name
// gets it as `beside_layout` makes it.
bool is_not_meant(const Bindery& b, const SheetKind& kind,
                  const OptionValues& options) {
  return kind.not_meant != nullptr &&
         kind.not_meant(sheet_input(b, options, {}));
}

// The order of the days, what is on no day last. The week's steps follow their
// sheets.
void sort_by_day(std::vector<PlannedSheet>& sheets, Week& week) {
  std::vector<std::size_t> order(sheets.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t i) {
    const int day = sheets[i].day;
    return day == 0 ? std::numeric_limits<int>::max() : day;
  });
  std::vector<PlannedSheet> sorted;
  std::vector<std::size_t> place(sheets.size());
  for (const std::size_t i : order) {
    place[i] = sorted.size();
    sorted.push_back(std::move(sheets[i]));
  }
  sheets = std::move(sorted);
  for (Day& day : week.days) {
    for (DayStep& step : day.steps) {
      if (step.sheet != DayStep::kNoSheet) step.sheet = place[step.sheet];
    }
  }
  for (std::size_t& sheet : week.beyond) sheet = place[sheet];
}

}  // namespace

std::vector<PlannedSheet> SheetChoice::of_layout(
    const std::vector<std::string>& only, Diagnostics& diagnostics) const {
  std::vector<PlannedSheet> sheets;
  for (const LayoutPlan::Sheet& entry : layout.sheets) {
    if (entry.kind->for_teacher != for_teacher) continue;
    const bool wanted =
        only.empty() || std::ranges::find(only, entry.kind->name) != only.end();
    if (!wanted || is_not_meant(b, *entry.kind, entry.options)) continue;
    if (!has_something(b, *entry.kind, entry.options, packet, diagnostics)) {
      continue;
    }
    sheets.push_back({.kind = entry.kind,
                      .options = entry.options,
                      .day = entry.extra ? 0 : 1,
                      .span = entry.span});
  }
  return sheets;
}

std::vector<PlannedSheet> SheetChoice::beside_layout(
    const std::vector<std::string>& only, Diagnostics& diagnostics) const {
  std::vector<PlannedSheet> sheets;
  for (const std::string& name : only) {
    const SheetKind* kind = find_sheet_kind(name);
    if (kind == nullptr || kind->for_teacher != for_teacher) continue;
    const bool listed =
        std::ranges::any_of(layout.sheets, [&](const LayoutPlan::Sheet& entry) {
          return entry.kind == kind && !is_not_meant(b, *kind, entry.options);
        });
    const bool twice =
        std::ranges::find(sheets, kind, &PlannedSheet::kind) != sheets.end();
    const OptionValues options = default_options(*kind, layout.settings);
    if (listed || twice ||
        !has_something(b, *kind, options, packet, diagnostics)) {
      continue;
    }
    sheets.push_back({.kind = kind, .options = options, .day = 0});
  }
  return sheets;
}

void append(std::vector<PlannedSheet>& sheets, std::vector<PlannedSheet> more) {
  sheets.insert(sheets.end(), std::make_move_iterator(more.begin()),
                std::make_move_iterator(more.end()));
}

void keep_only(std::vector<PlannedSheet>& sheets,
               const std::vector<std::string>& only) {
  if (only.empty()) return;
  std::erase_if(sheets, [&](const PlannedSheet& sheet) {
    return std::ranges::find(only, sheet.kind->name) == only.end();
  });
}

std::vector<PlannedSheet> plan_week(const Bindery& b, const LayoutPlan& layout,
                                    const std::vector<std::string>& only,
                                    Diagnostics& diagnostics) {
  // The lesson's own numbers count, else those of the layout.
  const Lesson& lesson = *b.lesson.lesson;
  const int days =
      lesson.days.given() ? lesson.days.value : layout.settings.count("days");
  const int minutes = lesson.minutes.given() ? lesson.minutes.value
                                             : layout.settings.count("minutes");
  b.week.days.resize(static_cast<std::size_t>(days));
  // Nobody asks why a sheet is left out of a week that is not printed.
  Diagnostics unheard;
  const SheetChoice choice{.b = b, .layout = layout};
  if (!only.empty()) choice.of_layout(only, diagnostics);
  const std::vector<std::string> all;
  std::vector<PlannedSheet> week =
      choice.of_layout(all, only.empty() ? diagnostics : unheard);
  b.week = plan_days(week, days, minutes);
  sort_by_day(week, b.week);
  append(week, choice.beside_layout(only, diagnostics));
  return week;
}

}  // namespace sheaf
