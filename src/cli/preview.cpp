// `sheaf preview`: the pages of a lesson as a picture.

#include "preview/preview.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>

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
#include "sheets/word_parts.h"

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

// The pages that are asked for, in that order; all where none is. Where there
// is no such page, says so and gives nothing.
std::optional<Document> chosen_pages(const Document& all,
                                     const std::vector<std::string>& numbers,
                                     bool teacher) {
  const std::string whose = teacher ? "the teacher" : "the learner";
  const std::size_t count = all.pages.size();
  if (count == 0) {
    fmt::print(stderr, "sheaf: there is no page for {} to show\n", whose);
    return std::nullopt;
  }
  if (numbers.empty()) return all;
  Document chosen;
  for (const std::string& text : numbers) {
    std::size_t number = 0;
    const char* const end = text.data() + text.size();
    const auto [stop, fault] = std::from_chars(text.data(), end, number);
    if (fault != std::errc() || stop != end || number == 0 || number > count) {
      fmt::print(stderr, "sheaf: there is no page {}; {} has {}\n",
                 sheaf::quoted(text), whose,
                 counted(static_cast<int>(count), "page", "pages"));
      return std::nullopt;
    }
    chosen.pages.push_back(all.pages[number - 1]);
  }
  return chosen;
}

PreviewImage draw(const Document& document, const CommandLine::Preview& asked) {
  const int count = static_cast<int>(document.pages.size());
  const bool alone = count == 1 && !asked.pages.empty();
  PreviewOptions options;
  options.dpi = alone ? kPageDpi : kSheetDpi;
  if (asked.dpi > 0) options.dpi = asked.dpi;
  return alone ? draw_page(document.pages.front(), options)
               : contact_sheet(document, options, asked.strip ? count : 0);
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
  const auto pages = chosen_pages(teacher ? packet.teacher : packet.learner,
                                  line.preview.pages, teacher);
  if (!pages) return kWrongCommandLine;
  const PreviewImage image = draw(*pages, line.preview);
  const auto files = disk().write();
  files->add(target, write_png(image), own_form(OwnKind::preview),
             kPreviewWayOut);
  files->finish();
  fmt::print("{}: {}, {} by {} pixels\n", printable(target.string()),
             counted(static_cast<int>(pages->pages.size()), "page", "pages"),
             image.width, image.height);
  return kDone;
}

}  // namespace sheaf
