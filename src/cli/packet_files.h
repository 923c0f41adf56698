#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "cli/made_from.h"
#include "cli/output_files.h"
#include "layout/page.h"

namespace sheaf {

/// The PDF files of one lesson or class, which are written together into a
/// folder of their own.
class PacketFiles {
 public:
  explicit PacketFiles(std::filesystem::path folder)
      : folder_(std::move(folder)) {}

  /// `name` is the file's place below the folder. A document without pages
  /// makes no file. Throws MachineError, as does `finish`.
  void add(const Document& document, const std::filesystem::path& name);
  void add(std::string_view pdf, const std::filesystem::path& name);
  /// Puts everything in its place. With `made`, which says what they are made
  /// with, a record of what they were made from comes beside them: the files
  /// that the workspace has read since they were last asked for.
  void finish(Workspace& workspace, MadeFrom* made);

  const std::filesystem::path& folder() const { return folder_; }
  const std::vector<std::string>& paths() const { return paths_; }

 private:
  std::filesystem::path folder_;
  OutputFiles files_;
  std::vector<std::string> paths_;
  std::map<std::uint64_t, std::uint64_t> pages_;
};

}  // namespace sheaf
