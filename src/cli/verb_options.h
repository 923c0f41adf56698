#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "cli/command_line.h"

namespace sheaf {

/// How often an option may be given, and what its value has to be.
struct OptionForm {
  /// What a value is checked for. A code is put into its usual form as well.
  enum class Check { none, paper, code };

  bool required = false;
  bool shows_default = false;  ///< in the help
  bool commas = false;         ///< several values with commas between them
  bool one_at_a_time = false;  ///< the next word is not a second value of it
  std::optional<std::pair<int, int>> values = {};  ///< how many: least, most
  std::optional<std::pair<int, int>> range = {};   ///< of a number
  Check check = Check::none;
};

/// An option of a verb, or what the verb takes without the name of an option.
struct VerbOption {
  /// Where the value goes. An option that sets a bool has no value.
  using Target =
      std::variant<std::string*, std::vector<std::string>*, int*, bool*>;

  std::string name;  ///< "--out", "LESSON"
  std::string about;
  Target target;
  OptionForm form = {};
};

using OptionList = std::vector<VerbOption>;

/// A verb with all that may follow it, in the order of its help.
struct VerbOptions {
  std::string name, about;
  OptionList options = {};
  /// What stands below the options, in whole lines.
  std::string more = {};
};

/// All verbs in the order of the help. What is read goes into `line`, which
/// has to outlive them.
std::vector<VerbOptions> all_verbs(CommandLine& line);

/// The parts of it, each in a file of its own.
std::vector<VerbOptions> packet_verbs(CommandLine& line);
std::vector<VerbOptions> planning_verbs(CommandLine& line);
std::vector<VerbOptions> marking_verbs(CommandLine& line);
std::vector<VerbOptions> listing_verbs(CommandLine& line);

/// Options of several verbs.
VerbOption jobs_option(CommandLine& line);
VerbOption paper_option(CommandLine& line);
VerbOption accent_option(CommandLine& line);
VerbOption json_option(CommandLine& line);
OptionList layout_options(CommandLine& line);
OptionList class_options(CommandLine& line);

void append(OptionList& list, const OptionList& more);

/// What is wrong with a value; empty where nothing is.
std::string fault_of_value(OptionForm::Check check, const std::string& value);

}  // namespace sheaf
