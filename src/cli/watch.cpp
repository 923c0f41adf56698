// `sheaf watch`: builds again whenever a file is saved.

#include <fmt/format.h>

#include <cerrno>
#include <cstdio>
#include <optional>
#include <set>
#include <string>
#include <system_error>

#include "base/error.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "driver/workspace.h"
#include "files/disk_files.h"
#include "files/folder_watch.h"
#include "live/live_page.h"

namespace sheaf {

namespace {

// The named files and all that were read for them; those of the last good run
// stay, as a fault may stop the next before it comes to them.
std::set<std::string> named_files(const CommandLine& line) {
  std::set<std::string> files(line.arguments.begin(), line.arguments.end());
  if (!line.class_file.empty()) files.insert(line.class_file);
  return files;
}

}  // namespace

int run_watch(const CommandLine& line) {
  if (line.page && line.arguments.size() != 1) {
    fmt::print(stderr, "sheaf: --page shows one lesson: name its file\n");
    return kWrongCommandLine;
  }
  FolderWatch folders;
  std::optional<Service> service;
  std::optional<LivePage> page;
  for (const std::string& path : line.arguments) {
    if (disk().is_folder(path)) folders.watch_folder(path);
  }
  folders.watch(named_files(line));
  for (bool first = true;; first = false) {
    int code = kDone;
    std::set<std::string> read;
    try {
      // Nothing is known of the last time.
      Workspace workspace(disk(), shipped_folder());
      code = build_all(workspace, line);
      read = workspace.files_read().all();
    } catch (const MachineError& fault) {
      fmt::print(stderr, "sheaf: {}\n", printable(fault.what()));
      code = kMachineFault;
    }
    if (print_left_behind() && code == kDone) code = kMachineFault;
    if (code == kWrongCommandLine || (first && code == kMachineFault)) {
      return code;
    }
    folders.watch(read);
    if (line.page && !page) {
      service.emplace(disk(), shipped_folder(), lesson_request(line));
      page.emplace(*service, line.arguments.front());
      fmt::print("the pages: {}\n", page->address());
    } else if (page) {
      page->changed();
    }
    fmt::print("{}; waiting for the next save (Ctrl-C stops)\n",
               code == kDone ? "built" : "not built: the last pages stay");
    if (std::fflush(stdout) != 0) {
      throw std::system_error(errno, std::generic_category());
    }
    folders.wait();
  }
}

}  // namespace sheaf
