// `sheaf build`: lessons to PDF files.

#include <fmt/format.h>

#include <map>

#include "cli/exit_codes.h"
#include "cli/files.h"
#include "cli/output_files.h"
#include "cli/verbs.h"
#include "cli/workspace.h"
#include "pdf/pdf_writer.h"

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

// Spaces and signs that make would read as something else.
std::string for_make(const std::string& path) {
  std::string result;
  for (const char c : path) {
    if (c == ' ' || c == '#' || c == '\\') result += '\\';
    if (c == '$') result += '$';
    result += c;
  }
  return result;
}

// As seen from the folder that make runs in, where it is below that.
std::string from_here(const std::string& path) {
  const fs::path near = fs::path(path).lexically_proximate(fs::current_path());
  const bool below = fs::path(path).is_absolute() && *near.begin() != "..";
  return below ? near.string() : path;
}

std::string dependencies(const std::vector<std::string>& targets,
                         const std::vector<std::string>& sources) {
  std::string text;
  for (const std::string& target : targets) text += for_make(target) + " ";
  text += ":";
  for (const std::string& source : sources) text += " " + for_make(source);
  text += "\n";
  // An empty rule for each, so that a file that was removed stops nothing.
  for (const std::string& source : sources) text += for_make(source) + ":\n";
  return text;
}

void add_document(OutputFiles& files, const Document& document,
                  const fs::path& path) {
  if (!document.pages.empty()) files.add(path, write_pdf(document));
}

void add_separate(OutputFiles& files, const PreparedLesson& lesson,
                  Workspace& workspace, const fs::path& folder) {
  for (const LayoutPlan::Sheet& sheet : lesson.layout.sheets) {
    Diagnostics unheard;  // the whole packet has said it all
    const Packet one = make_packet(
        lesson.analyzed, lesson.layout, *lesson.pictures, lesson.style,
        workspace.shaper(), {std::string(sheet.kind->name)}, unheard);
    const Document& document =
        sheet.kind->for_teacher ? one.teacher : one.learner;
    add_document(files, document,
                 folder / (std::string(sheet.kind->name) + ".pdf"));
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
  if (line.separate) add_separate(files, *lesson, workspace, folder);
  files.finish();
  targets.push_back((folder / "packet.pdf").string());
  targets.push_back((folder / "teacher.pdf").string());
  fmt::print("{}: {} for the learner, {} for the teacher\n", folder.string(),
             fmt::format("{} pages", packet.learner.pages.size()),
             fmt::format("{} pages", packet.teacher.pages.size()));
  return true;
}

}  // namespace

int run_build(const CommandLine& line) {
  if (!names_differ(line) || !known_sheets(line)) return kWrongCommandLine;
  Workspace workspace(shipped_folder());
  std::vector<std::string> targets;
  bool good = true;
  for (const std::string& path : line.arguments) {
    good = build_lesson(workspace, line, path, targets) && good;
  }
  if (!good) return kFaultsInFiles;
  if (!line.dependency_file.empty()) {
    std::vector<std::string> sources;
    for (const std::string& file : workspace.shared_files()) {
      sources.push_back(from_here(file));
    }
    for (const std::string& file : workspace.take_files_read()) {
      sources.push_back(from_here(file));
    }
    OutputFiles files;
    files.add(line.dependency_file, dependencies(targets, sources));
    files.finish();
  }
  return kDone;
}

}  // namespace sheaf
