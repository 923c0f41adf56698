#include "packet/packet.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "layout/heard_text.h"
#include "packet/binder.h"
#include "packet/bindery.h"
#include "packet/cut_leaves.h"
#include "packet/page_limit.h"
#include "packet/shared_memory.h"
#include "packet/sheet_choice.h"

namespace sheaf {

namespace {

std::vector<Page> compose_sheet(const Bindery& b, const PlannedSheet& sheet,
                                std::span<const PlannedSheet> packet,
                                Document& document, Diagnostics& diagnostics) {
  FitCheck fit(sheet, *b.lesson.lesson, diagnostics);
  Style style = b.style;
  if (sheet.kind->for_teacher) {
    style.paper = style.teacher_paper;
    // Wider gaps are for learners.
    style.tracking = Length();
    style.word_gap = Length();
  }
  return compose_framed(
      b, style, frame_text(b, sheet, packet), asked_for(b, sheet), fit,
      document, [&](Composer& composer) {
        sheet.kind->compose(sheet_input(b, sheet.options, packet), composer);
      });
}

// "week plan" of `week-plan`.
std::string plain_name(const SheetKind& kind) {
  std::string name(kind.name);
  std::ranges::replace(name, '-', ' ');
  return name;
}

// "week plan, script and answer key": the first few of many.
std::string names_of(std::span<const PlannedSheet> sheets) {
  constexpr std::size_t kMost = 4;
  std::vector<std::string> names;
  for (const PlannedSheet& sheet : sheets) {
    std::string name = plain_name(*sheet.kind);
    if (std::ranges::find(names, name) == names.end()) {
      names.push_back(std::move(name));
    }
  }
  if (names.size() > kMost) {
    const std::size_t more = names.size() - (kMost - 1);
    names.resize(kMost - 1);
    names.push_back(fmt::format("{} more", more));
  }
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const bool last = i + 1 == names.size();
    text += (i == 0 ? "" : last ? " and " : ", ") + names[i];
  }
  return text;
}

// What a file of learner's pages is called before they have found the pattern.
std::string what_learners_get(std::span<const PlannedSheet> sheets) {
  const bool one = !sheets.empty() &&
                   std::ranges::all_of(sheets, [&](const PlannedSheet& sheet) {
                     return sheet.kind == sheets.front().kind;
                   });
  std::string name(one ? sheets.front().kind->title : "Worksheets");
  // "What do you notice?" is followed by a comma.
  if (name.ends_with('?')) name.pop_back();
  return name;
}

// A teacher looks for the pattern and the sheet.
std::string what_teachers_get(const Bindery& b,
                              std::span<const PlannedSheet> sheets) {
  // Those of a whole sequence would be no title.
  if (b.lesson.lesson->placement.given()) {
    return fmt::format("a check of where to begin: {}", names_of(sheets));
  }
  std::vector<std::string_view> patterns;
  bool any_comma = false;
  for (const LessonPattern& pattern : b.lesson.patterns) {
    patterns.push_back(pattern.name);
    any_comma = any_comma || pattern.name.find(',') != std::string::npos;
  }
  // A title has nothing beside it that would be heard in its place.
  return fmt::format("{}: {}",
                     heard_text(fmt::format(
                         "{}", fmt::join(patterns, any_comma ? "; " : ", "))),
                     names_of(sheets));
}

// The title's end tells what a file is about (see driver/pdf_titles.h).
std::string document_title(const Bindery& b, std::string title) {
  if (const std::string& own = b.lesson.lesson->title.value; !own.empty()) {
    title += ", " + own;
  }
  title += fmt::format(", code {}", b.lesson.code);
  for (const std::string& learner : b.whom.learners) {
    title += (&learner == b.whom.learners.data() ? ", for " : ", ") + learner;
  }
  return title;
}

void compose_document(const Bindery& b, std::span<const PlannedSheet> sheets,
                      std::span<const PlannedSheet> packet, Document& document,
                      Diagnostics& diagnostics) {
  Binder binder(document, b.style.on_paper);
  std::size_t composed = 0;
  for (const PlannedSheet& sheet : sheets) {
    binder.add_sheet(sheet.kind->name, sheet.kind->title,
                     compose_sheet(b, sheet, packet, document, diagnostics));
    ++composed;
    if (document.pages.size() > kMostPacketPages) {
      report_many_pages(b, sheet, composed, diagnostics);
      return;
    }
  }
  if (b.whom.cut_leaf) {
    compose_cut_leaf(b, sheets, packet, document, binder, diagnostics);
  }
}

}  // namespace

Packet make_packet(const AnalyzedLesson& lesson, const LayoutPlan& layout,
                   const LessonPictures& pictures, const Style& style,
                   Shaper& shaper, const std::vector<std::string>& only,
                   Diagnostics& diagnostics, const PacketFor& whom) {
  SheetMemory memory =
      whom.shared != nullptr ? whom.shared->known() : SheetMemory();
  bool has_script = false;
  int ear_items = 0;
  for (const LayoutPlan::Sheet& sheet : layout.sheets) {
    has_script = has_script || sheet.kind->name == "script";
    if (sheet.kind->name == "by-ear") ear_items = sheet.options.count("items");
  }
  Week days;
  const Bindery b{lesson, pictures,   style, shaper,   whom,
                  memory, has_script, days,  ear_items};
  Packet packet;
  packet.learner.language = language_tag(lesson.conventions.accent);
  packet.teacher.language = packet.learner.language;
  // Days are given to the whole week, so that a sheet printed alone says the
  // same day as in its packet.
  const std::vector<PlannedSheet> week =
      plan_week(b, layout, only, diagnostics);
  packet.days = static_cast<int>(days.days.size());
  for (const PlannedSheet& sheet : week) {
    const bool cards =
        sheet.kind->cards != nullptr &&
        sheet.kind->has_cards(sheet_input(b, sheet.options, week));
    packet.sheets.push_back({sheet.kind, sheet.day, sheet.last_day, cards});
  }
  if (whom.learner_pages) {
    std::vector<PlannedSheet> learner = week;
    keep_only(learner, only);
    packet.learner.title = document_title(b, what_learners_get(learner));
    compose_document(b, learner, week, packet.learner, diagnostics);
  }
  if (whom.teacher_pages) {
    const SheetChoice choice{
        .b = b, .layout = layout, .for_teacher = true, .packet = week};
    std::vector<PlannedSheet> teacher = choice.of_layout(only, diagnostics);
    append(teacher, choice.beside_layout(only, diagnostics));
    packet.teacher.title = document_title(b, what_teachers_get(b, teacher));
    compose_document(b, teacher, week, packet.teacher, diagnostics);
  }
  if (whom.shared != nullptr) whom.shared->keep(memory);
  return packet;
}

}  // namespace sheaf
