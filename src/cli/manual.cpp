// `sheaf sheets` and `sheaf layouts`: what a layout can be made of.

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>

#include "base/diagnostics.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/verbs.h"
#include "files/disk_files.h"
#include "input/layout_file.h"
#include "layout/style.h"
#include "sheets/sheet.h"

namespace sheaf {

namespace {

std::string range_of(const OptionSpec& option) {
  if (!option.choices.empty()) {
    return fmt::format("one of {}", option.choices);
  }
  if (option.least.empty()) return "";
  return fmt::format("{} to {}", option.least, option.most);
}

void print_options(OptionTable options) {
  for (const OptionSpec& option : options) {
    const std::string range = range_of(option);
    fmt::print("    {:<28} {}{}\n",
               fmt::format("{}: {}", option.name, option.fallback), option.help,
               range.empty() ? "" : " (" + range + ")");
  }
}

// A layout begins with a comment, whose first sentence says what it is for. It
// may go over several lines.
std::string first_sentence(std::string_view layout) {
  std::string sentence;
  while (layout.starts_with("# ") && !layout.starts_with("# yaml-language")) {
    std::string_view line = layout.substr(2, layout.find('\n') - 2);
    layout.remove_prefix(std::min(line.size() + 3, layout.size()));
    if (line.ends_with('\r')) line.remove_suffix(1);
    if (!sentence.empty()) sentence += ' ';
    sentence += line;
    if (const auto end = sentence.find(". "); end != std::string::npos) {
      sentence.resize(end + 1);
    }
    if (sentence.ends_with('.')) break;
  }
  return sentence;
}

}  // namespace

int run_sheets(const CommandLine&) {
  for (const bool for_teacher : {false, true}) {
    fmt::print("{}\n", for_teacher ? "For the teacher" : "For the learner");
    for (const SheetKind* kind : sheet_kinds()) {
      if (kind->for_teacher != for_teacher) continue;
      fmt::print("  {}: {}\n", kind->name, kind->summary);
      print_options(kind->options);
    }
  }
  fmt::print("Settings of a layout\n");
  print_options(page_options());
  return kDone;
}

int run_layouts(const CommandLine&) {
  for (const FilePath& file :
       yaml_files(disk(), shipped_folder() / "layouts")) {
    fmt::print("{:<16} {}\n", printable(file.stem().string()),
               printable(first_sentence(disk().read(file, 1U << 20U))));
  }
  return kDone;
}

}  // namespace sheaf
