// `sheaf speech`: the ways of speaking that a class file may name, or one of
// them with where it is described.

#include <fmt/format.h>

#include <algorithm>

#include "base/diagnostics.h"
#include "base/nearest.h"
#include "cli/exit_codes.h"
#include "cli/text_table.h"
#include "cli/verbs.h"
#include "marking/learner_speech.h"

namespace sheaf {

namespace {

// "hand: han" as a teacher reads it.
std::string example_text(const SpeechVariety& one) {
  const std::size_t colon = one.example.find(": ");
  return fmt::format("{} for {}", one.example.substr(colon + 2),
                     one.example.substr(0, colon));
}

void print_varieties() {
  TextTable table({"name", "what it is", "may be written"});
  for (const SpeechVariety& one : speech_varieties()) {
    table.add(
        {std::string(one.name), std::string(one.about), example_text(one)});
  }
  fmt::print(
      "{}\nA class file names them after `speech:`, for the class, a group or "
      "a "
      "learner, as in\n`speech: th-f, no-ed`. Errors that follow them are "
      "counted apart. `sheaf speech NAME` says\nwhere one is described.\n",
      table.text());
}

void print_variety(const SpeechVariety& one) {
  fmt::print("{}: {}\n  may be written: {}\n  as a rule: {}\n  source: {}\n",
             one.name, one.about, example_text(one), one.rule, one.source);
}

}  // namespace

int run_speech(const CommandLine& line) {
  if (line.arguments.empty()) {
    print_varieties();
    return kDone;
  }
  const std::string& wanted = line.arguments.front();
  std::vector<std::string_view> names;
  for (const SpeechVariety& one : speech_varieties()) {
    if (one.name == wanted) {
      print_variety(one);
      return kDone;
    }
    names.push_back(one.name);
  }
  const std::string help = did_you_mean(wanted, names).text;
  fmt::print(stderr, "sheaf speech: there is no way of speaking {}; {}\n",
             sheaf::quoted(wanted),
             help.empty() ? "`sheaf speech` lists them" : help);
  return kWrongCommandLine;
}

}  // namespace sheaf
