#pragma once

#include <memory>
#include <string_view>

#include "cli/command_line.h"
#include "files/confine.h"

namespace sheaf {

/// What a verb keeps of the machine once its command line is read; the table in
/// confinement.cpp says it of each, with the reason.
enum class Hold {
  none,   ///< everything
  calls,  ///< all files of the user, but no network and no other programs
  all     ///< the files of its command line, and nothing else
};
Hold hold_of(std::string_view verb);

/// Gives up what the verb does not need, unless the command line asks for the
/// contrary. To be called before any file is read that it names. What comes
/// back has to live as long as the verb runs.
std::unique_ptr<Confinement> confine_verb(const CommandLine& line);

/// The files that a verb held to files may touch.
Needs needs_of(const CommandLine& line);

}  // namespace sheaf
