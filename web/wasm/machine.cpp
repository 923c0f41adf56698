// The machine as a browser has it: files are memory, nothing interrupts, and
// there is no terminal. In place of the parts of src/files that know a disk.

#include <fmt/format.h>

#include <iostream>

#include "cli/exit_codes.h"
#include "cli/verbs.h"
#include "files/disk_files.h"
#include "files/interrupt.h"
#include "files/left_behind.h"
#include "files/surroundings.h"
#include "files/system_calls.h"
#include "machine.h"

namespace sheaf {

MemoryFiles& memory() {
  static MemoryFiles files;
  return files;
}

Files& disk() { return memory(); }

FilePath shipped_folder() { return kShipped; }

void fill_closed_streams() {}

std::string read_standard_input(std::size_t limit) {
  std::string text;
  std::cin.clear();
  for (char c = 0; text.size() <= limit && std::cin.get(c);) text += c;
  return text;
}

std::optional<std::string> InputLines::next() {
  std::string line;
  if (!std::getline(std::cin, line)) return std::nullopt;
  if (line.ends_with('\r')) line.pop_back();
  line.resize(std::min(line.size(), kLongest));
  return line;
}

// Folders are held for other runs, of which there are none.
int system_calls::close(int) { return 0; }

bool messages_go_to_terminal() { return false; }
bool messages_may_have_colour() { return false; }

void end_cleanly_on_interrupt(int) {}
HoldInterrupts::HoldInterrupts() = default;
HoldInterrupts::~HoldInterrupts() = default;
CatchInterrupts::CatchInterrupts() = default;
CatchInterrupts::~CatchInterrupts() = default;
bool CatchInterrupts::came() { return false; }
void remove_on_interrupt(const std::string&) {}
void clear_left_behind(const FilePath&) {}
void keep_on_interrupt(std::string_view) {}

// What serves an editor or watches a disk has no place here.
namespace {
int not_here(std::string_view verb) {
  fmt::print(stderr, "sheaf {0}: there is no `{0}` in a browser\n", verb);
  return kWrongCommandLine;
}
}  // namespace

int run_lsp(const CommandLine&) { return not_here("lsp"); }
int run_watch(const CommandLine&) { return not_here("watch"); }

}  // namespace sheaf
