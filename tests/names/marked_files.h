#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace sheaf::test {

/// Files of a class, with an invented name somewhere in one of them, and broken
/// in the ways in which files get broken. Everything follows from a number.

/// What a run reads, by name.
using FileSet = std::map<std::string, std::string>;

/// A run of Sheaf over files of which one holds the name.
struct MarkedRun {
  FileSet files;
  std::string marked;  ///< the name of the file that holds it
  std::vector<std::string> arguments;
};

/// Whole files, in which nothing is wrong and nobody is named.
FileSet whole_files();

/// All command lines that read a file of those, as they are tried.
std::vector<std::vector<std::string>> commands_for(const std::string& file);

/// The run that a number stands for: the same on every machine.
MarkedRun marked_run(std::uint64_t number);

/// Whether a text holds the invented name or a piece of it, in capital or
/// small letters, as UTF-8, as UTF-16 or as the figures of its bytes.
bool shows_name(std::string_view text);

}  // namespace sheaf::test
