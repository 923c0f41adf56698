#pragma once

#include <string>

#include "files/descriptor.h"
#include "files/path.h"

namespace sheaf {

/// A file under a temporary name that takes the place of its target, in such a
/// way that the target can be put back. Both lie in one folder. It needs no
/// memory once it is made.
class Replacement {
 public:
  Replacement() = default;
  Replacement(FilePath temporary, FilePath target);

  /// Whether anything of its own is needed to put the target back.
  enum class Undo { never, may_be_needed };
  /// Puts the file in its place. `old` is the file there, open, or none where
  /// nothing is there: then nothing that came since is replaced (EEXIST). False
  /// where that fails, and all is as it was; errno says why.
  bool place(Descriptor old, Undo undo);
  /// Puts the target back as it was before `place`. False where that fails, or
  /// the file system has no way to; errno says why.
  bool put_back();
  /// What is left under another name than the target's goes, if anything is.
  /// False where it stays; errno says why.
  bool remove_leftover();
  /// That other name.
  const char* leftover() const;

  const FilePath& temporary() const { return temporary_; }

 private:
  bool place_new();
  bool place_by_second_name();

  enum class Way {
    none,       ///< not in its place
    fresh,      ///< nothing was there
    moved,      ///< the old file is gone
    exchanged,  ///< the old file has the temporary name
    renamed     ///< the old file has the second name
  };
  FilePath temporary_, target_;
  std::string second_;
  bool has_temporary_ = false;  // something is under that name
  Way way_ = Way::none;
  Descriptor old_;  // open, for its lock: else it would count as a leftover
};

}  // namespace sheaf
