#include "cli/build_jobs.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/error.h"
#include "base/utf8.h"
#include "files/files.h"
#include "input/class_file.h"
#include "input/file_kind.h"

namespace sheaf {

namespace {

// Whether any learner has a lesson to be printed; a class with errors has, so
// that they are heard.
bool has_lessons(const SourceFile& file) {
  Diagnostics unheard;
  const ClassFile pupils = read_class(file, unheard);
  return unheard.has_errors() ||
         std::ranges::any_of(pupils.learners, [&](const LearnerEntry& learner) {
           return settings_for(pupils, learner).lesson.given();
         });
}

// Where a file cannot be read, making its pages will say so.
const SourceFile* open_if_readable(Workspace& workspace, const FilePath& path) {
  try {
    return &workspace.open(path);
  } catch (const MachineError&) {
    return nullptr;
  }
}

void add_folder(Workspace& workspace, const FilePath& folder,
                std::vector<BuildJob>& jobs) {
  const std::size_t before = jobs.size();
  for (const FilePath& path : yaml_files(workspace.files(), folder)) {
    // What editors leave lying about begins with a dot.
    const bool hidden = path.filename().string().starts_with('.');
    if (hidden || workspace.files().is_folder(path)) continue;
    const SourceFile* file = open_if_readable(workspace, path);
    const FileKind kind = file ? likely_kind(*file) : FileKind::lesson;
    if (kind == FileKind::learners && !has_lessons(*file)) {
      fmt::print(
          "{}: it names no lesson, so there is nothing to make; `sheaf build "
          "LESSON --class` makes packets for such a class\n",
          printable(path.string()));
      continue;
    }
    if (kind == FileKind::lesson || kind == FileKind::learners) {
      jobs.push_back(
          {path.string(), file, kind == FileKind::learners, true, {}});
    }
  }
  if (jobs.size() > before) return;
  throw MachineError(
      fmt::format("there is no lesson in the folder {}", folder.string()));
}

// Two of one name would overwrite each other.
bool have_places(const std::vector<BuildJob>& jobs) {
  std::map<FilePath, std::string> seen;
  for (const BuildJob& job : jobs) {
    const FilePath name = job.target.filename();
    if (name.empty() || name == "." || name == "..") {
      fmt::print(stderr,
                 "sheaf: the packet of {} would need a folder name that is not "
                 "possible; rename the file\n",
                 printable(job.path));
      return false;
    }
    const auto [entry, is_new] = seen.emplace(job.target, job.path);
    if (is_new) continue;
    fmt::print(stderr,
               "sheaf: {} and {} would both be written to {}; rename one or "
               "build them separately with --out\n",
               printable(entry->second), printable(job.path),
               printable(job.target.string()));
    return false;
  }
  return true;
}

}  // namespace

std::optional<std::vector<BuildJob>> build_jobs(Workspace& workspace,
                                                const CommandLine& line) {
  std::vector<BuildJob> jobs;
  for (const std::string& path : line.arguments) {
    if (workspace.files().is_folder(path)) {
      add_folder(workspace, path, jobs);
      continue;
    }
    const SourceFile* file = open_if_readable(workspace, path);
    const bool is_class =
        file != nullptr && likely_kind(*file) == FileKind::learners;
    jobs.push_back({path, file, is_class, line.if_needed, {}});
  }
  for (BuildJob& job : jobs) {
    job.target = FilePath(line.out) / FilePath(job.path).stem();
  }
  if (!have_places(jobs)) return std::nullopt;
  return jobs;
}

}  // namespace sheaf
