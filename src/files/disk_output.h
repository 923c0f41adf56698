#pragma once

#include <sys/types.h>

#include <memory>
#include <vector>

#include "files/descriptor.h"
#include "files/open_descriptor.h"
#include "files/output_files.h"
#include "files/replacement.h"

namespace sheaf {

/// Files that are written together on a disk. Each is written beside its target
/// under a name of its own (`.sheaf-writing-` and six signs); when all are
/// there they are renamed. What a user wrote is flushed to the disk; pages,
/// which can be made again, are not. Beyond what `OutputFiles` promises:
///
/// - It holds whatever happens: a full disk, an interrupt, a kill; and a power
///   cut, but for pages: those may be cut short then, and the next build sees
///   it by their bytes and makes them again. An interrupt leaves all old or all
///   new files.
/// - Owner and rights stay. A link stays a link, and what it leads to is
///   replaced.
/// - Two runs that write the same set do not mix: a run holds its folders
///   while it compares and renames, so all files are those of one run, and
///   neither takes back what the other did.
/// - A kill without notice (SIGKILL, a power cut) in the moment between two
///   renames leaves the first files new and the rest old. No way of renaming
///   several files at once exists; the next build puts it right, since the
///   last target is older than the lesson.
/// - Where a target cannot be replaced, those before it in the set are put
///   back, so that no file is beside one of another run. For that the old files
///   stay until all are in their places: names are exchanged, or the old file
///   has a second name meanwhile. A file system that knows neither has no way
///   back.
/// - Nothing is left behind but after such a kill, or where removing is what
///   fails; then `left_behind` says so. Those leftovers are removed by the next
///   run that writes to the folder: a temporary file is locked by the run that
///   writes it, so what is not locked belongs to nobody.
class DiskOutput final : public OutputFiles {
 public:
  DiskOutput() = default;
  ~DiskOutput() override;
  DiskOutput(const DiskOutput&) = delete;
  DiskOutput& operator=(const DiskOutput&) = delete;

  void check(const FilePath& target, const OwnForm& form,
             std::string_view way_out) override;
  void add(const FilePath& target, std::string_view bytes, const OwnForm& form,
           std::string_view way_out) override;
  void add_new(const FilePath& target, std::string_view bytes) override;
  void rewrite(const FilePath& target, std::string_view bytes,
               std::string before) override;
  void finish() override;
  std::size_t placed() const override { return placed_; }

 private:
  struct Pending {
    FilePath target;
    Replacement replacement;
    Descriptor file;  // open, for its lock
    InTheWay allowed;
    bool replaces = false;
  };
  struct Folder {
    FilePath path;
    dev_t device;
    ino_t number;
    Descriptor file;
  };

  void open_folder(const FilePath& path);
  void hold_folders();
  void put(Pending pending, std::string_view bytes);
  static std::unique_ptr<OpenDescriptor> open_replaced(Pending& pending);
  void put_in_place(Pending& pending);
  void put_back(std::size_t count);

  std::vector<Folder> folders_;
  std::vector<Pending> pending_;
  std::size_t placed_ = 0;
  bool must_last_ = false;  // what is written is flushed to the disk
};

}  // namespace sheaf
