#include "cli/run.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <exception>
#include <new>
#include <system_error>

#include "base/error.h"
#include "base/utf8.h"
#include "cli/command_line.h"
#include "cli/confinement.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/verbs.h"

namespace sheaf {
namespace {

struct Verb {
  std::string_view name;
  int (*run)(const CommandLine&);
};
constexpr Verb kVerbs[] = {
    {"build", run_build},
    {"check", run_check},
    {"word", run_word},
    {"patterns", run_patterns},
    {"sheets", run_sheets},
    {"layouts", run_layouts},
    {"pictures", run_pictures},
    {"schema", run_schema},
    {"manual", run_manual},
    {"completions", run_completions},
    {"dump", run_dump},
    {"record", run_record},
    {"mark", run_mark},
    {"writing", run_writing},
    {"progress", run_progress},
    {"review", run_review},
    {"forget", run_forget},
    {"find", run_find},
    {"block", run_block},
    {"draft", run_draft},
    {"settle", run_settle},
    {"watch", run_watch},
    {"preview", run_preview},
    {"explain", run_explain},
    {"keep", run_keep},
    {"probe", run_probe},
    {"week", run_week},
    {"speech", run_speech},
    {"placement", run_placement},
    {"place", run_place},
    {"lsp", run_lsp},
};

int run(const CommandLine& line) {
  for (const Verb& verb : kVerbs) {
    if (verb.name != line.verb) continue;
    const auto confinement = confine_verb(line);
    return verb.run(line);
  }
  return kWrongCommandLine;
}

// Says why a run ends; only while an exception is handled. Where there is no
// memory to say it with, that is what is said.
void say_why() {
  try {
    try {
      throw;
    } catch (const MachineError& fault) {
      std::fprintf(stderr, "sheaf: %s\n", printable(fault.what()).c_str());
    } catch (const std::bad_alloc&) {
      throw;
    } catch (const std::system_error& fault) {
      std::fprintf(stderr, "sheaf: cannot write the results: %s\n",
                   std::strerror(fault.code().value()));
    } catch (const std::exception& fault) {
      std::fprintf(stderr, "sheaf: something went wrong inside: %s\n",
                   fault.what());
    }
  } catch (...) {
    std::fputs("sheaf: there is not enough memory to go on\n", stderr);
  }
}

}  // namespace

int run_command(int argc, char** argv) {
  int exit_code = kDone;
  try {
    const auto line = read_command_line(argc, argv, exit_code);
    if (line) exit_code = run(*line);
    // What fails for good has been told by then.
    if (std::fflush(stdout) != 0 && exit_code != kMachineFault) {
      throw std::system_error(errno, std::generic_category());
    }
  } catch (...) {
    say_why();
    exit_code = kMachineFault;
  }
  if (print_left_behind() && exit_code == kDone) exit_code = kMachineFault;
  return exit_code;
}

}  // namespace sheaf
