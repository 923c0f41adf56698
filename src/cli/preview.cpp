// `sheaf preview`: the pages of a lesson as a picture.

#include "preview/preview.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "driver/own_files.h"
#include "driver/workspace.h"
#include "files/disk_files.h"
#include "files/output_files.h"
#include "sheets/sheet.h"

namespace sheaf {

namespace {

constexpr int kPageDpi = 96;   // a page as large as on paper
constexpr int kSheetDpi = 40;  // all pages on one screen

FilePath target_of(const CommandLine& line) {
  if (!line.preview.file.empty()) return line.preview.file;
  return FilePath(line.out) / FilePath(line.arguments[0]).stem() /
         "preview.png";
}

// The teacher's pages where they are asked for, or where all sheets that are
// asked for are the teacher's.
bool for_teacher(const CommandLine& line) {
  return line.preview.teacher ||
         (!line.only.empty() &&
          std::ranges::all_of(line.only, [](const std::string& name) {
            return find_sheet_kind(name)->for_teacher;
          }));
}

PreviewImage draw(const Document& document, const CommandLine::Preview& asked) {
  PreviewOptions options;
  const int usual = asked.page > 0 ? kPageDpi : kSheetDpi;
  options.dpi = asked.dpi > 0 ? asked.dpi : usual;
  const int pages = static_cast<int>(document.pages.size());
  if (asked.page == 0) {
    return contact_sheet(document, options, asked.strip ? pages : 0);
  }
  return draw_page(document.pages[static_cast<std::size_t>(asked.page - 1)],
                   options);
}

// Whether there is such a page; if not, says so.
bool has_page(const Document& document, const CommandLine::Preview& asked,
              bool teacher) {
  const std::string whose = teacher ? "the teacher" : "the learner";
  if (document.pages.empty()) {
    fmt::print(stderr, "sheaf: there is no page for {} to show\n", whose);
    return false;
  }
  const std::size_t count = document.pages.size();
  if (asked.page == 0 || static_cast<std::size_t>(asked.page) <= count) {
    return true;
  }
  fmt::print(stderr, "sheaf: there is no page {}; {} has {} page{}\n",
             asked.page, whose, count, count == 1 ? "" : "s");
  return false;
}

}  // namespace

int run_preview(const CommandLine& line) {
  if (!known_sheets(line)) return kWrongCommandLine;
  const FilePath target = target_of(line);
  disk().write()->check(target, own_form(OwnKind::preview), kPreviewWayOut);
  Workspace workspace(disk(), shipped_folder());
  Diagnostics diagnostics;
  const auto lesson =
      prepare(workspace, lesson_request(line), line.arguments[0], diagnostics);
  if (lesson == nullptr) {
    print(diagnostics);
    return kFaultsInFiles;
  }
  const Packet packet =
      make_packet(lesson->analyzed, lesson->layout, *lesson->pictures,
                  lesson->style, workspace.shaper(), line.only, diagnostics);
  print(diagnostics);
  if (diagnostics.has_errors()) return kFaultsInFiles;
  const bool teacher = for_teacher(line);
  const Document& document = teacher ? packet.teacher : packet.learner;
  if (!has_page(document, line.preview, teacher)) return kWrongCommandLine;
  const PreviewImage image = draw(document, line.preview);
  const auto files = disk().write();
  files->add(target, write_png(image), own_form(OwnKind::preview),
             kPreviewWayOut);
  files->finish();
  const std::size_t shown = line.preview.page > 0 ? 1 : document.pages.size();
  fmt::print("{}: {} page{}, {} by {} pixels\n", printable(target.string()),
             shown, shown == 1 ? "" : "s", image.width, image.height);
  return kDone;
}

}  // namespace sheaf
