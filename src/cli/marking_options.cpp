// The verbs that work with records of what learners wrote.

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>

#include "cli/verb_options.h"
#include "marking/growth.h"
#include "marking/progress_rules.h"

namespace sheaf {

namespace {

// How a learner speaks.
OptionList speech_options(CommandLine& line) {
  return {accent_option(line),
          {"--confuses",
           "two sounds that the learner does not tell apart, as in th/f (may "
           "be given again)",
           &line.marking.confusions,
           {.commas = true, .one_at_a_time = true}},
          {"--speech",
           "a way of speaking that `sheaf speech` lists, as in no-ed (may be "
           "given again)",
           &line.marking.speech,
           {.commas = true, .one_at_a_time = true}}};
}

OptionList record_files(CommandLine& line, bool required) {
  return {{"RECORD",
           "record files, or folders of them",
           &line.arguments,
           {.required = required}},
          {"--learner",
           "these learners only (may be given again)",
           &line.marking.learners,
           {.commas = true,
            .one_at_a_time = true,
            .check = OptionForm::Check::code}},
          {"--allow", "another folder in which lessons and classes may be",
           &line.allowed_folders}};
}

VerbOption rule_option(CommandLine& line) {
  return {"--rule",
          "when a pattern counts as learned, as in secure-days=4 (may be given "
          "again); all are named below",
          &line.marking.rules,
          {.one_at_a_time = true}};
}

// Lines of a terminal's width, all but the first further in.
std::string wrapped(std::string_view text, std::string_view first) {
  constexpr std::size_t kWidth = 78;
  std::string lines(first);
  std::size_t used = lines.size();
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    if (used + 1 + end > kWidth) {
      lines += "\n   ";
      used = 3;
    }
    lines.append(" ").append(text.substr(0, end));
    used += 1 + end;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines + "\n";
}

// What the states of a pattern ask for, and what of it can be set.
std::string rules_below() {
  std::string text = "When a pattern counts as learned:\n";
  for (const RuleText& rule : rule_texts({})) {
    text += wrapped(rule.text, fmt::format("  {}:", rule.name));
  }
  text += "What --rule sets, and how it comes:\n";
  for (const OptionSpec& rule : progress_option_table()) {
    text +=
        fmt::format("  {:<22} {}\n",
                    fmt::format("{}={}", rule.name, rule.fallback), rule.help);
  }
  return text;
}

// What the probes of `progress` are held against.
std::string growth_below() {
  std::string text = "What probes say:\n";
  for (const RuleText& rule : growth_rule_texts()) {
    text += wrapped(rule.text, fmt::format("  {}:", rule.name));
  }
  return text;
}

VerbOption pdf_option(CommandLine& line) {
  return {
      "--pdf",
      "write a PDF file as well; a file that Sheaf did not make stays as it is",
      &line.marking.pdf};
}

// Of a report: the layout of a lesson has no part in it.
VerbOption report_paper(CommandLine& line) {
  return {"--paper", "letter or a4", &line.paper};
}

VerbOptions record_verb(CommandLine& line) {
  CommandLine::Marking& marking = line.marking;
  return {
      "record",
      "write a form for what learners wrote, ready to fill",
      {{"LESSON",
        "the lesson",
        &line.arguments,
        {.required = true, .values = {{1, 1}}}},
       {"--class", "the class file", &marking.class_file, {.required = true}},
       {"--group", "this group of the class only", &marking.group},
       {"--date", "the day of the writing, as in 2026-03-12; it must be given",
        &marking.date},
       {"--kind",
        "dictation, transfer, retention, writing or probe; else dictation, or "
        "probe for a form of one",
        &marking.kind},
       {"--records", "the folder for it; else records beside the class file",
        &marking.records},
       {"--enter",
        "type the errors now, a line a learner, and see each marked; reads "
        "standard input",
        &marking.enter}}};
}

VerbOptions mark_verb(CommandLine& line) {
  CommandLine::Marking& marking = line.marking;
  VerbOptions mark{"mark", "mark what learners wrote, grapheme by grapheme",
                   record_files(line, false)};
  append(mark.options,
         {{"--pairs",
           "instead of records: a file with a target, a tab and an attempt on "
           "each line; - reads them from standard input",
           &marking.pairs},
          {"--csv", "as a table for a spreadsheet", &marking.csv},
          json_option(line),
          pdf_option(line),
          report_paper(line),
          jobs_option(line)});
  append(mark.options, speech_options(line));
  return mark;
}

VerbOptions writing_verb(CommandLine& line) {
  CommandLine::Marking& marking = line.marking;
  VerbOptions writing{
      "writing",
      "find taught patterns and misspelled words in a learner's own text",
      {{"FILE",
        "the text, typed in; - reads it from standard input",
        &line.arguments,
        {.required = true, .values = {{1, 1}}}},
       {"--sequence", "the sequence file", &marking.sequence},
       {"--step", "the last step taught; else the whole sequence",
        &marking.step},
       {"--taught",
        "patterns taught, instead of a sequence",
        &marking.taught,
        {.commas = true, .one_at_a_time = true}},
       {"--learner",
        "whose text it is",
        &marking.learners,
        {.commas = true, .values = {{1, 1}}, .check = OptionForm::Check::code}},
       json_option(line)}};
  append(writing.options, speech_options(line));
  return writing;
}

VerbOptions progress_verb(CommandLine& line) {
  VerbOptions progress{"progress", "how each learner is doing, over the weeks",
                       record_files(line, true)};
  append(
      progress.options,
      {rule_option(line),
       {"--date",
        "the day that it is for, as in 2026-03-12: later records are left "
        "out; else the day of the last record",
        &line.marking.date},
       {"--for",
        "whom the pages are for: teacher, home (one learner a page, in plain "
        "words) or meeting (states, and examples of errors with their "
        "dates); else teacher",
        &line.marking.reader},
       {"--goal-date",
        "the day by which the goal of the probes is to be reached; else "
        "that of the class file",
        &line.marking.goal_date},
       {"--goal",
        "letter sequences of a probe to reach by then; else `goal:` of the "
        "learner in the class file, else by --rate",
        &line.marking.goal,
        {.range = {{1, 999}}}},
       {"--rate",
        "letter sequences a week that the goal line rises by",
        &line.marking.rate,
        {.shows_default = true}},
       {"--csv", "as a table for a spreadsheet", &line.marking.csv},
       json_option(line),
       pdf_option(line),
       report_paper(line)});
  append(progress.options, speech_options(line));
  progress.more = rules_below() + growth_below();
  return progress;
}

VerbOptions review_verb(CommandLine& line) {
  CommandLine::Marking& marking = line.marking;
  VerbOptions review{
      "review",
      "what each learner should come back to, and when",
      {{"--class", "the class file", &marking.class_file, {.required = true}},
       {"--records",
        "the folder of records",
        &marking.records,
        {.required = true}},
       {"--week", "the week's first day", &marking.date, {.required = true}},
       {"--out",
        "folder for the files that it writes; else the class file's own. A "
        "file that `review` did not write stays as it is",
        &marking.out},
       rule_option(line),
       {"--allow", "another folder in which lessons and classes may be",
        &line.allowed_folders}}};
  append(review.options, speech_options(line));
  review.more = rules_below();
  return review;
}

VerbOptions week_verb(CommandLine& line) {
  CommandLine::Marking& marking = line.marking;
  VerbOptions week{
      "week",
      "go on, stay or split: what each group does next",
      {{"FOLDER",
        "the folder of the class file and the records",
        &line.arguments,
        {.required = true, .values = {{1, 1}}}},
       {"--class", "the class file; else class.yaml in the folder",
        &marking.class_file},
       {"--records", "the folder of records; else records in the folder",
        &marking.records},
       {"--decide",
        "what you decide for a group, as in Red=stay (go-on, stay, split)",
        &marking.decisions,
        {.one_at_a_time = true}},
       {"--yes",
        "write the lessons into the class file; without this it only shows",
        &marking.yes},
       {"--pdf",
        "a PDF file for the week on one page: what to print, what to cut, what "
        "comes new on which day, which review cards go in and out, by the "
        "class file as it is then",
        &marking.pdf},
       {"--allow", "another folder in which lessons and classes may be",
        &line.allowed_folders}}};
  append(week.options, speech_options(line));
  return week;
}

VerbOptions place_verb(CommandLine& line) {
  VerbOptions place{
      "place", "where learners begin, by what they wrote in a placement check",
      record_files(line, true)};
  append(place.options, {json_option(line), jobs_option(line)});
  append(place.options, speech_options(line));
  return place;
}

VerbOptions forget_verb(CommandLine& line) {
  CommandLine::Marking& marking = line.marking;
  return {"forget",
          "take a learner out of records and outputs",
          {{"CODE",
            "the learner's code",
            &line.arguments,
            {.required = true, .values = {{1, 1}}}},
           {"--records",
            "the folder of records, with all folders in it, or one record; "
            "else records",
            &marking.records},
           {"--class", "a class file as well, with the files beside it",
            &marking.class_file},
           {"--out",
            "the folder of packets; only what Sheaf made there is deleted",
            &line.out,
            {.shows_default = true}},
           {"--yes", "do it; without this it only shows what it would change",
            &marking.yes}}};
}

}  // namespace

std::vector<VerbOptions> marking_verbs(CommandLine& line) {
  return {record_verb(line),   mark_verb(line),   writing_verb(line),
          progress_verb(line), review_verb(line), week_verb(line),
          place_verb(line),    forget_verb(line)};
}

}  // namespace sheaf
