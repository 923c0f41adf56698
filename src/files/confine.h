#pragma once

#include <vector>

#include "files/descriptor.h"
#include "files/path.h"

namespace sheaf {

/// What a run needs of the machine once its command line is read. The rest is
/// given up before the first byte of a stranger's file is looked at: whoever
/// makes use of a fault in a reader of fonts or pictures then finds themselves
/// in a process that can do little harm.
struct Needs {
  /// Whether files are held to the folders below. Else all that the user may
  /// read and write stays open.
  bool only_these_files = true;
  /// Files and folders, with all that is in them, to read.
  std::vector<FilePath> read = {};
  /// Folders in which files are written: made, renamed, replaced, removed. They
  /// are made where they are not there.
  std::vector<FilePath> write = {};
};

/// While one lives, the folders are there in which files are to be written; at
/// its end those that it made are gone again, if nothing was put into them and
/// no other run is about to.
///
/// With it the process gives up what is not in its needs, for good, for itself
/// and all threads that it will begin; to be made before any of them. Then:
///
/// - There are no sockets, other programs, new processes, tracing, mounts or
///   changes to the machine, and no code is made at run time. Threads go on as
///   before. Refused calls fail as where a right is missing (EPERM); a call by
///   the numbers of another architecture ends the process.
/// - Files can be opened, listed, made, renamed and removed in the folders
///   named alone (EACCES elsewhere). Looking whether one is there stays free,
///   and so do files that are open already.
///
/// A name to read where nothing is is left out. Where the kernel lacks one of
/// the two, or both, what it has is used, and nothing is said. Does nothing
/// outside Linux; on processors other than x86-64 and ARM64 it filters no
/// calls. Throws MachineError where a place cannot be looked at or made for a
/// reason that is not the place's own; then nothing is given up, and the
/// folders that it made are gone.
class Confinement {
 public:
  explicit Confinement(const Needs& needs);
  ~Confinement();
  Confinement(const Confinement&) = delete;
  Confinement& operator=(const Confinement&) = delete;

  /// Whether calls to the system are filtered (seccomp).
  bool filters_calls() const { return filters_calls_; }
  /// Which version of its rules for files the kernel applies (Landlock); 0
  /// where it has none, or none were asked for.
  int rules_for_files() const { return rules_for_files_; }

 private:
  void remove_made();

  std::vector<FilePath> made_;  // the outermost first
  std::vector<Descriptor> used_;
  bool filters_calls_ = false;
  int rules_for_files_ = 0;
};

}  // namespace sheaf
