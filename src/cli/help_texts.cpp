// `sheaf manual` and `sheaf completions`: the manual page and completions for
// shells, from the table that reads the command line.

#include <fmt/format.h>

#include <algorithm>

#include "base/diagnostics.h"
#include "cli/exit_codes.h"
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

void print_bash(const std::vector<VerbNote>& verbs) {
  std::string names;
  for (const VerbNote& verb : verbs) {
    names += (names.empty() ? "" : " ") + verb.name;
  }
  fmt::print(
      "_sheaf() {{\n"
      "  local word=\"${{COMP_WORDS[COMP_CWORD]}}\" options=\n"
      "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
      "    COMPREPLY=($(compgen -W '{}' -- \"$word\"))\n"
      "    return\n"
      "  fi\n"
      "  case \"${{COMP_WORDS[1]}}\" in\n",
      names);
  for (const VerbNote& verb : verbs) {
    fmt::print("    {}) options='{}' ;;\n", verb.name, option_names(verb));
  }
  fmt::print(
      "  esac\n"
      "  case \"$word\" in\n"
      "    -*) COMPREPLY=($(compgen -W \"$options\" -- \"$word\")) ;;\n"
      "    *) COMPREPLY=($(compgen -f -- \"$word\")) ;;\n"
      "  esac\n"
      "}}\n"
      "complete -o filenames -F _sheaf sheaf\n");
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
      fmt::print(" '*{}[{}]{}'", option.name, about,
                 option.value.empty() ? "" : ":value:_files");
    }
    fmt::print(" '*:file:_files' ;;\n");
  }
  fmt::print("esac\n");
}

void print_fish(const std::vector<VerbNote>& verbs) {
  for (const VerbNote& verb : verbs) {
    fmt::print("complete -c sheaf -n __fish_use_subcommand -a {} -d '{}'\n",
               verb.name, in_single_quotes(verb.about));
    for (const OptionNote& option : verb.options) {
      fmt::print(
          "complete -c sheaf -n '__fish_seen_subcommand_from {}' -l {}{} -d "
          "'{}'\n",
          verb.name, option.name.substr(2), option.value.empty() ? "" : " -r",
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
