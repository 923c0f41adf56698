// The verbs that list what there is, help, and show what is inside.

#include "cli/verb_options.h"

namespace sheaf {

namespace {

VerbOptions dump_verb(CommandLine& line) {
  VerbOptions dump{"dump",
                   "what passes between two stages, as text",
                   {{"STAGE and LESSON",
                     "lesson, words or pages, then a lesson file",
                     &line.arguments,
                     {.required = true, .values = {{1, 2}}}}}};
  append(dump.options, class_options(line));
  append(dump.options, layout_options(line));
  return dump;
}

}  // namespace

std::vector<VerbOptions> listing_verbs(CommandLine& line) {
  return {
      {"sheets", "the kinds of sheets and their options"},
      {"layouts", "the layouts that are found"},
      {"pictures",
       "the words that a picture stands for",
       {{"WORD", "these words only", &line.arguments},
        {"--pdf",
         "write a contact sheet of the pictures; a file that Sheaf did not "
         "make stays as it is",
         &line.pdf_file},
        paper_option(line)}},
      {"speech",
       "ways of speaking that a class file may name, and where each is "
       "described",
       {{"NAME", "one of them", &line.arguments, {.values = {{0, 1}}}}}},
      {"explain",
       "what a message means, with an example; without a name, all messages",
       {{"NAME", "the name in brackets at the end of a message",
         &line.arguments}}},
      {"schema",
       "a JSON Schema, with which editors check files",
       {{"KIND",
         "lesson, layout, class, sequence or record",
         &line.arguments,
         {.required = true, .values = {{1, 1}}}}}},
      {"manual", "the manual page, in the format of man"},
      {"completions",
       "completions for a shell",
       {{"SHELL",
         "bash, zsh or fish",
         &line.arguments,
         {.required = true, .values = {{1, 1}}}}}},
      dump_verb(line),
  };
}

}  // namespace sheaf
