// `sheaf settle`: a lesson with every choice written out, so that one file
// makes the same pages elsewhere.

#include "driver/settle.h"

#include <fmt/format.h>

#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/new_file.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "files/disk_files.h"

namespace sheaf {

int run_settle(const CommandLine& line) {
  const FilePath path = line.arguments.front();
  const FilePath target =
      line.planning.file.empty()
          ? path.parent_path() / (path.stem().string() + "-settled.yaml")
          : FilePath(line.planning.file);
  Workspace workspace(disk(), shipped_folder());
  Diagnostics diagnostics;
  const Settled settled =
      settle(workspace, lesson_request(line), path.string(), diagnostics);
  print(diagnostics);
  if (diagnostics.has_errors()) return kFaultsInFiles;
  if (!settled.too_large.empty()) {
    fmt::print(stderr, "sheaf: {}\n", printable(settled.too_large));
    return kFaultsInFiles;
  }
  if (!settled.text) {
    fmt::print(stderr, "sheaf: {} cannot be settled: {}\n",
               printable(path.string()), settled.why);
    return kFaultsInFiles;
  }
  for (const std::string& name : settled.typefaces) {
    fmt::print(stderr,
               "sheaf: the typeface file {} cannot be put into a lesson; send "
               "it along with the lesson, if its licence lets you\n",
               sheaf::quoted(name));
  }
  if (!write_new_file(workspace.files(), target, *settled.text)) {
    fmt::print(stderr,
               "sheaf: {} is there already and stays as it is; `--file` names "
               "another file\n",
               printable(target.string()));
    return kMachineFault;
  }
  fmt::print("{}: {} with every choice written out\n",
             printable(target.string()), printable(path.string()));
  return kDone;
}

}  // namespace sheaf
