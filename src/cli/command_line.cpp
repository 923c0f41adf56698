// The one file that knows the command line library: its header takes ten
// seconds to compile.

#include "cli/command_line.h"

#include <CLI/CLI.hpp>

#include "cli/exit_codes.h"

namespace sheaf {

namespace {

constexpr const char* kAbout =
    "Sheaf makes a week of spelling sheets from a short lesson file.";

void add_layout_options(CLI::App& verb, CommandLine& line) {
  verb.add_option("--layout", line.layout,
                  "a layout's name or file instead of the lesson's own");
  verb.add_option("--paper", line.paper, "letter or a4")
      ->check(CLI::IsMember({"letter", "a4"}));
  verb.add_option("--only", line.only,
                  "make these sheets only (may be given again)")
      ->delimiter(',');
  verb.add_option("--allow", line.allowed_folders,
                  "a further folder in which files named by a lesson may be");
}

void add_class_options(CLI::App& verb, CommandLine& line) {
  verb.add_option("--class", line.class_file,
                  "a class file: the learners with their settings");
  verb.add_option("--learner", line.learners,
                  "these learners of the class only (may be given again)")
      ->delimiter(',');
}

CLI::App* add_verb(CLI::App& app, CommandLine& line, const char* name,
                   const char* about) {
  CLI::App* verb = app.add_subcommand(name, about);
  verb->callback([&line, name] { line.verb = name; });
  return verb;
}

void add_verbs(CLI::App& app, CommandLine& line) {
  CLI::App* build = add_verb(app, line, "build",
                             "make the packet of each lesson as PDF files");
  build->add_option("LESSON", line.arguments,
                    "lesson files; with --class, one for learners who have "
                    "none of their own");
  build->add_option("--out", line.out, "folder for the packets")
      ->capture_default_str();
  build->add_option("--deps", line.dependency_file,
                    "write a dependency file for make");
  build->add_flag("--separate", line.separate, "a PDF file for each sheet");
  add_class_options(*build, line);
  add_layout_options(*build, line);

  CLI::App* check =
      add_verb(app, line, "check", "say what is in a lesson and what is wrong");
  check->add_option("FILE", line.arguments, "lesson or class files")
      ->required();
  add_layout_options(*check, line);

  CLI::App* word = add_verb(app, line, "word",
                            "graphemes, sounds, boxes and patterns of words");
  word->add_option("WORD", line.arguments, "words")->required();
  word->add_flag("--json", line.json, "as JSON");
  word->add_option("--accent", line.accent,
                   "general-american, british, scottish or australian");

  CLI::App* patterns =
      add_verb(app, line, "patterns", "the spelling patterns that Sheaf knows");
  patterns->add_option("NAME", line.arguments, "a pattern to explain")
      ->expected(0, 1);

  add_verb(app, line, "sheets", "the kinds of sheets and their options");
  add_verb(app, line, "layouts", "the layouts that are found");

  CLI::App* dump = add_verb(app, line, "dump",
                            "what passes between two stages, as text");
  dump->add_option("STAGE and LESSON", line.arguments,
                   "lesson, words or pages, then a lesson file")
      ->required()
      ->expected(1, 2);
  add_class_options(*dump, line);
  add_layout_options(*dump, line);
}

}  // namespace

std::optional<CommandLine> read_command_line(int argc, char** argv,
                                             int& exit_code) {
  CommandLine line;
  CLI::App app(kAbout, "sheaf");
  app.set_version_flag("--version", "sheaf " SHEAF_VERSION);
  app.require_subcommand(1);
  add_verbs(app, line);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& fault) {
    const int code = app.exit(fault);
    exit_code = code == 0 ? kDone : kWrongCommandLine;
    return std::nullopt;
  }
  return line;
}

}  // namespace sheaf
