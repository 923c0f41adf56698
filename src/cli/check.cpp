// `sheaf check`: what is in a lesson, what is wrong with it, and, with --fix,
// what of that Sheaf can put right by itself.

#include <fmt/format.h>

#include <deque>

#include "base/pool.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/file_report.h"
#include "cli/json.h"
#include "cli/messages.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "driver/mend_file.h"
#include "files/disk_files.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

void print_mended(const std::string& path, const MendedFile& mended) {
  std::string out = printable(path) + ": ";
  if (mended.done.empty()) {
    out += "there is nothing that Sheaf can put right by itself\n";
  } else {
    const auto count = static_cast<int>(mended.done.size());
    out += fmt::format("put right in {}\n", counted(count, "place", "places"));
  }
  for (std::size_t i = 0; i < mended.done.size();) {
    const MendedFile::Mend& mend = mended.done[i];
    // The tabs of a line are told once.
    const std::size_t first = i;
    while (i < mended.done.size() && mended.done[i].line == mend.line &&
           mended.done[i].label == mend.label) {
      ++i;
    }
    out += fmt::format("  line {}: {}", mend.line, mend.label);
    if (i - first > 1) out += fmt::format(", {} times", i - first);
    out += "\n";
  }
  for (const MendedFile::Mend& mend : mended.left) {
    out += fmt::format(
        "  line {} stays as it is, because mending it brings "
        "another error: {}\n",
        mend.line, mend.new_error);
  }
  fmt::print("{}", out);
}

// Mends the files one after the other and says what is left.
int mend_files(const CommandLine& line) {
  const LessonRequest request = lesson_request(line);
  bool good = true;
  for (const std::string& path : line.arguments) {
    const MendedFile mended =
        mend_file(disk(), shipped_folder(), request, path);
    if (mended.after != mended.before) {
      const auto output = disk().write();
      output->rewrite(path, mended.after, mended.before);
      output->finish();
    }
    print_mended(path, mended);
    Workspace workspace(disk(), shipped_folder());
    const CheckedFile checked = check_file(workspace, request, path);
    print(checked.diagnostics);
    good = good && checked.good();
  }
  return good ? kDone : kFaultsInFiles;
}

}  // namespace

int run_check(const CommandLine& line) {
  if (!known_sheets(line)) return kWrongCommandLine;
  if (line.json && line.fix) {
    fmt::print(stderr,
               "sheaf: --json and --fix do not go together; mend the files "
               "first\n");
    return kWrongCommandLine;
  }
  if (line.fix) return mend_files(line);
  const auto& paths = line.arguments;
  constexpr std::size_t kFilesForEach = 3;
  const auto workers = static_cast<int>(std::min<std::size_t>(
      static_cast<std::size_t>(line.workers()),
      (paths.size() + kFilesForEach - 1) / kFilesForEach));
  std::deque<Workspace> workspaces;  // one for each worker
  for (int i = 0; i < std::max(workers, 1); ++i) {
    workspaces.emplace_back(disk(), shipped_folder());
  }
  const LessonRequest request = lesson_request(line);
  struct Result {
    CheckedFile checked;
    std::string report;
  };
  std::vector<Result> results(paths.size());
  bool good = true;
  work_in_order(
      paths.size(), workers,
      [&](int worker, std::size_t i) {
        Workspace& workspace = workspaces[static_cast<std::size_t>(worker)];
        CheckedFile checked = check_file(workspace, request, paths[i]);
        std::string report = line.json
                                 ? check_json(paths[i], checked) + "\n"
                                 : file_report(workspace, paths[i], checked);
        results[i] = {std::move(checked), std::move(report)};
      },
      [&](std::size_t i) {
        if (!line.json) print(results[i].checked.diagnostics);
        fmt::print("{}", results[i].report);
        good = good && results[i].checked.good();
        results[i] = {};
      });
  return good ? kDone : kFaultsInFiles;
}

}  // namespace sheaf
