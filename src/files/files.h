#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/byte_source.h"
#include "files/output_files.h"
#include "files/path.h"

namespace sheaf {

/// What is there under a name.
enum class Standing {
  none,  ///< nothing is there, or a link that leads nowhere
  file,
  folder,
  link,  ///< only where links are not followed
  other  ///< a device, a named pipe
};

struct FileStatus {
  Standing kind = Standing::none;
  /// The same two numbers for all names of one file, and for no other.
  std::uint64_t device = 0, number = 0;
  /// How many names the file has, links aside.
  std::uint64_t names = 0;

  bool is_same_as(const FileStatus& other) const {
    return kind != Standing::none && other.kind != Standing::none &&
           device == other.device && number == other.number;
  }
};

/// The one way to files: all that Sheaf reads and writes goes through here, so
/// that the same program runs on a disk, on texts in an editor and in a
/// browser, and so that tests can let any call fail.
///
/// A name that leads to nothing is an answer (`Standing::none`). Whatever keeps
/// the answer from being known (no right to look, a disk that fails) throws
/// MachineError: it is never taken for a file that is not there. Want of memory
/// throws std::bad_alloc. Reading may happen in several threads at once.
class Files : public ByteSource {
 public:
  /// What a name leads to, through links.
  virtual FileStatus status(const FilePath& path) const = 0;
  /// What stands under the name itself, which may be a link.
  virtual FileStatus own_status(const FilePath& path) const = 0;
  /// Reads a whole regular file of at most `limit` bytes. Throws MachineError
  /// where there is none or it is something else (a folder, a device). A longer
  /// file is read up to one byte over the limit, so that the reader can say so
  /// with a place.
  virtual std::string read(const FilePath& path, std::size_t limit) const = 0;
  /// A regular file to read parts of; null where there is none or nobody has
  /// the right to read it. Throws MachineError where the machine fails.
  virtual std::unique_ptr<OpenFile> open(const FilePath& path) const = 0;
  /// What is in a folder, as `folder / name`, in order; nothing where the
  /// folder is not there.
  virtual std::vector<FilePath> list(const FilePath& folder) const = 0;
  /// The one name of what is there, from the top folder on and without links;
  /// nothing where nothing is there.
  virtual std::optional<FilePath> real(const FilePath& path) const = 0;
  /// The name from the top folder on, links as they are.
  virtual FilePath absolute(const FilePath& path) const = 0;
  /// The program that is running, where it can be read as a file.
  virtual FilePath program() const = 0;

  /// Begins a set of files that are written together.
  virtual std::unique_ptr<OutputFiles> write() = 0;
  /// Takes a file away; false where it is not there. Throws MachineError.
  virtual bool remove_file(const FilePath& path) = 0;
  /// Takes a folder away; false if not there or not empty. Throws MachineError.
  virtual bool remove_folder(const FilePath& path) = 0;

  bool has_file(const std::string& name) const override {
    return is_file(name);
  }
  bool is_file(const FilePath& path) const {
    return status(path).kind == Standing::file;
  }
  bool is_folder(const FilePath& path) const {
    return status(path).kind == Standing::folder;
  }
};

/// The YAML files in a folder, none of those in its folders.
std::vector<FilePath> yaml_files(const Files& files, const FilePath& folder);

/// Looks for a file that another file names: in `folder`, then in `shipped`,
/// then in the allowed folders. A name that is absolute or climbs out of those
/// folders, by itself or through a link, is not found.
std::optional<FilePath> find_named_file(
    const Files& files, std::string_view name, const FilePath& folder,
    const FilePath& shipped, const std::vector<std::string>& allowed_folders);

}  // namespace sheaf
