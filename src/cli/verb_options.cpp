// What the verbs take, without the library that reads it.

#include "cli/verb_options.h"

#include <fmt/format.h>

#include "input/learner_code.h"

namespace sheaf {

std::string fault_of_value(OptionForm::Check check, const std::string& value) {
  switch (check) {
    case OptionForm::Check::none:
      break;
    case OptionForm::Check::paper:
      if (value == "letter" || value == "a4") break;
      return "choose `letter` or `a4`, not `" + value + "`";
    case OptionForm::Check::code:
      // What is not a code could be a name, and is not repeated.
      if (is_learner_code(value)) break;
      return fmt::format("this is not a learner's code: a code has {}",
                         kLearnerCodeForm);
  }
  return {};
}

void append(OptionList& list, const OptionList& more) {
  list.insert(list.end(), more.begin(), more.end());
}

VerbOption jobs_option(CommandLine& line) {
  return {"--jobs",
          "how many at once; else one per core",
          &line.jobs,
          {.range = {{1, 256}}}};
}

VerbOption paper_option(CommandLine& line) {
  return {"--paper",
          "letter or a4",
          &line.paper,
          {.check = OptionForm::Check::paper}};
}

VerbOption accent_option(CommandLine& line) {
  return {"--accent", "general-american, british, scottish or australian",
          &line.accent};
}

VerbOption json_option(CommandLine& line) {
  return {"--json", "as JSON", &line.json};
}

OptionList layout_options(CommandLine& line) {
  return {
      {"--layout", "a layout's name or file instead of the lesson's own",
       &line.layout},
      paper_option(line),
      {"--only",
       "make these sheets only (may be given again)",
       &line.only,
       {.commas = true}},
      {"--allow", "another folder in which files named by a lesson may be",
       &line.allowed_folders},
  };
}

OptionList class_options(CommandLine& line) {
  return {
      {"--class", "a class file: the learners with their settings",
       &line.class_file},
      {"--learner",
       "these learners of the class only (may be given again)",
       &line.learners,
       {.commas = true, .check = OptionForm::Check::code}},
      {"--records",
       "a folder of the class's records: the sheet card-piles proposes cards "
       "by how it went",
       &line.marking.records},
  };
}

std::vector<VerbOptions> all_verbs(CommandLine& line) {
  std::vector<VerbOptions> all;
  for (const auto& part : {packet_verbs(line), planning_verbs(line),
                           marking_verbs(line), listing_verbs(line)}) {
    all.insert(all.end(), part.begin(), part.end());
  }
  return all;
}

}  // namespace sheaf
