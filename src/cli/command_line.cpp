// The one file that knows the command line library, whose header is large.

#include "cli/command_line.h"

#include <fmt/format.h>
#include <CLI/CLI.hpp>
#include <type_traits>
#include <variant>

#include "base/nearest.h"
#include "base/utf8.h"
#include "cli/confinement.h"
#include "cli/exit_codes.h"
#include "cli/verb_options.h"
#include "input/learner_code.h"

namespace sheaf {

namespace {

constexpr const char* kAbout =
    "Sheaf makes a week of spelling sheets from a short lesson file.";

CLI::Option* add_target(CLI::App& verb, const VerbOption& option) {
  return std::visit(
      [&](auto* target) {
        if constexpr (std::is_same_v<decltype(target), bool*>) {
          return verb.add_flag(option.name, *target, option.about);
        } else {
          return verb.add_option(option.name, *target, option.about);
        }
      },
      option.target);
}

void add_check(CLI::Option& made, OptionForm::Check check) {
  if (check == OptionForm::Check::none) return;
  made.check([check](const std::string& value) {
    return fault_of_value(check, value);
  });
  if (check == OptionForm::Check::code) {
    made.transform([](const std::string& code) {
      return LearnerCode::read(code).value_or(LearnerCode()).text();
    });
  }
}

void add_option(CLI::App& verb, const VerbOption& option) {
  CLI::Option& made = *add_target(verb, option);
  const OptionForm& form = option.form;
  made.required(form.required);
  if (form.shows_default) made.capture_default_str();
  if (form.commas) made.delimiter(',');
  add_check(made, form.check);
  if (form.range) made.check(CLI::Range(form.range->first, form.range->second));
  if (form.values) made.expected(form.values->first, form.values->second);
  if (form.one_at_a_time) made.allow_extra_args(false);
}

void add_verbs(CLI::App& app, CommandLine& line) {
  for (const VerbOptions& verb : all_verbs(line)) {
    CLI::App* added = app.add_subcommand(verb.name, verb.about);
    added->callback([&line, name = verb.name] { line.verb = name; });
    for (const VerbOption& option : verb.options) add_option(*added, option);
    if (hold_of(verb.name) != Hold::none) {
      add_option(*added, {"--no-sandbox",
                          "keep rights on this machine that are given up "
                          "before any file is read; for systems where that "
                          "gets in the way",
                          &line.no_sandbox});
    }
    added->footer(verb.more);
  }
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
  return did_you_mean(wrong, views).text;
}

std::string nearest_verb(const CLI::App& app, std::string_view wrong) {
  std::vector<std::string> names;
  for (const CLI::App* verb : app.get_subcommands({})) {
    names.push_back(verb->get_name());
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  return did_you_mean(wrong, views).text;
}

// Options that once had another name in one verb than in the others.
struct RenamedOption {
  std::string_view verb, old_name, now;
};
constexpr RenamedOption kRenamedOptions[] = {
    {"find", "--taught", "a step is asked for with `--step`, as in `--step 6`"},
};

std::string new_name(std::string_view verb, std::string_view old_name) {
  for (const RenamedOption& one : kRenamedOptions) {
    if (one.verb == verb && one.old_name == old_name) {
      return std::string(one.now);
    }
  }
  return {};
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
    help = new_name(verb.get_name(), extra);
    if (help.empty()) help = nearest_option(verb, extra);
    // -tion, -ed
    const bool takes_pattern = verb.get_option_no_throw("PATTERN") != nullptr ||
                               verb.get_name() == "patterns";
    if (takes_pattern && extra.size() > 1 && extra[1] != '-') {
      help = fmt::format("write an ending without its hyphen: `{}`",
                         printable(extra.substr(1)));
    }
  } else if (&verb == &app) {
    text = fmt::format("there is no verb `{}`", shown);
    help = nearest_verb(app, extra);
  } else {
    text = fmt::format("`{}` does not belong here", shown);
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
        "this takes one {}, but you gave {}: {}; put commas between several "
        "values of an option",
        name, given,
        printable(fmt::format("{}", fmt::join(option->results(), ", "))));
  }
  return fmt::format("this needs {}", name);
}

void print_fault(const CLI::App& app, const CLI::ParseError& fault) {
  const CLI::App& verb = current(app);
  const std::string name = &verb == &app ? "sheaf" : "sheaf " + verb.get_name();
  fmt::print(stderr, "{}: {}\n`{} --help` shows how to use it\n", name,
             explain(app, fault), name);
}

}  // namespace

std::vector<VerbNote> verb_notes() {
  CommandLine line;
  CLI::App app(kAbout, "sheaf");
  add_verbs(app, line);
  std::vector<VerbNote> notes;
  for (const CLI::App* verb : app.get_subcommands({})) {
    VerbNote note{
        verb->get_name(), verb->get_description(), {}, {}, verb->get_footer()};
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
  if (argc > 0) line.program = argv[0];
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
