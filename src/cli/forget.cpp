// `sheaf forget`: takes a learner out of records, class files and packets.

#include <fmt/format.h>

#include <algorithm>

#include "base/error.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/files.h"
#include "cli/output_files.h"
#include "cli/verbs.h"
#include "cli/workspace.h"
#include "input/class_file.h"
#include "input/file_kind.h"
#include "input/without_learner.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

struct Change {
  std::string path, before;
  WithoutLearner without;
};

std::vector<std::string> names_of_yaml_files(const fs::path& folder) {
  std::vector<std::string> names;
  for (const fs::path& file : yaml_files(folder)) {
    names.push_back(file.lexically_normal().string());
  }
  return names;
}

// Records, and the class file with its fellows (a week's own class file).
std::vector<std::string> files_to_read(const CommandLine& line) {
  const std::string records =
      line.marking.records.empty() ? "records" : line.marking.records;
  std::error_code fault;
  if (!fs::exists(records, fault)) {
    throw MachineError(fmt::format("there are no records {}", records));
  }
  std::vector<std::string> files = fs::is_directory(records, fault)
                                       ? names_of_yaml_files(records)
                                       : std::vector<std::string>{records};
  if (!line.marking.class_file.empty()) {
    const fs::path class_file = line.marking.class_file;
    if (!fs::is_regular_file(class_file, fault)) {
      throw MachineError(
          fmt::format("there is no file {}", class_file.string()));
    }
    const fs::path folder = class_file.parent_path();
    for (std::string& file : names_of_yaml_files(folder.empty() ? "." : folder)) {
      files.push_back(std::move(file));
    }
  }
  std::ranges::sort(files);
  files.erase(std::unique(files.begin(), files.end()), files.end());
  return files;
}

std::vector<Change> changes(Workspace& workspace, const CommandLine& line,
                            Diagnostics& diagnostics) {
  std::vector<Change> all;
  for (const std::string& path : files_to_read(line)) {
    const SourceFile& file = workspace.open(path);
    auto without = without_learner(file, line.arguments.front(), diagnostics);
    if (without &&
        (!without->removed.empty() || !without->still_named.empty())) {
      all.push_back({path, file.text(), std::move(*without)});
    }
  }
  return all;
}

// Packets of the learner's own: folders and files that bear the code.
std::vector<fs::path> outputs(const CommandLine& line) {
  std::vector<fs::path> found;
  std::error_code fault;
  fs::recursive_directory_iterator entry(line.out, fault), end;
  while (!fault && entry != end) {
    if (entry->path().stem() == line.arguments.front()) {
      found.push_back(entry->path());
      if (entry->is_directory(fault) && !entry->is_symlink(fault)) {
        entry.disable_recursion_pending();
      }
    }
    entry.increment(fault);
  }
  check_memory(fault);
  if (fault && fault != std::errc::no_such_file_or_directory) {
    throw MachineError(fmt::format("cannot look through the folder {}: {}",
                                   line.out, fault.message()));
  }
  // Beside a learner's folder lie the packets of all in one file.
  for (std::size_t i = found.size(); i-- > 0;) {
    for (const char* shared : {"packets.pdf", "teacher.pdf"}) {
      const fs::path file = found[i].parent_path() / shared;
      if (fs::is_regular_file(file, fault)) found.push_back(file);
    }
  }
  std::ranges::sort(found);
  found.erase(std::unique(found.begin(), found.end()), found.end());
  return found;
}

// Lines one behind the other, without the blanks between.
std::string in_one_line(std::string_view text) {
  std::string line;
  bool blank = false;
  for (const char c : text) {
    if (c == ' ' || c == '\n' || c == '\r' || c == '\t') {
      blank = !line.empty();
      continue;
    }
    if (blank) line += ' ';
    blank = false;
    line += c;
  }
  return line;
}

void show(const std::vector<Change>& all, const std::vector<fs::path>& gone) {
  for (const Change& change : all) {
    for (const Span& span : change.without.removed) {
      const int line = span.file->place_of(span.begin).line;
      fmt::print("{}:{}: {}\n", change.path, line,
                 printable(in_one_line(span.text())));
    }
  }
  for (const fs::path& path : gone) fmt::print("{}\n", path.string());
}

void show_left(const std::vector<Change>& all) {
  for (const Change& change : all) {
    for (const int line : change.without.still_named) {
      fmt::print(
          "{}:{}: still has the code, in a comment or a note; change "
          "it by hand\n",
          change.path, line);
    }
  }
}

}  // namespace

int run_forget(const CommandLine& line) {
  if (!is_learner_code(line.arguments.front())) {
    fmt::print(stderr, "sheaf forget: this needs a learner's code: {}\n",
               kLearnerCodeForm);
    return kWrongCommandLine;
  }
  Workspace workspace(shipped_folder());
  Diagnostics diagnostics;
  const std::vector<Change> all = changes(workspace, line, diagnostics);
  print(diagnostics);
  if (diagnostics.has_errors()) return kFaultsInFiles;
  const std::vector<fs::path> gone = outputs(line);
  if (all.empty() && gone.empty()) {
    fmt::print("nothing has the code {}\n", line.arguments.front());
    return kDone;
  }
  fmt::print("{}\n", line.marking.yes ? "taken out:" : "would be taken out:");
  show(all, gone);
  show_left(all);
  if (!line.marking.yes) {
    fmt::print("nothing was changed; `--yes` does it\n");
    return kDone;
  }
  OutputFiles files;
  for (const Change& change : all) {
    if (!change.without.removed.empty()) {
      files.rewrite(change.path, change.without.text, change.before);
    }
  }
  files.finish();
  for (const fs::path& path : gone) fs::remove_all(path);
  fmt::print(
      "pages made from these records before (from `mark --pdf` and `progress "
      "--pdf`) may still show the code: make them again\n");
  return kDone;
}

}  // namespace sheaf
