// `sheaf sheets` and `sheaf layouts`: what a layout can be made of.

#include <fmt/format.h>

#include <algorithm>

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
    const SourceFile source(file.string(), disk().read(file, 1U << 20U));
    // The first line of each is a comment that says what it is for.
    std::string_view about = source.line(1);
    if (about.starts_with("# ")) about.remove_prefix(2);
    fmt::print("{:<16} {}\n", printable(file.stem().string()),
               printable(about));
  }
  return kDone;
}

}  // namespace sheaf
