#pragma once

#include <sys/types.h>

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "cli/own_files.h"
#include "files/descriptor.h"

namespace sheaf {

/// A file is not as it was when it was read, or one is there that was not. What
/// was to be written is left out; it may be made anew from what is there now.
class FileChanged : public MachineError {
 public:
  using MachineError::MachineError;
};

/// Files that are written together. Each is written beside its target under a
/// name of its own (`.sheaf-writing-` and six signs); when all are there they
/// are renamed. What a user wrote is flushed to the disk; pages, which can be
/// made again, are not. What is guaranteed:
///
/// - A target is its old self or its new self, whole, whatever happens: a full
///   disk, an interrupt, a kill; and a power cut, but for pages: those may be
///   cut short then, and the next build sees it by their bytes and makes them
///   again.
/// - Nothing is replaced but a file that Sheaf made itself, or one that is
///   still what it was when it was read. Owner and rights stay. A link stays a
///   link, and what it leads to is replaced.
/// - Of the set, nothing is replaced before everything is written, and what
///   can be known to stand in the way of a rename is looked for before. So a
///   full disk or a wrong target leaves all old files, and an interrupt leaves
///   all old or all new ones.
/// - Two runs that write the same set do not mix: a run holds its folders
///   while it compares and renames, so all files are those of one run, and
///   neither takes back what the other did.
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

  /// Throws as `add` would, before any work is done for the file.
  static void check(const std::filesystem::path& target, OwnKind kind,
                    std::string_view way_out);

  /// A file of a kind that Sheaf makes anew each time. Makes the folder if
  /// needed. Throws MachineError where it cannot write, or where something
  /// else is there; then `way_out` says what to do, as in "name another file
  /// after `--pdf`".
  void add(const std::filesystem::path& target, std::string_view bytes,
           OwnKind kind, std::string_view way_out);
  /// A file that must not be there yet.
  void add_new(const std::filesystem::path& target, std::string_view bytes);
  /// A file whose bytes were `before` when it was read.
  void rewrite(const std::filesystem::path& target, std::string_view bytes,
               std::string before);

  /// Puts everything in its place. Throws MachineError where it cannot, and
  /// FileChanged where a file came or changed in the meantime; what came
  /// before it in the set may be in its place then.
  void finish();
  /// How many are in their place, in the order in which they came.
  std::size_t placed() const { return placed_; }

 private:
  struct Pending {
    std::filesystem::path temporary, target;
    Descriptor file;  // open, for its lock
    // What may be in the way: a file of the kind, else one with these bytes,
    // else nothing.
    std::optional<OwnKind> kind;
    std::optional<std::string> before;
    std::string way_out;
    bool replaces = false;
  };
  struct Folder {
    std::filesystem::path path;
    dev_t device;
    ino_t number;
    Descriptor file;
  };

  void open_folder(const std::filesystem::path& path);
  void hold_folders();
  void put(Pending pending, std::string_view bytes);
  static bool can_be_made_again(const Pending& pending);
  static Descriptor open_replaced(Pending& pending);
  static void put_in_place(Pending& pending);

  std::vector<Folder> folders_;
  std::vector<Pending> pending_;
  std::size_t placed_ = 0;
  bool must_last_ = false;  // what is written is flushed to the disk
};

}  // namespace sheaf
