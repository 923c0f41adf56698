#pragma once

#include <string_view>

#include "files/path.h"

namespace sheaf {

/// What a run could not take away, could not put back after a failure, or could
/// not make last. It is known to the whole process, since it comes to light
/// where nothing can be thrown any more, and it needs no memory that could be
/// lacking. On the thread of the program only.

/// A temporary file that cannot be removed; errno says why.
void note_left_behind(const char* path) noexcept;
/// A file that is new while others of its set are old; errno says why.
void note_not_put_back(const char* path) noexcept;
/// A file that should have gone; errno says why it has not.
void note_not_deleted(const char* path) noexcept;
/// A folder whose new files are all in place, and may be gone after a power
/// cut; errno says why.
void note_may_be_lost(const char* folder) noexcept;

/// Nothing where all went well; else lines that say what is where and what
/// becomes of it. They are good until something is noted again.
std::string_view left_behind() noexcept;
void forget_left_behind() noexcept;

/// Removes what runs before this one had to leave in a folder, as far as it can
/// be removed. Whoever writes to the folder does so in any case.
void clear_left_behind(const FilePath& folder);

}  // namespace sheaf
