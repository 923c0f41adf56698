#include "packet/packet.h"

#include <fmt/format.h>

#include <algorithm>

#include "layout/frame.h"
#include "packet/check_fit.h"
#include "packet/week.h"

namespace sheaf {

namespace {

// Puts the pages of one sheet after another into a document. A page that will
// be cut begins a leaf, and the page behind it stays blank.
class Binder {
 public:
  explicit Binder(Document& document) : document_(document) {}

  void add_sheet(const SheetKind& kind, std::vector<Page> pages) {
    bool first = true;
    int number = 0;
    for (Page& page : pages) {
      if (page.own_leaf || last_needs_blank_back()) start_leaf(page.size);
      page.label = fmt::format("{} {}", kind.name, ++number);
      if (first) {
        document_.outline.push_back(
            {std::string(kind.title),
             static_cast<std::uint32_t>(document_.pages.size())});
      }
      first = false;
      document_.pages.push_back(std::move(page));
    }
  }

 private:
  bool last_needs_blank_back() const {
    return !document_.pages.empty() && document_.pages.back().own_leaf;
  }
  void start_leaf(Size size) {
    if (document_.pages.size() % 2 == 0) return;
    Page blank;
    blank.size = size;
    blank.label = "blank";
    document_.pages.push_back(std::move(blank));
  }

  Document& document_;
};

FrameText frame_text(const AnalyzedLesson& lesson, const PlannedSheet& sheet) {
  FrameText text;
  text.title = lesson.lesson->title.value;
  text.sheet = sheet.kind->title;
  text.direction = sheet.kind->direction;
  text.action = sheet.kind->action;
  text.code = lesson.code;
  text.for_teacher = sheet.kind->for_teacher;
  if (!text.for_teacher && sheet.day > 0) {
    text.day = fmt::format("Day {}", sheet.day);
  }
  return text;
}

// What all sheets of a packet are made with.
struct Bindery {
  const AnalyzedLesson& lesson;
  const LessonPictures& pictures;
  const Style& style;
  Shaper& shaper;
  SheetMemory& memory;
};

std::vector<Page> compose_sheet(const Bindery& b, const PlannedSheet& sheet,
                                std::span<const PlannedSheet> packet,
                                Document& document, Diagnostics& diagnostics) {
  FitCheck fit(sheet, *b.lesson.lesson, diagnostics);
  const ElementId section = document.add({Role::section, kDocumentElement});
  const FrameText frame = frame_text(b.lesson, sheet);
  Composer outer(b.shaper, b.style, document, section, b.style.body_size());
  const Rect body = body_inside(b.style, outer, frame);
  if (!fit.check_body(body)) return {};
  Composer composer(b.shaper, b.style, document, section,
                    {body.width, body.height});
  const FrameElements elements = add_frame_elements(composer, frame);
  sheet.kind->compose({b.lesson, sheet.options, b.pictures, b.memory, packet},
                      composer);
  fit.check_blocks(composer);
  std::vector<Page> pages = paginate(composer.take(), body, b.style.paper);
  draw_frame(pages, composer, frame, elements);
  fit.check_pages(pages);
  return pages;
}

// Whether the lesson has something for a sheet; else a note says why not.
bool has_something(const Bindery& b, const SheetKind& kind,
                   const OptionValues& options,
                   std::span<const PlannedSheet> packet,
                   Diagnostics& diagnostics) {
  const SheetInput input{b.lesson, options, b.pictures, b.memory, packet};
  const std::string why = kind.missing == nullptr ? "" : kind.missing(input);
  if (why.empty()) return true;
  diagnostics.note(
      diagnostic::sheet_left_out, {},
      fmt::format("the sheet `{}` is left out: {}", kind.name, why));
  return false;
}

std::vector<PlannedSheet> chosen_sheets(const Bindery& b,
                                        const LayoutPlan& layout,
                                        const std::vector<std::string>& only,
                                        bool for_teacher,
                                        std::span<const PlannedSheet> packet,
                                        Diagnostics& diagnostics) {
  std::vector<PlannedSheet> sheets;
  for (const LayoutPlan::Sheet& entry : layout.sheets) {
    if (entry.kind->for_teacher != for_teacher) continue;
    const bool wanted =
        only.empty() || std::ranges::find(only, entry.kind->name) != only.end();
    if (!wanted) continue;
    if (!has_something(b, *entry.kind, entry.options, packet, diagnostics)) {
      continue;
    }
    sheets.push_back(
        {entry.kind, entry.options, 1, entry.kind->minutes, entry.span});
  }
  return sheets;
}

// Sheets that are asked for by name although the layout lacks them: with all
// options as they come, and on no day, since the week does not plan them.
std::vector<PlannedSheet> extra_sheets(const Bindery& b,
                                       const LayoutPlan& layout,
                                       const std::vector<std::string>& only,
                                       bool for_teacher,
                                       std::span<const PlannedSheet> packet,
                                       Diagnostics& diagnostics) {
  std::vector<PlannedSheet> sheets;
  for (const std::string& name : only) {
    const SheetKind* kind = find_sheet_kind(name);
    if (kind == nullptr || kind->for_teacher != for_teacher) continue;
    const bool listed =
        std::ranges::find(layout.sheets, kind, &LayoutPlan::Sheet::kind) !=
        layout.sheets.end();
    const bool twice =
        std::ranges::find(sheets, kind, &PlannedSheet::kind) != sheets.end();
    const OptionValues options(kind->options);
    if (listed || twice ||
        !has_something(b, *kind, options, packet, diagnostics)) {
      continue;
    }
    sheets.push_back({kind, options, 0, kind->minutes});
  }
  return sheets;
}

void append(std::vector<PlannedSheet>& sheets, std::vector<PlannedSheet> more) {
  sheets.insert(sheets.end(), std::make_move_iterator(more.begin()),
                std::make_move_iterator(more.end()));
}

std::string document_title(const AnalyzedLesson& lesson,
                           std::string_view what) {
  std::string title = lesson.lesson->title.value;
  if (!title.empty()) title += ", ";
  return title + std::string(what) + ", code " + lesson.code;
}

void compose_document(const Bindery& b, std::span<const PlannedSheet> sheets,
                      std::span<const PlannedSheet> packet, Document& document,
                      Diagnostics& diagnostics) {
  Binder binder(document);
  for (const PlannedSheet& sheet : sheets) {
    binder.add_sheet(*sheet.kind,
                     compose_sheet(b, sheet, packet, document, diagnostics));
  }
}

}  // namespace

Packet make_packet(const AnalyzedLesson& lesson, const LayoutPlan& layout,
                   const LessonPictures& pictures, const Style& style,
                   Shaper& shaper, const std::vector<std::string>& only,
                   Diagnostics& diagnostics) {
  SheetMemory memory;
  const Bindery b{lesson, pictures, style, shaper, memory};
  Packet packet;
  packet.learner.title = document_title(lesson, "learner's packet");
  packet.teacher.title = document_title(lesson, "teacher's pages");
  // Days are given to the whole week, so that a sheet printed alone says the
  // same day as in its packet.
  std::vector<PlannedSheet> week =
      chosen_sheets(b, layout, {}, false, {}, diagnostics);
  plan_days(week, lesson.lesson->days.value, lesson.lesson->minutes.value);
  append(week, extra_sheets(b, layout, only, false, {}, diagnostics));
  std::vector<PlannedSheet> learner = week;
  if (!only.empty()) {
    std::erase_if(learner, [&](const PlannedSheet& s) {
      return std::ranges::find(only, s.kind->name) == only.end();
    });
  }
  compose_document(b, learner, week, packet.learner, diagnostics);
  auto teacher = chosen_sheets(b, layout, only, true, week, diagnostics);
  append(teacher, extra_sheets(b, layout, only, true, week, diagnostics));
  compose_document(b, teacher, week, packet.teacher, diagnostics);
  return packet;
}

}  // namespace sheaf
