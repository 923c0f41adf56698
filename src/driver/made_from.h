#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "driver/workspace.h"
#include "files/files_read.h"
#include "files/path.h"

namespace sheaf {

/// What the pages in a folder were made from: a small file beside them, by
/// which a later run tells whether it would make the same. It goes by what
/// files hold and not by their dates, and says nothing of what is in them. It
/// may be deleted; the pages are made again then.
struct MadeFrom {
  /// Sheaf itself and the options that change pages, as one line.
  std::string made_with;
  /// The lesson or class file and all that was read or looked for because of
  /// it, those that came with Sheaf by their place in its folder.
  std::vector<FilesRead::Entry> shipped, files;
  /// Each PDF file by its place below the folder and by its bytes, both as
  /// numbers: a learner's code is to stand nowhere else than on pages.
  std::map<std::uint64_t, std::uint64_t> pages;
};

/// The name of that file.
inline constexpr const char* kMadeFromFile = ".made-from";

/// What pages would be made with now: the program with its word list and
/// typefaces, and the options. Throws MachineError.
std::string made_with_now(const Workspace& workspace,
                          const LessonRequest& request, bool separate);

/// Parts what was read into files of Sheaf's own and others.
void add_inputs(const std::vector<FilesRead::Entry>& read,
                const FilePath& shipped, MadeFrom& made);

std::string made_from_text(const MadeFrom& made);
/// What stands in a folder's file; nothing where there is none, or where it is
/// not as Sheaf writes it.
std::optional<MadeFrom> read_made_from(const Files& files,
                                       const FilePath& folder);

/// The pages in a folder, if they are there as they were made and would be made
/// from `source` in the same way again; else nothing. Counts the files that
/// they were made from among those read.
std::optional<std::vector<std::string>> pages_up_to_date(
    const MadeFrom& made, const std::string& made_with,
    const std::string& source, const FilePath& folder, Workspace& workspace);

}  // namespace sheaf
