#include "packet/packet.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <limits>
#include <map>
#include <numeric>

#include "layout/frame.h"
#include "layout/heard_text.h"
#include "packet/binder.h"
#include "packet/check_fit.h"
#include "packet/week.h"

namespace sheaf {

namespace {

// What all sheets of a packet are made with.
struct Bindery {
  const AnalyzedLesson& lesson;
  const LessonPictures& pictures;
  const Style& style;
  Shaper& shaper;
  const PacketFor& whom;
  SheetMemory& memory;
  bool has_script;  // the layout's teacher pages
  Week& week;
};

SheetInput sheet_input(const Bindery& b, const OptionValues& options,
                       std::span<const PlannedSheet> packet) {
  return {b.lesson,        options,      b.pictures, b.memory,           packet,
          b.whom.learners, b.has_script, &b.week,    b.style.plain_voice};
}

FrameText frame_text(const Bindery& b, const PlannedSheet& sheet,
                     std::span<const PlannedSheet> packet) {
  const AnalyzedLesson& lesson = b.lesson;
  FrameText text;
  text.title = lesson.lesson->title.value;
  text.sheet = sheet.kind->title;
  text.direction = sheet.kind->direction;
  text.action = sheet.kind->action;
  if (sheet.kind->other_direction != nullptr) {
    const Direction other =
        sheet.kind->other_direction(sheet_input(b, sheet.options, packet));
    if (!other.text.empty()) {
      text.direction = other.text;
      text.action = other.action;
    }
  }
  if (b.style.plain_voice) text.action = Action::none;
  text.code = lesson.code;
  text.for_teacher = sheet.kind->for_teacher;
  if (text.for_teacher) return text;
  // A check of where to begin belongs to no week.
  if (sheet.day > 0 && !lesson.lesson->placement.given()) {
    text.day = sheet.last_day > sheet.day
                   ? fmt::format("Days {} to {}", sheet.day, sheet.last_day)
                   : fmt::format("Day {}", sheet.day);
  }
  if (b.whom.learners.size() == 1) text.learner = b.whom.learners.front();
  return text;
}

// One sheet's frame and what stands in it: `fill` adds the blocks. Where it
// adds none there are no pages, and the document is left as it was.
template <typename Fill>
std::vector<Page> compose_framed(const Bindery& b, const Style& style,
                                 const FrameText& frame, const Span& asked_for,
                                 FitCheck& fit, Document& document, Fill fill) {
  const std::size_t before = document.elements.size();
  const ElementId section = document.add(
      {.role = Role::section, .parent = kDocumentElement, .span = asked_for});
  document.source = b.lesson.lesson->file;
  Composer outer(b.shaper, style, document, section, style.body_size());
  const Rect body = body_inside(style, outer, frame);
  if (!fit.check_body(body)) return {};
  Composer composer(b.shaper, style, document, section,
                    {body.width, body.height});
  const From from(composer, asked_for);
  const FrameElements elements = add_frame_elements(composer, frame);
  fill(composer);
  fit.check_blocks(composer);
  std::vector<Block> blocks = composer.take();
  if (blocks.empty()) {
    document.elements.resize(before);
    return {};
  }
  if (!style.fills_tints) outline_tints(blocks, style.guide_weight);
  std::vector<Page> pages = paginate(std::move(blocks), body, style.paper);
  draw_frame(pages, composer, frame, elements);
  fit.check_pages(pages);
  return pages;
}

// Where no layout asks for a sheet (`--only`), the lesson itself does.
Span asked_for(const Bindery& b, const PlannedSheet& sheet) {
  return sheet.span ? sheet.span : b.lesson.patterns.front().written.span;
}

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

// The cards of all sheets together. Those of one alone stand under its own
// heading.
void compose_cut_leaf(const Bindery& b, std::span<const PlannedSheet> sheets,
                      std::span<const PlannedSheet> packet, Document& document,
                      Binder& binder, Diagnostics& diagnostics) {
  std::vector<const PlannedSheet*> with_cards;
  for (const PlannedSheet& sheet : sheets) {
    const SheetKind& kind = *sheet.kind;
    if (kind.cards != nullptr &&
        kind.has_cards(sheet_input(b, sheet.options, packet))) {
      with_cards.push_back(&sheet);
    }
  }
  if (with_cards.empty()) return;
  const PlannedSheet& first = *with_cards.front();
  const bool several = with_cards.size() > 1;
  FrameText frame = frame_text(b, first, packet);
  if (several) {
    frame.sheet = "Cut these out";
    frame.direction = "Cut along the dashed lines. Keep each set together.";
    frame.action = Action::cut;
    frame.day.clear();
  } else {
    // What is done with the cards is told when they are cut.
    frame.direction =
        fmt::format("Cut along the dashed lines. {}", frame.direction);
    frame.action = Action::cut;
  }
  FitCheck fit(first, *b.lesson.lesson, diagnostics);
  const auto begin = static_cast<ElementId>(document.elements.size() + 1);
  std::vector<Page> pages =
      compose_framed(b, b.style, frame, asked_for(b, first), fit, document,
                     [&](Composer& composer) {
                       std::vector<CutSet> sets;
                       for (const PlannedSheet* sheet : with_cards) {
                         const FrameText own = frame_text(b, *sheet, packet);
                         CutSet set = sheet->kind->cards(
                             sheet_input(b, sheet->options, packet), composer);
                         set.title = own.sheet;
                         set.day = own.day;
                         set.direction = own.direction;
                         set.action = own.action;
                         sets.push_back(std::move(set));
                       }
                       add_cut_sets(composer, std::move(sets), several);
                     });
  binder.add_cut_leaf(several ? "cards" : first.kind->name, frame.sheet,
                      std::move(pages), begin);
}

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

// Which sheets one of a packet's two documents gets. Those that the lesson has
// nothing for are noted and left out.
struct SheetChoice {
  const Bindery& b;
  const LayoutPlan& layout;
  bool for_teacher = false;
  // The learner's sheets, which teacher's sheets speak of.
  std::span<const PlannedSheet> packet = {};

  std::vector<PlannedSheet> of_layout(const std::vector<std::string>& only,
                                      Diagnostics& diagnostics) const;
  std::vector<PlannedSheet> beside_layout(const std::vector<std::string>& only,
                                          Diagnostics& diagnostics) const;
};

// The sheets of the layout, or those among them that are asked for by name.
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

// Sheets that are asked for by name although the layout lacks them: with all
// options as they come, and on no day, since the week does not plan them.
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
  for (const PlannedSheet& sheet : sheets) {
    binder.add_sheet(sheet.kind->name, sheet.kind->title,
                     compose_sheet(b, sheet, packet, document, diagnostics));
  }
  compose_cut_leaf(b, sheets, packet, document, binder, diagnostics);
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

// The learner's sheets with their days. Those for more practice come last.
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

}  // namespace

Packet make_packet(const AnalyzedLesson& lesson, const LayoutPlan& layout,
                   const LessonPictures& pictures, const Style& style,
                   Shaper& shaper, const std::vector<std::string>& only,
                   Diagnostics& diagnostics, const PacketFor& whom) {
  SheetMemory memory;
  const bool has_script =
      std::ranges::any_of(layout.sheets, [](const LayoutPlan::Sheet& sheet) {
        return sheet.kind->name == "script";
      });
  Week days;
  const Bindery b{lesson, pictures, style,      shaper,
                  whom,   memory,   has_script, days};
  Packet packet;
  packet.learner.language = language_tag(lesson.conventions.accent);
  packet.teacher.language = packet.learner.language;
  // Days are given to the whole week, so that a sheet printed alone says the
  // same day as in its packet.
  const std::vector<PlannedSheet> week =
      plan_week(b, layout, only, diagnostics);
  if (whom.learner_pages) {
    std::vector<PlannedSheet> learner = week;
    if (!only.empty()) {
      std::erase_if(learner, [&](const PlannedSheet& s) {
        return std::ranges::find(only, s.kind->name) == only.end();
      });
    }
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
  return packet;
}

}  // namespace sheaf
