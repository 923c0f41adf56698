#include "cli/week_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.h"
#include "cli/messages.h"
#include "cli/requests.h"
#include "driver/class_week.h"
#include "driver/own_files.h"
#include "files/disk_files.h"
#include "files/output_files.h"
#include "pdf/pdf_writer.h"
#include "reports/sunday_report.h"

namespace sheaf {

namespace {

// "What do you notice?" is followed by a comma.
std::string with_commas(std::string text, std::string_view more) {
  if (more.ends_with('?')) more.remove_suffix(1);
  return text.append(text.empty() ? "" : ", ").append(more);
}

std::string name_of_group(const std::string& name) {
  return name.empty() ? "Class" : name;
}

SundayGroup in_words(const GroupWeek& week) {
  SundayGroup group;
  group.name = name_of_group(week.name);
  group.lesson = week.lesson;
  group.copies = fmt::format("{}", week.learners);
  group.pages =
      week.least_pages == week.most_pages
          ? fmt::format("{}", week.most_pages)
          : fmt::format("{} to {}", week.least_pages, week.most_pages);
  group.days.resize(static_cast<std::size_t>(std::max(week.days, 0)));
  int cut_day = -1;
  for (const Packet::Sheet& sheet : week.sheets) {
    if (sheet.day >= 1 && sheet.day <= week.days) {
      std::string& day = group.days[static_cast<std::size_t>(sheet.day - 1)];
      day = with_commas(std::move(day), sheet.kind->title);
    }
    if (!sheet.cards) continue;
    if (sheet.day != cut_day) {
      group.cut += fmt::format(
          "{}{}: ", group.cut.empty() ? "" : "; ",
          sheet.day == 0 ? "any day" : fmt::format("day {}", sheet.day));
      cut_day = sheet.day;
    } else {
      group.cut += ", ";
    }
    group.cut += sheet.kind->title;
  }
  return group;
}

// A pack of cards belongs to a group, whatever lessons its learners have.
std::vector<SundayCards> cards_of(const std::vector<GroupWeek>& weeks,
                                  const CardEvidence& evidence,
                                  const PatternCatalogue& catalogue) {
  std::vector<std::string> names;
  for (const GroupWeek& week : weeks) {
    if (std::ranges::find(names, week.name) == names.end()) {
      names.push_back(week.name);
    }
  }
  std::vector<SundayCards> cards;
  for (const std::string& name : names) {
    std::vector<ComingLesson> coming;
    for (const GroupWeek& week : weeks) {
      if (week.name != name) continue;
      for (const LearnerCode& code : week.codes) {
        coming.push_back({code, week.patterns});
      }
    }
    const CardMoves moves = card_moves(coming, evidence);
    cards.push_back({name_of_group(name), cards_text(moves.in, catalogue),
                     cards_text(moves.out, catalogue)});
  }
  return cards;
}

}  // namespace

bool write_week_page(Workspace& workspace, const CommandLine& line,
                     const std::string& class_path,
                     const CardEvidence& evidence) {
  Diagnostics diagnostics;
  ClassRequest request;
  request.lesson.allowed_folders = line.allowed_folders;
  const auto job = prepare_class(workspace, request, class_path, diagnostics);
  if (job == nullptr) {
    print(diagnostics);
    return false;
  }
  std::vector<SundayGroup> groups;
  const std::vector<GroupWeek> weeks =
      group_weeks(workspace.shaper(), *job, diagnostics);
  if (diagnostics.has_errors()) {
    print(diagnostics);
    return false;
  }
  for (const GroupWeek& week : weeks) groups.push_back(in_words(week));
  std::size_t teacher_pages = 0;
  for (const auto& learners : by_teacher_key(*job)) {
    teacher_pages +=
        compose_teacher(workspace.shaper(), learners, {}, diagnostics)
            .pages.size();
  }
  OptionValues settings(page_options());
  const Style style = make_style(settings, workspace.fonts(), diagnostics);
  if (diagnostics.has_errors()) {
    print(diagnostics);
    return false;
  }
  Document document;
  // What the file says of itself names no class; the page does.
  const std::string& title = job->class_file.title.value;
  document.title = "The week on one page";
  document.language = std::string(
      language_tag(job->learners.front().lesson.conventions.accent));
  add_sunday_report({workspace.shaper(), style, document}, title, teacher_pages,
                    groups,
                    cards_of(weeks, evidence, workspace.phonics().patterns()));
  const auto files = disk().write();
  files->add(line.marking.pdf, write_pdf(document), own_form(OwnKind::pdf),
             kPdfWayOut);
  files->finish();
  fmt::print("{}: the week on {}\n", printable(line.marking.pdf),
             document.pages.size() == 1
                 ? std::string("one page")
                 : fmt::format("{} pages", document.pages.size()));
  return true;
}

}  // namespace sheaf
