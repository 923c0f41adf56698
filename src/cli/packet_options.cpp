// The verbs that make packets and look at lessons, words and patterns.

#include "cli/verb_options.h"
#include "preview/preview.h"

namespace sheaf {

namespace {

VerbOptions build_verb(CommandLine& line) {
  VerbOptions build{
      "build",
      "make the packet of each lesson as PDF files",
      {{"LESSON",
        "lesson files; of a folder, all lessons and classes in it whose pages "
        "are not up to date; with --class, one lesson for learners who have "
        "none of their own",
        &line.arguments},
       {"--out", "folder for the packets", &line.out, {.shows_default = true}},
       {"--deps",
        "write a dependency file for make; a file of another kind stays as it "
        "is",
        &line.dependency_file},
       {"--separate", "a PDF file for each sheet", &line.separate},
       {"--if-needed", "leave pages that are up to date, as for a folder",
        &line.if_needed}}};
  append(build.options, class_options(line));
  append(build.options, layout_options(line));
  build.options.push_back(jobs_option(line));
  return build;
}

VerbOptions watch_verb(CommandLine& line) {
  VerbOptions watch{
      "watch",
      "make the packets again whenever a file is saved",
      {{"LESSON",
        "lesson files or folders of them; with --class, at most one file",
        &line.arguments},
       {"--out", "folder for the packets", &line.out, {.shows_default = true}},
       {"--page",
        "show the pages of a lesson in a browser on this machine; they follow "
        "every save, and the address is printed",
        &line.page}}};
  append(watch.options, class_options(line));
  append(watch.options, layout_options(line));
  return watch;
}

VerbOptions lsp_verb(CommandLine& line) {
  VerbOptions lsp{"lsp",
                  "serve an editor that speaks the Language Server Protocol, "
                  "over standard input and output",
                  {}};
  append(lsp.options, layout_options(line));
  return lsp;
}

VerbOptions preview_verb(CommandLine& line) {
  return {
      "preview",
      "show a lesson's pages as a picture",
      {{"LESSON",
        "a lesson file",
        &line.arguments,
        {.required = true, .values = {{1, 1}}}},
       {"--sheet",
        "the pages of this sheet only (may be given again)",
        &line.only,
        {.commas = true, .one_at_a_time = true}},
       {"--page",
        "this page only, by its number (may be given again)",
        &line.preview.pages,
        {.commas = true, .one_at_a_time = true}},
       {"--dpi",
        "dots an inch: 96 for one page and 40 for several unless "
        "you say so; many pages are drawn smaller",
        &line.preview.dpi,
        {.range = {{kLeastDpi, kMostDpi}}}},
       {"--teacher", "the teacher's pages", &line.preview.teacher},
       {"--strip", "all in one row", &line.preview.strip},
       {"--out",
        "the PNG file to write; without it preview.png beside the packet in "
        "out/; a picture that Sheaf did not make stays as it is",
        &line.preview.file},
       {"--layout", "a layout's name or file instead of the lesson's own",
        &line.layout},
       paper_option(line),
       {"--allow", "another folder in which files named by a lesson may be",
        &line.allowed_folders}}};
}

VerbOptions check_verb(CommandLine& line) {
  VerbOptions check{"check",
                    "say what is in a lesson and what is wrong",
                    {{"FILE",
                      "lesson, class, sequence or record files",
                      &line.arguments,
                      {.required = true}}}};
  append(check.options, layout_options(line));
  check.options.push_back(
      {"--fix",
       "put right in the files what cannot be meant otherwise, and say what "
       "was done",
       &line.fix});
  check.options.push_back({"--json",
                           "a line of JSON for each file: messages with places "
                           "and fixes, words and sentences",
                           &line.json});
  check.options.push_back(jobs_option(line));
  return check;
}

}  // namespace

std::vector<VerbOptions> packet_verbs(CommandLine& line) {
  return {
      build_verb(line),
      watch_verb(line),
      lsp_verb(line),
      preview_verb(line),
      check_verb(line),
      {"word",
       "graphemes, sounds, boxes and patterns of words",
       {{"WORD", "words", &line.arguments, {.required = true}},
        json_option(line),
        accent_option(line),
        {"--count", "as-spoken or as-taught", &line.count},
        {"--notation", "how sounds are written: plain, marks or ipa",
         &line.notation}}},
      {"patterns",
       "the spelling patterns that Sheaf knows",
       {{"NAME",
         "a pattern to explain",
         &line.arguments,
         {.values = {{0, 1}}}}}},
  };
}

}  // namespace sheaf
