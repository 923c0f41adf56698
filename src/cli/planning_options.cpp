// The verbs that look for words and write lesson files.

#include "cli/verb_options.h"

namespace sheaf {

namespace {

VerbOption sequence_option(CommandLine::Planning& planning) {
  return {"--sequence", "the sequence file; else sequence.yaml in this folder",
          &planning.sequence};
}

VerbOption step_option(CommandLine::Planning& planning) {
  return {"--step", "a step's number or name", &planning.step};
}

VerbOptions find_verb(CommandLine& line) {
  CommandLine::Planning& planning = line.planning;
  return {
      "find",
      "words to teach a pattern with",
      {{"PATTERN",
        "a pattern",
        &line.arguments,
        {.required = true, .values = {{1, 1}}}},
       {"--count", "how many words", &planning.count, {.range = {{1, 200}}}},
       sequence_option(planning),
       step_option(planning),
       {"--syllables", "how many syllables, as in 1 or 1-2",
        &planning.syllables},
       {"--length", "how many letters, as in 4 or 3-5", &planning.letters},
       {"--pictures", "only words that have a clear picture",
        &planning.pictures},
       accent_option(line),
       {"--later", "for a later set: the pattern in any place",
        &planning.later_set},
       {"--older", "also words that only older learners know, after the rest",
        &planning.older},
       {"--contrast", "a second pattern to tell apart from the first",
        &planning.contrast},
       {"--transfer", "words that none of these lessons uses",
        &planning.lessons},
       {"--pseudo", "made-up words to read", &planning.pseudo},
       {"--sentences",
        "sentences instead of words, readable at this step; `--length` counts "
        "words",
        &planning.sentences},
       {"--passages",
        "short passages instead of words; `--length` counts words",
        &planning.passages},
       {"--readers", "for younger, older or both: sentences and passages",
        &planning.readers},
       {"--own",
        "your own sentences, searched before Sheaf's; else sentences.txt in "
        "this folder",
        &planning.own},
       {"--block",
        "a list of words not to suggest; else blocked-words.txt in this "
        "folder",
        &planning.file},
       json_option(line)}};
}

VerbOptions draft_verb(CommandLine& line) {
  CommandLine::Planning& planning = line.planning;
  return {"draft",
          "write a lesson file to start from",
          {{"PATTERN",
            "up to four patterns; else those of the step",
            &line.arguments,
            {.values = {{0, 4}}}},
           sequence_option(planning),
           step_option(planning),
           {"--file",
            "the file to write; else named after the pattern. A file that is "
            "there stays as it is",
            &planning.file}}};
}

VerbOptions placement_verb(CommandLine& line) {
  return {"placement",
          "a check of where in a sequence a new learner begins",
          {{"SEQUENCE",
            "a sequence file; no word of the lessons beside it is used",
            &line.arguments,
            {.required = true, .values = {{1, 1}}}},
           {"--file",
            "the file to write; else placement.yaml beside the sequence. A "
            "file that is there stays as it is",
            &line.planning.file}}};
}

VerbOptions settle_verb(CommandLine& line) {
  return {"settle",
          "a lesson with every choice written out, ready to send",
          {{"LESSON",
            "a lesson file",
            &line.arguments,
            {.required = true, .values = {{1, 1}}}},
           {"--file",
            "the file to write; else NAME-settled.yaml beside the lesson. A "
            "file that is there stays as it is",
            &line.planning.file},
           {"--layout", "a layout's name or file instead of the lesson's own",
            &line.layout},
           {"--allow",
            "another folder in which files named by a lesson may be",
            &line.allowed_folders,
            {.one_at_a_time = true}}}};
}

VerbOptions block_verb(CommandLine& line) {
  return {
      "block",
      "words that are not to be suggested",
      {{"WORD", "words", &line.arguments, {.required = true}},
       {"--file",
        "the list to add them to; else blocked-words.txt in this folder. "
        "Nothing else in it changes, and a file of another kind stays as "
        "it is",
        &line.planning.file},
       {"--rude", "rude words: made-up words are not to be like them either",
        &line.planning.rude}}};
}

VerbOptions keep_verb(CommandLine& line) {
  return {"keep",
          "add a lesson's own sentences to your sentences.txt",
          {{"LESSON", "lesson files", &line.arguments, {.required = true}},
           {"--to",
            "the file to add them to; else sentences.txt beside each lesson. "
            "What is in it stays as it is",
            &line.planning.file},
           {"--allow",
            "another folder in which files named by a lesson may be",
            &line.allowed_folders,
            {.one_at_a_time = true}}}};
}

VerbOptions probe_verb(CommandLine& line) {
  CommandLine::Planning& planning = line.planning;
  return {
      "probe",
      "short lists of equal make-up, to see growth over a year",
      {{"SEQUENCE",
        "the sequence file",
        &line.arguments,
        {.required = true, .values = {{1, 1}}}},
       {"--step", "the last step that words are taken from; else all",
        &planning.step},
       {"--count",
        "words in each form; else 12",
        &planning.count,
        {.range = {{6, 30}}}},
       {"--forms",
        "how many forms, no two of which share a word; else 8",
        &planning.forms,
        {.range = {{1, 26}}}},
       {"--seed",
        "another seed gives other words",
        &planning.seed,
        {.shows_default = true}},
       {"--lessons",
        "lessons, or folders of them, whose words are left out besides those "
        "beside the sequence (may be given again)",
        &planning.lessons,
        {.one_at_a_time = true}},
       {"--out",
        "folder for the forms; else probes beside the sequence. Forms that are "
        "there stay as they are",
        &planning.folder},
       accent_option(line)}};
}

}  // namespace

std::vector<VerbOptions> planning_verbs(CommandLine& line) {
  return {find_verb(line),     draft_verb(line), settle_verb(line),
          block_verb(line),    keep_verb(line),  probe_verb(line),
          placement_verb(line)};
}

}  // namespace sheaf
