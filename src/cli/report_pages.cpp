#include "cli/report_pages.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.h"
#include "cli/messages.h"
#include "cli/progress_table.h"
#include "driver/own_files.h"
#include "driver/pdf_titles.h"
#include "files/disk_files.h"
#include "files/output_files.h"
#include "pdf/pdf_writer.h"
#include "reports/home_report.h"
#include "reports/mark_report.h"
#include "reports/meeting_report.h"
#include "reports/progress_report.h"

namespace sheaf {

namespace {

// Reports have the looks of the page settings as they come.
Style report_style(Workspace& workspace, const CommandLine& line) {
  OptionValues settings(page_options());
  if (!line.paper.empty()) settings.set_choice("paper", line.paper);
  Diagnostics diagnostics;
  Style style = make_style(settings, workspace.fonts(), diagnostics);
  print(diagnostics);
  return style;
}

void write(const Document& document, const std::string& path) {
  const auto files = disk().write();
  files->add(path, write_pdf(document), own_form(OwnKind::pdf), kPdfWayOut);
  files->finish();
  fmt::print(stderr, "{}: {} page{}\n", printable(path), document.pages.size(),
             document.pages.size() == 1 ? "" : "s");
}

// The voice of the first lesson that there is: those of a class have one.
std::string language_of(const std::vector<MarkedRecord>& records) {
  for (const MarkedRecord& marked : records) {
    if (marked.lesson == nullptr) continue;
    return std::string(
        language_tag(marked.lesson->analyzed.conventions.accent));
  }
  return std::string(language_tag(Accent::general_american));
}

// "Marks, week-06-ai-ay", "Marks, week-06-ai-ay and 2 more".
std::string marks_title(const std::vector<MarkedRecord>& records) {
  std::vector<std::string_view> lessons;
  for (const MarkedRecord& marked : records) {
    const std::string_view name = marked.session.lesson;
    if (!name.empty() && std::ranges::find(lessons, name) == lessons.end()) {
      lessons.push_back(name);
    }
  }
  std::string title(kMarksTitle);
  if (lessons.empty()) return title;
  title.append(", ").append(lessons.front());
  if (lessons.size() > 1) {
    title += fmt::format(" and {} more", lessons.size() - 1);
  }
  return title;
}

std::string progress_title(const std::vector<LearnerProgress>& learners) {
  if (learners.empty()) return std::string(kProgressTitle);
  return fmt::format("{}{}{}", kProgressTitle, kProgressOf,
                     learners.size() == 1
                         ? learners.front().code.text()
                         : fmt::format("{} learners", learners.size()));
}

}  // namespace

void check_report_file(const CommandLine& line) {
  disk().write()->check(line.marking.pdf, own_form(OwnKind::pdf), kPdfWayOut);
}

void write_mark_pages(Workspace& workspace, const CommandLine& line,
                      const std::vector<MarkedRecord>& records) {
  const Style style = report_style(workspace, line);
  Document document;
  document.title = marks_title(records);
  document.language = language_of(records);
  const ReportMaker maker{workspace.shaper(), style, document};
  for (const MarkedRecord& marked : records) {
    add_mark_report(maker, marked.session, marked.patterns,
                    workspace.phonics().patterns(),
                    date_text(marked.session.date));
  }
  write(document, line.marking.pdf);
}

std::optional<ProgressReader> read_reader(std::string_view word) {
  if (word.empty() || word == "teacher") return ProgressReader::teacher;
  if (word == "home") return ProgressReader::home;
  if (word == "meeting") return ProgressReader::meeting;
  return std::nullopt;
}

GoalWish goal_for(const LearnerCode& code, const GoalWish& asked,
                  const std::vector<MarkedRecord>& records) {
  GoalWish wish = asked;
  for (auto marked = records.rbegin(); marked != records.rend(); ++marked) {
    if (marked->pupils == nullptr) continue;
    const auto& learners = marked->pupils->learners;
    const auto learner = std::ranges::find(
        learners, code,
        [](const LearnerEntry& entry) { return entry.code.value; });
    if (learner == learners.end()) continue;
    if (!wish.date && marked->pupils->goal_date) {
      wish.date = marked->pupils->goal_date->value;
    }
    if (!wish.level && learner->goal.given()) wish.level = learner->goal.value;
    break;
  }
  return wish;
}

void write_progress_pages(Workspace& workspace, const CommandLine& line,
                          const ProgressPages& pages) {
  const Style style = report_style(workspace, line);
  Document document;
  document.title = progress_title(pages.learners);
  document.language = language_of(pages.records);
  const ReportMaker maker{workspace.shaper(), style, document};
  const ProgressGround ground{workspace.phonics().patterns(), pages.rules,
                              pages.days};
  const Sessions sessions = sessions_of(pages.records);
  // One learner's pages show nobody else, nor do those that are given out.
  if (pages.learners.size() > 1 && pages.reader == ProgressReader::teacher) {
    add_group_report(maker, pages.learners, ground);
  }
  for (const LearnerProgress& learner : pages.learners) {
    const Growth growth =
        growth_of(learner, goal_for(learner.code, pages.goal, pages.records));
    switch (pages.reader) {
      case ProgressReader::teacher:
        add_learner_report(maker, learner, growth, ground,
                           follows_speech_text(pages.records, learner.code));
        break;
      case ProgressReader::home:
        add_home_report(maker, learner, growth, sessions, ground.catalogue);
        break;
      case ProgressReader::meeting:
        add_meeting_report(maker, learner, growth, sessions, ground);
        break;
    }
  }
  write(document, line.marking.pdf);
}

}  // namespace sheaf
