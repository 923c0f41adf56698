// The one file that knows the command line library, whose header is large.

#include "cli/command_line.h"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include "base/nearest.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "input/class_file.h"

namespace sheaf {

namespace {

constexpr auto kAccentAbout =
    "general-american, british, scottish or australian";
constexpr const char* kPdfAbout =
    "write a PDF file as well; a file that Sheaf did not make stays as it is";
constexpr const char* kAbout =
    "Sheaf makes a week of spelling sheets from a short lesson file.";

void add_paper_option(CLI::App& verb, CommandLine& line) {
  verb.add_option("--paper", line.paper, "letter or a4")
      ->check([](const std::string& name) {
        return name == "letter" || name == "a4"
                   ? std::string()
                   : "say `letter` or `a4`, not `" + name + "`";
      });
}

// Codes alone: what is no code could be a name, and is not repeated.
CLI::Option* take_codes(CLI::Option* option) {
  return option->delimiter(',')
      ->check([](const std::string& code) {
        return is_learner_code(code)
                   ? std::string()
                   : fmt::format("this is no learner's code: it takes {}",
                                 kLearnerCodeForm);
      })
      ->transform([](const std::string& code) {
        return LearnerCode::read(code).value_or(LearnerCode()).text();
      });
}

void add_jobs_option(CLI::App& verb, CommandLine& line) {
  verb.add_option("--jobs", line.jobs, "how many at once; else one a core")
      ->check(CLI::Range(1, 256));
}

void add_layout_options(CLI::App& verb, CommandLine& line) {
  verb.add_option("--layout", line.layout,
                  "a layout's name or file instead of the lesson's own");
  add_paper_option(verb, line);
  verb.add_option("--only", line.only,
                  "make these sheets only (may be given again)")
      ->delimiter(',');
  verb.add_option("--allow", line.allowed_folders,
                  "a further folder in which files named by a lesson may be");
}

void add_class_options(CLI::App& verb, CommandLine& line) {
  verb.add_option("--class", line.class_file,
                  "a class file: the learners with their settings");
  take_codes(
      verb.add_option("--learner", line.learners,
                      "these learners of the class only (may be given again)"));
}

CLI::App* add_verb(CLI::App& app, CommandLine& line, const char* name,
                   const char* about) {
  CLI::App* verb = app.add_subcommand(name, about);
  verb->callback([&line, name] { line.verb = name; });
  return verb;
}

void add_sequence_options(CLI::App& verb, CommandLine::Planning& planning,
                          const char* step) {
  verb.add_option("--sequence", planning.sequence,
                  "the sequence file; else sequence.yaml in this folder");
  verb.add_option(step, planning.step, "a step's number or name");
}

void add_planning_verbs(CLI::App& app, CommandLine& line) {
  CommandLine::Planning& planning = line.planning;
  CLI::App* find = add_verb(app, line, "find", "words to teach a pattern with");
  find->add_option("PATTERN", line.arguments, "a pattern")
      ->required()
      ->expected(1);
  find->add_option("--count", planning.count, "how many words")
      ->check(CLI::Range(1, 200));
  add_sequence_options(*find, planning, "--taught");
  find->add_option("--syllables", planning.syllables,
                   "how many syllables, as in 1 or 1-2");
  find->add_option("--length", planning.letters,
                   "how many letters, as in 4 or 3-5");
  find->add_flag("--pictures", planning.pictures,
                 "only words that have a clear picture");
  find->add_option("--accent", line.accent, kAccentAbout);
  find->add_flag("--later", planning.later_set,
                 "for a later set: the pattern in any place");
  find->add_flag("--older", planning.older,
                 "also words that only older learners know, behind the rest");
  find->add_option("--contrast", planning.contrast,
                   "a second pattern to tell apart from the first");
  find->add_option("--transfer", planning.lessons,
                   "words that none of these lessons uses");
  find->add_flag("--pseudo", planning.pseudo, "made-up words to read");
  find->add_option("--block", planning.file,
                   "a list of words not to suggest; else blocked-words.txt in "
                   "this folder");
  find->add_flag("--json", line.json, "as JSON");

  CLI::App* draft =
      add_verb(app, line, "draft", "write a lesson file to start from");
  draft
      ->add_option("PATTERN", line.arguments,
                   "up to four patterns; else those of the step")
      ->expected(0, 4);
  add_sequence_options(*draft, planning, "--step");
  draft->add_option("--file", planning.file,
                    "the file to write; else named after the pattern. A file "
                    "that is there stays as it is");

  CLI::App* settle = add_verb(
      app, line, "settle", "a lesson with every choice written out, to send");
  settle->add_option("LESSON", line.arguments, "a lesson file")
      ->required()
      ->expected(1);
  settle->add_option("--file", planning.file,
                     "the file to write; else NAME-settled.yaml beside the "
                     "lesson. A file that is there stays as it is");
  settle->add_option("--layout", line.layout,
                     "a layout's name or file instead of the lesson's own");
  settle
      ->add_option("--allow", line.allowed_folders,
                   "a further folder in which files named by a lesson may be")
      ->allow_extra_args(false);

  CLI::App* block =
      add_verb(app, line, "block", "words that are not to be suggested");
  block->add_option("WORD", line.arguments, "words")->required();
  block->add_option("--file", planning.file,
                    "the list to add them to; else blocked-words.txt in this "
                    "folder. Nothing else in it changes, and no other kind of "
                    "file does");
  block->add_flag("--rude", planning.rude,
                  "rude words: what is made up is not to be like them either");
}

// How a learner speaks, for marking.
void add_speech_options(CLI::App& verb, CommandLine& line) {
  verb.add_option("--accent", line.accent, kAccentAbout);
  verb.add_option("--confuses", line.marking.confusions,
                  "two sounds that the learner does not tell apart, as in th/f "
                  "(may be given again)")
      ->delimiter(',')
      ->allow_extra_args(false);
}

void add_record_files(CLI::App& verb, CommandLine& line, bool required) {
  verb.add_option("RECORD", line.arguments, "record files, or folders of them")
      ->required(required);
  take_codes(verb.add_option("--learner", line.marking.learners,
                             "these learners only (may be given again)"))
      ->allow_extra_args(false);
  verb.add_option("--allow", line.allowed_folders,
                  "a further folder in which lessons and classes may be");
}

void add_marking(CLI::App& app, CommandLine& line) {
  CommandLine::Marking& marking = line.marking;
  CLI::App* record =
      add_verb(app, line, "record",
               "write a form for what learners wrote, ready to fill");
  record->add_option("LESSON", line.arguments, "the lesson")
      ->required()
      ->expected(1);
  record->add_option("--class", marking.class_file, "the class file")
      ->required();
  record->add_option("--group", marking.group, "this group of the class only");
  record->add_option("--date", marking.date, "the day, as in 2026-03-12");
  record->add_option("--kind", marking.kind,
                     "dictation, transfer, retention or writing");
  record->add_option("--records", marking.records,
                     "the folder for it; else records beside the class file");

  CLI::App* mark = add_verb(app, line, "mark",
                            "mark what learners wrote, grapheme by grapheme");
  add_record_files(*mark, line, false);
  mark->add_option("--pairs", marking.pairs,
                   "instead of records: a file with a target, a tab and an "
                   "attempt in each line; - reads them from standard input");
  mark->add_flag("--csv", marking.csv, "as a table for a spreadsheet");
  mark->add_flag("--json", line.json, "as JSON");
  mark->add_option("--pdf", marking.pdf, kPdfAbout);
  mark->add_option("--paper", line.paper, "letter or a4");
  add_jobs_option(*mark, line);
  add_speech_options(*mark, line);

  CLI::App* writing = add_verb(app, line, "writing",
                               "find taught patterns and misspelled words in "
                               "a learner's own text");
  writing
      ->add_option("FILE", line.arguments,
                   "the text, typed in; - reads it from standard input")
      ->required()
      ->expected(1);
  writing->add_option("--sequence", marking.sequence, "the sequence file");
  writing->add_option("--step", marking.step,
                      "the last step taught; else the whole sequence");
  writing
      ->add_option("--taught", marking.taught,
                   "patterns taught, instead of a sequence")
      ->delimiter(',')
      ->allow_extra_args(false);
  take_codes(
      writing->add_option("--learner", marking.learners, "whose text it is"))
      ->expected(1);
  writing->add_flag("--json", line.json, "as JSON");
  add_speech_options(*writing, line);

  CLI::App* progress =
      add_verb(app, line, "progress", "what each learner has, over the weeks");
  add_record_files(*progress, line, true);
  progress
      ->add_option("--rule", marking.rules,
                   "when a pattern counts as learned, as in secure-days=4 "
                   "(may be given again)")
      ->allow_extra_args(false);
  progress
      ->add_option("--rate", marking.rate,
                   "letter sequences a week that the aim line rises by")
      ->capture_default_str();
  progress->add_option("--pdf", marking.pdf, kPdfAbout);
  progress->add_option("--paper", line.paper, "letter or a4");
  add_speech_options(*progress, line);
}

void add_next_steps(CLI::App& app, CommandLine& line) {
  CommandLine::Marking& marking = line.marking;
  CLI::App* review = add_verb(
      app, line, "review", "what each learner should come back to, and when");
  review->add_option("--class", marking.class_file, "the class file")
      ->required();
  review->add_option("--records", marking.records, "the folder of records")
      ->required();
  review->add_option("--week", marking.date, "the week's first day")
      ->required();
  review->add_option("--out", marking.out,
                     "folder for the files that it writes; else the class "
                     "file's own. A file that `review` did not write stays as "
                     "it is");
  review
      ->add_option("--rule", marking.rules,
                   "when a pattern counts as learned, as in secure-days=4 "
                   "(may be given again)")
      ->allow_extra_args(false);
  review->add_option("--allow", line.allowed_folders,
                     "a further folder in which lessons and classes may be");
  add_speech_options(*review, line);

  CLI::App* forget = add_verb(app, line, "forget",
                              "take a learner out of records and outputs");
  forget->add_option("CODE", line.arguments, "the learner's code")
      ->required()
      ->expected(1);
  forget->add_option("--records", marking.records,
                     "the folder of records with all folders in it, or one "
                     "record; else records");
  forget->add_option("--class", marking.class_file,
                     "a class file as well, with the files beside it");
  forget
      ->add_option("--out", line.out,
                   "the folder of packets; only what Sheaf made there is "
                   "deleted")
      ->capture_default_str();
  forget->add_flag("--yes", marking.yes,
                   "do it; without this it only shows what it would touch");
}

void add_verbs(CLI::App& app, CommandLine& line) {
  CLI::App* build = add_verb(app, line, "build",
                             "make the packet of each lesson as PDF files");
  build->add_option("LESSON", line.arguments,
                    "lesson files; of a folder, all lessons and classes in it "
                    "whose pages are not up to date; with --class, one lesson "
                    "for learners who have none of their own");
  build->add_option("--out", line.out, "folder for the packets")
      ->capture_default_str();
  build->add_option("--deps", line.dependency_file,
                    "write a dependency file for make; a file of another kind "
                    "stays as it is");
  build->add_flag("--separate", line.separate, "a PDF file for each sheet");
  build->add_flag("--if-needed", line.if_needed,
                  "leave pages that are up to date, as for a folder");
  add_class_options(*build, line);
  add_layout_options(*build, line);
  add_jobs_option(*build, line);

  CLI::App* watch = add_verb(app, line, "watch",
                             "make the packets again whenever a file is saved");
  watch->add_option("LESSON", line.arguments,
                    "lesson files or folders of them; with --class, at most "
                    "one file");
  watch->add_option("--out", line.out, "folder for the packets")
      ->capture_default_str();
  add_class_options(*watch, line);
  add_layout_options(*watch, line);

  CLI::App* check =
      add_verb(app, line, "check", "say what is in a lesson and what is wrong");
  check->add_option("FILE", line.arguments, "lesson or class files")
      ->required();
  add_layout_options(*check, line);
  add_jobs_option(*check, line);

  CLI::App* word = add_verb(app, line, "word",
                            "graphemes, sounds, boxes and patterns of words");
  word->add_option("WORD", line.arguments, "words")->required();
  word->add_flag("--json", line.json, "as JSON");
  word->add_option("--accent", line.accent, kAccentAbout);
  word->add_option("--count", line.count, "as-spoken or as-taught");
  word->add_option("--notation", line.notation,
                   "how sounds are written: plain, marks or ipa");

  CLI::App* patterns =
      add_verb(app, line, "patterns", "the spelling patterns that Sheaf knows");
  patterns->add_option("NAME", line.arguments, "a pattern to explain")
      ->expected(0, 1);

  add_planning_verbs(app, line);
  add_marking(app, line);
  add_next_steps(app, line);
  add_verb(app, line, "sheets", "the kinds of sheets and their options");
  add_verb(app, line, "layouts", "the layouts that are found");

  CLI::App* pictures =
      add_verb(app, line, "pictures", "the words that a picture stands for");
  pictures->add_option("WORD", line.arguments, "these words only");
  pictures->add_option("--pdf", line.pdf_file,
                       "write a contact sheet of the pictures; a file that "
                       "Sheaf did not make stays as it is");
  add_paper_option(*pictures, line);

  CLI::App* schema = add_verb(app, line, "schema",
                              "a JSON Schema, with which editors check files");
  schema
      ->add_option("KIND", line.arguments, "lesson, layout, class or sequence")
      ->required()
      ->expected(1);
  add_verb(app, line, "manual", "the manual page, in the format of man");
  CLI::App* completions =
      add_verb(app, line, "completions", "completions for a shell");
  completions->add_option("SHELL", line.arguments, "bash, zsh or fish")
      ->required()
      ->expected(1);

  CLI::App* dump =
      add_verb(app, line, "dump", "what passes between two stages, as text");
  dump->add_option("STAGE and LESSON", line.arguments,
                   "lesson, words or pages, then a lesson file")
      ->required()
      ->expected(1, 2);
  add_class_options(*dump, line);
  add_layout_options(*dump, line);
}

// The verb that was understood before the fault, or the whole program.
const CLI::App& current(const CLI::App& app) {
  const auto verbs = app.get_subcommands();
  return verbs.empty() ? app : *verbs.back();
}

std::string nearest_option(const CLI::App& verb, std::string_view wrong) {
  std::vector<std::string> names;
  for (const CLI::Option* option : verb.get_options()) {
    for (const std::string& name : option->get_lnames()) {
      names.push_back("--" + name);
    }
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  return did_you_mean(wrong, views);
}

std::string nearest_verb(const CLI::App& app, std::string_view wrong) {
  std::vector<std::string> names;
  for (const CLI::App* verb : app.get_subcommands({})) {
    names.push_back(verb->get_name());
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  return did_you_mean(wrong, views);
}

// What stands on the command line and has no place there.
std::string explain_extra(const CLI::App& app, std::string extra) {
  const CLI::App& verb = current(app);
  extra.resize(std::min(extra.find('='), extra.size()));
  const std::string shown = printable(extra);
  std::string help;
  std::string text;
  if (extra.starts_with("-")) {
    text = fmt::format("there is no option `{}`", shown);
    help = nearest_option(verb, extra);
    // -tion, -ed
    const bool takes_pattern = verb.get_option_no_throw("PATTERN") != nullptr ||
                               verb.get_name() == "patterns";
    if (takes_pattern && extra.size() > 1 && extra[1] != '-') {
      help = fmt::format("an ending is named without its hyphen: `{}`",
                         printable(extra.substr(1)));
    }
  } else if (&verb == &app) {
    text = fmt::format("there is no verb `{}`", shown);
    help = nearest_verb(app, extra);
  } else {
    text = fmt::format("there is nothing to do with `{}` here", shown);
  }
  return help.empty() ? text : text + "; " + help;
}

std::string explain(const CLI::App& app, const CLI::ParseError& fault) {
  const auto extras = current(app).remaining(true);
  if (!extras.empty()) return explain_extra(app, extras.front());
  if (app.get_subcommands().empty()) return "a verb is missing";
  // The library's own sentences: "LESSON is required", or an option's name, a
  // colon and what is wrong with it.
  const std::string text = fault.what();
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&fault) == nullptr) {
    return printable(text);
  }
  const std::string name = text.substr(0, text.find(':'));
  if (name.starts_with("-")) {
    return fmt::format("`{}` needs a value after it", name);
  }
  const CLI::Option* option = current(app).get_option_no_throw(name);
  const std::size_t given = option == nullptr ? 0 : option->count();
  if (option != nullptr && given > 0 &&
      static_cast<int>(given) > option->get_expected_max()) {
    return fmt::format(
        "this takes one {}, and here are {}: {}; several values of an "
        "option have commas between them",
        name, given,
        printable(fmt::format("{}", fmt::join(option->results(), ", "))));
  }
  return fmt::format("this needs {}", name);
}

void print_fault(const CLI::App& app, const CLI::ParseError& fault) {
  const CLI::App& verb = current(app);
  const std::string name = &verb == &app ? "sheaf" : "sheaf " + verb.get_name();
  fmt::print(stderr, "{}: {}\n`{} --help` says how it is used\n", name,
             explain(app, fault), name);
}

}  // namespace

std::vector<VerbNote> verb_notes() {
  CommandLine line;
  CLI::App app(kAbout, "sheaf");
  add_verbs(app, line);
  std::vector<VerbNote> notes;
  for (const CLI::App* verb : app.get_subcommands({})) {
    VerbNote note{verb->get_name(), verb->get_description(), {}, {}};
    for (const CLI::Option* option : verb->get_options()) {
      if (option->get_lnames().empty()) {
        note.arguments = option->get_name();
      } else {
        note.options.push_back({"--" + option->get_lnames().front(),
                                option->get_type_name(),
                                option->get_description()});
      }
    }
    notes.push_back(std::move(note));
  }
  return notes;
}

std::optional<CommandLine> read_command_line(int argc, char** argv,
                                             int& exit_code) {
  CommandLine line;
  CLI::App app(kAbout, "sheaf");
  app.set_version_flag("--version", "sheaf " SHEAF_VERSION);
  app.require_subcommand(1);
  add_verbs(app, line);
  exit_code = kDone;
  try {
    app.parse(argc, argv);
    return line;
  } catch (const CLI::CallForHelp&) {
    const CLI::App& verb = current(app);
    fmt::print("{}", verb.help(&verb == &app ? "" : "sheaf"));
  } catch (const CLI::CallForVersion&) {
    fmt::print("sheaf " SHEAF_VERSION "\n");
  } catch (const CLI::ParseError& fault) {
    print_fault(app, fault);
    exit_code = kWrongCommandLine;
  }
  return std::nullopt;
}

}  // namespace sheaf
