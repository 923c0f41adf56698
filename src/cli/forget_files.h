#pragma once

#include <string>
#include <vector>

#include "cli/command_line.h"
#include "files/path.h"

namespace sheaf {

/// A file that `forget` looks at.
struct ForgetFile {
  enum class Place { records, class_folder, out };

  FilePath path;  ///< as it is shown
  FilePath real;  ///< without links, from the top folder on
  Place place = Place::records;
  bool is_link = false;
  /// The command line names it, so it is a record or a class by any name.
  bool asked_for = false;

  /// What is read and changed.
  const FilePath& source() const { return is_link ? real : path; }
  /// Whether it is to be read as a file of a teacher's.
  bool is_yaml() const;
};

/// Everything that `forget` looks at.
struct ForgetGround {
  std::vector<ForgetFile> files;  ///< each once, whatever leads to it
  /// Folders below those that were named.
  std::vector<FilePath> folders;
  /// Links to folders elsewhere, which were not looked through, and where they
  /// lead.
  struct FolderLink {
    FilePath path, real;
    ForgetFile::Place place;
  };
  std::vector<FolderLink> folder_links;
};

/// The records with all folders below, the folder of the class file without
/// those, and the folder of packets with all folders below. Throws MachineError
/// where one that was named is not there, or one cannot be read.
ForgetGround forget_ground(const CommandLine& line);

/// Those of the files that have a further name (a hard link) that is not among
/// all that is looked at: under it, a file stays what it is when the first name
/// is given to another.
std::vector<FilePath> with_names_elsewhere(const ForgetGround& ground,
                                           const std::vector<FilePath>& files);

}  // namespace sheaf
