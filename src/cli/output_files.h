#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include "cli/descriptor.h"

namespace sheaf {

/// Files that are written together. Each is written beside its target under a
/// name of its own (`.sheaf-` and six signs) and flushed to the disk; when all
/// are there they are renamed. What is guaranteed:
///
/// - A target is its old self or its new self, whole, whatever happens: a full
///   disk, an interrupt, a kill, a power cut.
/// - Of the set, nothing is replaced before everything is written, and what
///   can be known to stand in the way of a rename is looked for before. So a
///   full disk or a wrong target leaves all old files, and an interrupt leaves
///   all old or all new ones.
/// - Two runs that write the same set do not mix: a run holds its folders
///   while it renames, so all files are those of one run.
/// - A kill without notice (SIGKILL, a power cut) in the moment between two
///   renames leaves the first files new and the rest old. No way of renaming
///   several files at once exists; the next build puts it right, since the
///   last target is older than the lesson.
/// - Nothing is left behind but after such a kill. Those leftovers are removed
///   by the next run that writes to the folder: a temporary file is locked by
///   the run that writes it, so what is not locked belongs to nobody.
class OutputFiles {
 public:
  OutputFiles() = default;
  ~OutputFiles();
  OutputFiles(const OutputFiles&) = delete;
  OutputFiles& operator=(const OutputFiles&) = delete;

  /// Makes the folder if needed. Throws MachineError where it cannot write.
  void add(const std::filesystem::path& target, std::string_view bytes);
  /// Puts everything in its place. Throws MachineError where it cannot.
  void finish();

 private:
  struct Pending {
    std::filesystem::path temporary, target;
    Descriptor file;  // open, for its lock
  };
  struct Folder {
    std::filesystem::path path;
    Descriptor file;
  };

  void open_folder(const std::filesystem::path& path);
  void hold_folders();

  std::vector<Folder> folders_;
  std::vector<Pending> pending_;
};

}  // namespace sheaf
