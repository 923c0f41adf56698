#include "reports/sunday_report.h"

#include <fmt/format.h>

#include <algorithm>

#include "layout/frame.h"
#include "layout/heard_text.h"
#include "layout/table.h"
#include "layout/text_block.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr std::string_view kSunday = "The week on one page";
constexpr Length kGroupWidth = 26_mm;

Table::Cell plain_cell(Composer& c, const std::string& text) {
  const TextStyle style = c.style().teacher_text();
  if (text.empty()) return {{"–", style}};
  std::string heard = heard_text(text);
  if (heard == text) heard.clear();
  return {TextPiece{.text = text, .style = style, .heard = std::move(heard)}};
}

Table::Cell head_cell(Composer& c, const std::string& text) {
  return {{text, c.style().teacher_text(true)}};
}

void add_section(Composer& c, std::string_view text, Length before) {
  add_subheading(c, scaled(c.style().teacher_size, 1.2), text, before);
}

void add_printing(Composer& c, const std::vector<SundayGroup>& groups) {
  Table table(c, {{.title = "Group", .share = 0, .fixed = kGroupWidth},
                  {"Lesson", 3},
                  {.title = "Packets", .share = 0, .fixed = 20_mm},
                  {.title = "Pages each", .share = 0, .fixed = 25_mm},
                  {.title = "Cut out before", .share = 4, .none = "nothing"}});
  for (const SundayGroup& group : groups) {
    table.add_row({head_cell(c, group.name), plain_cell(c, group.lesson),
                   plain_cell(c, group.copies), plain_cell(c, group.pages),
                   plain_cell(c, group.cut)},
                  true);
  }
}

// Groups that go the same way in one row.
std::vector<SundayGroup> with_same_days(
    const std::vector<SundayGroup>& groups) {
  std::vector<SundayGroup> rows;
  for (const SundayGroup& group : groups) {
    const auto same = std::ranges::find(rows, group.days, &SundayGroup::days);
    if (same == rows.end()) {
      rows.push_back(group);
    } else if (same->name != group.name) {
      same->name += ", " + group.name;
    }
  }
  if (rows.size() == 1 && groups.size() > 1) rows[0].name = "All groups";
  return rows;
}

void add_week(Composer& c, const std::vector<SundayGroup>& groups) {
  std::size_t days = 0;
  for (const SundayGroup& group : groups) {
    days = std::max(days, group.days.size());
  }
  std::vector<Table::Column> columns = {
      {.title = "Group", .share = 0, .fixed = kGroupWidth}};
  // Most of it is new on the first day.
  for (std::size_t day = 1; day <= days; ++day) {
    columns.push_back({.title = fmt::format("Day {}", day),
                       .share = day == 1 ? 2 : 1,
                       .none = "nothing new"});
  }
  Table table(c, columns);
  for (const SundayGroup& group : with_same_days(groups)) {
    std::vector<Table::Cell> cells = {head_cell(c, group.name)};
    for (std::size_t day = 0; day < days; ++day) {
      cells.push_back(plain_cell(
          c, day < group.days.size() ? group.days[day] : std::string()));
    }
    table.add_row(cells, true);
  }
}

void add_cards(Composer& c, const std::vector<SundayCards>& cards) {
  Table table(c, {{.title = "Group", .share = 0, .fixed = kGroupWidth},
                  {.title = "Put in", .share = 1, .none = "nothing"},
                  {.title = "Take out", .share = 1, .none = "nothing"}});
  for (const SundayCards& group : cards) {
    table.add_row({head_cell(c, group.name), plain_cell(c, group.in),
                   plain_cell(c, group.out)},
                  true);
  }
  add_paragraph(c, c.style().teacher_text(),
                "Put in what is new this week, and what was secure and is to "
                "be checked again. Take out what has become secure. Codes say "
                "for whom, where it is not the whole group.",
                {.space_before = 2_mm});
}

}  // namespace

void add_sunday_report(const ReportMaker& maker, std::string title,
                       std::size_t teacher_pages,
                       const std::vector<SundayGroup>& groups,
                       const std::vector<SundayCards>& cards) {
  FrameText frame;
  frame.sheet = kSunday;
  frame.code = title.empty() ? "class" : title;
  frame.title = std::move(title);
  frame.direction = "Print, cut, and lay each group’s packets on one pile.";
  frame.for_teacher = true;
  Style style = maker.style;
  style.teacher_size = 10.5_pt;
  Document& document = maker.document;
  const ElementId section = document.add({Role::section, kDocumentElement});
  Composer outer(maker.shaper, style, document, section, style.body_size());
  const Rect body = body_inside(style, outer, frame);
  Composer c(maker.shaper, style, document, section, {body.width, body.height});
  const FrameElements elements = add_frame_elements(c, frame);
  add_section(c, "Print and cut", 0_mm);
  add_printing(c, groups);
  add_paragraph(
      c, c.style().teacher_text(),
      fmt::format("“sheaf build” makes a file “packets” with one packet "
                  "for each learner, and a file “teacher” with your "
                  "own {}.",
                  teacher_pages == 1 ? std::string("page")
                                     : fmt::format("{} pages", teacher_pages)),
      {.space_before = 2_mm});
  add_section(c, "New on each day", 7_mm);
  add_week(c, groups);
  add_section(c, "Review cards", 7_mm);
  add_cards(c, cards);
  std::vector<Page> pages = paginate(c.take(), body, style.paper);
  draw_frame(pages, c, frame, elements);
  document.outline.push_back(
      {std::string(kSunday),
       static_cast<std::uint32_t>(document.pages.size())});
  for (Page& page : pages) document.pages.push_back(std::move(page));
}

}  // namespace sheaf
