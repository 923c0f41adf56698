#include <cstdio>
#include <exception>
#include <new>

#include "base/error.h"
#include "cli/command_line.h"
#include "cli/exit_codes.h"
#include "cli/verbs.h"

namespace sheaf {
namespace {

struct Verb {
  std::string_view name;
  int (*run)(const CommandLine&);
};
constexpr Verb kVerbs[] = {
    {"build", run_build},     {"check", run_check},
    {"word", run_word},       {"patterns", run_patterns},
    {"sheets", run_sheets},   {"layouts", run_layouts},
    {"dump", run_dump},       {"find", run_find},
    {"block", run_block},
};

int run(const CommandLine& line) {
  for (const Verb& verb : kVerbs) {
    if (verb.name == line.verb) return verb.run(line);
  }
  return kWrongCommandLine;
}

int guarded_run(int argc, char** argv) {
  try {
    int exit_code = kDone;
    const auto line = read_command_line(argc, argv, exit_code);
    if (!line) return exit_code;
    exit_code = run(*line);
    if (std::fflush(stdout) != 0) {
      throw MachineError("cannot write the results: the output is closed");
    }
    return exit_code;
  } catch (const MachineError& fault) {
    std::fprintf(stderr, "sheaf: %s\n", fault.what());
  } catch (const std::bad_alloc&) {
    std::fputs("sheaf: there is not enough memory to go on\n", stderr);
  } catch (const std::exception& fault) {
    std::fprintf(stderr, "sheaf: something went wrong inside: %s\n",
                 fault.what());
  }
  return kMachineFault;
}

}  // namespace
}  // namespace sheaf

int main(int argc, char** argv) { return sheaf::guarded_run(argc, argv); }
