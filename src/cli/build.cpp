// `sheaf build`: lessons to PDF files.

#include <fmt/format.h>

#include <map>
#include <set>

#include "cli/dependencies.h"
#include "cli/exit_codes.h"
#include "cli/files.h"
#include "cli/output_files.h"
#include "cli/verbs.h"
#include "cli/workspace.h"
#include "pdf/pdf_writer.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

// The folder that a lesson's files go to.
fs::path target_folder(const CommandLine& line, const std::string& lesson) {
  return fs::path(line.out) / fs::path(lesson).stem();
}

// Two lessons of one name would overwrite each other.
bool names_differ(const CommandLine& line) {
  std::map<fs::path, std::string> seen;
  for (const std::string& lesson : line.arguments) {
    const auto [entry, is_new] =
        seen.emplace(target_folder(line, lesson), lesson);
    if (is_new) continue;
    fmt::print(stderr,
               "sheaf: {} and {} would both be written to {}; rename one or "
               "build them apart with --out\n",
               entry->second, lesson, entry->first.string());
    return false;
  }
  return true;
}

bool has_lessons(const CommandLine& line) {
  if (!line.arguments.empty() && line.learners.empty()) return true;
  fmt::print(stderr, "sheaf: {}\n",
             line.learners.empty()
                 ? "which lesson? Name its file, or a class with --class"
                 : "--learner goes with --class");
  return false;
}

void add_document(OutputFiles& files, const Document& document,
                  const fs::path& path) {
  if (document.pages.empty()) return;
  files.add(path, write_pdf(document), OwnKind::pdf, kPacketWayOut);
}

// A file for each sheet of the layout, or each that is asked for.
void add_separate(OutputFiles& files, const PreparedLesson& lesson,
                  const CommandLine& line, Workspace& workspace,
                  const fs::path& folder) {
  std::set<std::string> names(line.only.begin(), line.only.end());
  if (names.empty()) {
    for (const LayoutPlan::Sheet& sheet : lesson.layout.sheets) {
      names.emplace(sheet.kind->name);
    }
  }
  for (const std::string& name : names) {
    Diagnostics unheard;  // the whole packet has said it all
    const Packet one =
        make_packet(lesson.analyzed, lesson.layout, *lesson.pictures,
                    lesson.style, workspace.shaper(), {name}, unheard);
    add_document(files,
                 find_sheet_kind(name)->for_teacher ? one.teacher : one.learner,
                 folder / (name + ".pdf"));
  }
}

bool build_lesson(Workspace& workspace, const CommandLine& line,
                  const std::string& path, std::vector<std::string>& targets) {
  Diagnostics diagnostics;
  const auto lesson = prepare(workspace, line, path, diagnostics);
  if (lesson == nullptr) {
    print(diagnostics);
    return false;
  }
  const Packet packet =
      make_packet(lesson->analyzed, lesson->layout, *lesson->pictures,
                  lesson->style, workspace.shaper(), line.only, diagnostics);
  print(diagnostics);
  if (diagnostics.has_errors()) return false;
  const fs::path folder = target_folder(line, path);
  OutputFiles files;
  add_document(files, packet.learner, folder / "packet.pdf");
  add_document(files, packet.teacher, folder / "teacher.pdf");
  if (line.separate) add_separate(files, *lesson, line, workspace, folder);
  files.finish();
  targets.push_back((folder / "packet.pdf").string());
  targets.push_back((folder / "teacher.pdf").string());
  fmt::print(
      "{}: {} for the learner, {} for the teacher\n", folder.string(),
      counted(static_cast<int>(packet.learner.pages.size()), "page", "pages"),
      counted(static_cast<int>(packet.teacher.pages.size()), "page", "pages"));
  return true;
}

}  // namespace

int build_all(Workspace& workspace, const CommandLine& line) {
  if (!known_sheets(line)) return kWrongCommandLine;
  check_dependency_file(line);
  if (!line.class_file.empty()) return build_class(workspace, line);
  if (!names_differ(line) || !has_lessons(line)) return kWrongCommandLine;
  std::vector<std::string> targets;
  bool good = true;
  for (const std::string& path : line.arguments) {
    good = build_lesson(workspace, line, path, targets) && good;
  }
  if (good) write_dependencies(workspace, line, targets);
  return good ? kDone : kFaultsInFiles;
}

int run_build(const CommandLine& line) {
  // Left to the end of the process: the system clears away faster.
  static Workspace& workspace = *new Workspace(shipped_folder());
  return build_all(workspace, line);
}

}  // namespace sheaf
