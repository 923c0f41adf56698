#pragma once

#include <optional>
#include <string>
#include <vector>

namespace sheaf {

/// What the user asked for. Read once, then read-only.
struct CommandLine {
  std::string verb;
  /// Lesson files, words, names: whatever the verb takes.
  std::vector<std::string> arguments;

  std::string out = "out";
  std::string layout;  ///< a layout's name or file; empty: the lesson's own
  std::string paper;   ///< empty: the layout's own
  std::vector<std::string> only;
  std::vector<std::string> allowed_folders;
  std::string dependency_file;
  bool separate = false;
  bool json = false;
  std::string accent;

  /// Of the verbs that look for words or write lesson files.
  struct Planning {
    std::string sequence;  ///< a sequence file; empty: the one that lies there
    std::string step;      ///< a step's number or name
    std::string contrast;  ///< another pattern
    std::string file;      ///< the file to write, or the list of blocked words
    int count = 0;         ///< 0: what the verb usually gives
    std::string syllables, letters;  ///< "2" or "1-3"
    bool pictures = false;
    bool pseudo = false;
    bool later_set = false;
    std::vector<std::string> lessons;  ///< whose words are left out
  } planning;
};

/// Reads the command line. Where it asks for help or the version, or is wrong,
/// prints that and gives the exit code instead: 0, or 2.
std::optional<CommandLine> read_command_line(int argc, char** argv,
                                             int& exit_code);

}  // namespace sheaf
