// `sheaf manual` and `sheaf completions`: the manual page and completions for
// shells, from the table that reads the command line.

#include <fmt/format.h>

#include <algorithm>

#include "base/diagnostics.h"
#include "cli/exit_codes.h"
#include "cli/option_values.h"
#include "cli/verbs.h"

namespace sheaf {

namespace {

// Text for troff: a backslash or a hyphen as itself, no line that begins with
// a dot or an apostrophe.
std::string troff(std::string_view plain) {
  std::string result;
  for (const char c : plain) {
    if (result.empty() && (c == '.' || c == '\'')) result += "\\&";
    if (c == '-') {
      result += "\\-";
    } else if (c == '\\') {
      result += "\\e";
    } else {
      result += c;
    }
  }
  return result;
}

void print_verb(const VerbNote& verb) {
  fmt::print(".SS sheaf {} {}\n{}.\n", troff(verb.name), troff(verb.arguments),
             troff(verb.about));
  for (const OptionNote& option : verb.options) {
    fmt::print(".TP\n.B {} {}\n{}\n", troff(option.name), troff(option.value),
               troff(option.about));
  }
  if (verb.more.empty()) return;
  // Lines stay as they are.
  fmt::print(".PP\n.nf\n");
  std::string_view rest = verb.more;
  while (!rest.empty()) {
    const std::size_t end = std::min(rest.find('\n'), rest.size());
    fmt::print("{}\n", troff(rest.substr(0, end)));
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  fmt::print(".fi\n");
}

std::string in_single_quotes(std::string_view plain) {
  std::string result;
  for (const char c : plain) {
    result += c == '\'' ? std::string("'\\''") : std::string(1, c);
  }
  return result;
}

std::string option_names(const VerbNote& verb) {
  std::string names;
  for (const OptionNote& option : verb.options) {
    names += (names.empty() ? "" : " ") + option.name;
  }
  return names;
}

std::string in_a_row(const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, " "));
}

// What bash offers for a value: words, and the names of files or folders.
std::string bash_values(const OfferedValues& values) {
  std::string text;
  if (!values.words.empty()) {
    text +=
        fmt::format(" words='{}'", in_single_quotes(in_a_row(values.words)));
  }
  if (values.kind == OfferedValues::Kind::files) text += " names=-f";
  if (values.kind == OfferedValues::Kind::folders) text += " names=-d";
  return text.empty() ? " :" : text;
}

void print_bash(const std::vector<VerbNote>& verbs) {
  std::string names;
  for (const VerbNote& verb : verbs) {
    names += (names.empty() ? "" : " ") + verb.name;
  }
  fmt::print(
      "_sheaf() {{\n"
      "  local word=\"${{COMP_WORDS[COMP_CWORD]}}\"\n"
      "  local verb=\"${{COMP_WORDS[1]}}\"\n"
      "  local before=\"${{COMP_WORDS[COMP_CWORD-1]}}\"\n"
      "  local options= words= names=\n"
      "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
      "    COMPREPLY=($(compgen -W '{}' -- \"$word\"))\n"
      "    return\n"
      "  fi\n"
      "  case \"$verb $before\" in\n",
      names);
  for (const VerbNote& verb : verbs) {
    for (const OptionNote& option : verb.options) {
      if (option.value.empty()) continue;
      fmt::print("    '{} {}'){} ;;\n", verb.name, option.name,
                 bash_values(values_of(verb.name, option.name)));
    }
  }
  fmt::print(
      "    *)\n"
      "      case \"$verb\" in\n");
  for (const VerbNote& verb : verbs) {
    fmt::print("        {}) options='{}'{} ;;\n", verb.name, option_names(verb),
               bash_values(values_of(verb.name, verb.arguments)));
  }
  fmt::print(
      "      esac ;;\n"
      "  esac\n"
      "  case \"$word\" in\n"
      "    -*) COMPREPLY=($(compgen -W \"$options\" -- \"$word\")) ;;\n"
      "    *) COMPREPLY=($(compgen $names -W \"$words\" -- \"$word\")) ;;\n"
      "  esac\n"
      "}}\n"
      "complete -o filenames -F _sheaf sheaf\n");
}

// What zsh does for a value.
std::string zsh_values(const OfferedValues& values) {
  const std::string words = in_single_quotes(in_a_row(values.words));
  switch (values.kind) {
    case OfferedValues::Kind::files:
      return words.empty() ? "_files"
                           : fmt::format("{{compadd -- {}; _files}}", words);
    case OfferedValues::Kind::folders:
      return "_files -/";
    case OfferedValues::Kind::words:
      return fmt::format("({})", words);
    case OfferedValues::Kind::anything:
      break;
  }
  return " ";
}

void print_zsh(const std::vector<VerbNote>& verbs) {
  fmt::print("#compdef sheaf\nlocal -a verbs\nverbs=(\n");
  for (const VerbNote& verb : verbs) {
    fmt::print("  '{}:{}'\n", verb.name, in_single_quotes(verb.about));
  }
  fmt::print(
      ")\nif (( CURRENT == 2 )); then\n  _describe verb verbs\n  return\nfi\n"
      "case $words[2] in\n");
  for (const VerbNote& verb : verbs) {
    fmt::print("  {}) _arguments", verb.name);
    for (const OptionNote& option : verb.options) {
      // Brackets and colons part the pieces of an entry.
      std::string about;
      for (const char c : in_single_quotes(option.about)) {
        if (c == '[' || c == ']' || c == ':') about += '\\';
        about += c;
      }
      fmt::print(
          " '*{}[{}]{}'", option.name, about,
          option.value.empty()
              ? std::string()
              : ":value:" + zsh_values(values_of(verb.name, option.name)));
    }
    fmt::print(" '*:value:{}' ;;\n",
               zsh_values(values_of(verb.name, verb.arguments)));
  }
  fmt::print("esac\n");
}

// What fish does for a value: -x takes no files, -r and -F do.
std::string fish_values(const OfferedValues& values) {
  const std::string words =
      values.words.empty()
          ? std::string()
          : fmt::format(" -a '{}'", in_single_quotes(in_a_row(values.words)));
  switch (values.kind) {
    case OfferedValues::Kind::files:
      return " -r -F" + words;
    case OfferedValues::Kind::folders:
      return " -x -a '(__fish_complete_directories)'";
    case OfferedValues::Kind::words:
    case OfferedValues::Kind::anything:
      break;
  }
  return " -x" + words;
}

void print_fish(const std::vector<VerbNote>& verbs) {
  for (const VerbNote& verb : verbs) {
    fmt::print("complete -c sheaf -n __fish_use_subcommand -a {} -d '{}'\n",
               verb.name, in_single_quotes(verb.about));
    const OfferedValues own = values_of(verb.name, verb.arguments);
    if (!own.words.empty()) {
      fmt::print(
          "complete -c sheaf -n '__fish_seen_subcommand_from {}'{} -a "
          "'{}'\n",
          verb.name, own.kind == OfferedValues::Kind::words ? " -f" : "",
          in_single_quotes(in_a_row(own.words)));
    }
    for (const OptionNote& option : verb.options) {
      fmt::print(
          "complete -c sheaf -n '__fish_seen_subcommand_from {}' -l {}{} -d "
          "'{}'\n",
          verb.name, option.name.substr(2),
          option.value.empty() ? std::string()
                               : fish_values(values_of(verb.name, option.name)),
          in_single_quotes(option.about));
    }
  }
}

}  // namespace

int run_manual(const CommandLine&) {
  fmt::print(
      ".TH SHEAF 1 \"\" \"sheaf {}\" \"Sheaf\"\n"
      ".SH NAME\nsheaf \\- a week of spelling sheets from a short lesson file\n"
      ".SH SYNOPSIS\n.B sheaf\n.I VERB\n[options] [files]\n"
      ".SH DESCRIPTION\nSheaf reads a lesson in plain text and writes a "
      "printable packet for the learner and pages for the teacher, as PDF "
      "files. Messages go to standard error, results to standard output.\n"
      ".SH VERBS\n",
      SHEAF_VERSION);
  for (const VerbNote& verb : verb_notes()) print_verb(verb);
  fmt::print(
      ".SH CHECKING FOR OTHER PROGRAMS\n"
      "With \\-\\-json, check prints a line of JSON for each file: its "
      "messages, each with its place, remarks and fixes, and the words and "
      "sentences of a lesson. A place has a beginning and an end, which is the "
      "first that is no longer part of it. Lines count from 1. Columns count "
      "from 0, as utf8 in bytes and as utf16 in code units; a byte order mark "
      "at the head of a file is not counted. A fix is a text that takes the "
      "place of another. Those that are certain may all be put in, and "
      "\\-\\-fix does that; of the others one is to be chosen.\n"
      ".SH MESSAGES\n"
      "The name of a message stands in brackets at its end;\n"
      ".B sheaf explain\nwith that name says more.\n");
  for (const DiagnosticName& name : diagnostic_names()) {
    fmt::print(".TP\n.B {}\n{}\n", troff(name.name), troff(name.meaning));
  }
  fmt::print(
      ".SH EXIT STATUS\n"
      ".TP\n.B 0\ndone; warnings are allowed\n"
      ".TP\n.B 1\nfiles have errors; no pages are made of those\n"
      ".TP\n.B 2\nthe command line is wrong\n"
      ".TP\n.B 3\nthe machine refused: a file cannot be read or written, "
      "or one that Sheaf did not make is in the way\n"
      ".TP\n.B 130\ninterrupted\n"
      ".SH ENVIRONMENT\n.TP\n.B NO_COLOR\nno colour in messages\n");
  return kDone;
}

int run_completions(const CommandLine& line) {
  const std::string& shell = line.arguments.front();
  const auto verbs = verb_notes();
  if (shell == "bash") {
    print_bash(verbs);
  } else if (shell == "zsh") {
    print_zsh(verbs);
  } else if (shell == "fish") {
    print_fish(verbs);
  } else {
    fmt::print(
        stderr,
        "sheaf: there are no completions for {}; choose `bash`, `zsh` or "
        "`fish`\n",
        sheaf::quoted(shell));
    return kWrongCommandLine;
  }
  return kDone;
}

}  // namespace sheaf
