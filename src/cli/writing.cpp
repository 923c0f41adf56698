// `sheaf writing`: taught patterns and misspelled words in a learner's own
// text.

#include <fmt/format.h>

#include <algorithm>

#include "analysis/pattern_names.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/json.h"
#include "cli/messages.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "cli/writing_report.h"
#include "driver/marking_desk.h"
#include "files/disk_files.h"
#include "files/surroundings.h"
#include "input/raw_text.h"
#include "input/sequence.h"
#include "marking/free_writing.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

constexpr std::size_t kLargestText = std::size_t{1} << 20U;
// More than a learner writes in a term; each word that is unknown is
// looked for among all words.
constexpr std::size_t kMostTextWords = 2500;

// Adds a pattern by its name; reports one that is unknown or several.
void add_patterns(const std::vector<PlacedWord>& names, const Phonics& phonics,
                  std::vector<PatternId>& taught, Diagnostics& diagnostics) {
  for (const NamedPattern& named : find_patterns(names, phonics, diagnostics)) {
    if (std::ranges::find(taught, named.id) == taught.end()) {
      taught.push_back(named.id);
    }
  }
}

void add_sight_words(std::span<const PlacedWord> words, SightWords& known) {
  for (const PlacedWord& word : words) known.insert(lower_case(word.value));
}

// What was taught up to the step, by the sequence.
void add_sequence(Workspace& workspace, const CommandLine& line,
                  const Phonics& phonics, std::vector<PatternId>& taught,
                  SightWords& sight_words, Diagnostics& diagnostics) {
  const SequenceFile sequence =
      read_sequence(workspace.open(line.marking.sequence), diagnostics);
  if (diagnostics.has_errors()) return;
  const std::string& wanted = line.marking.step;
  const SequenceStep* last =
      wanted.empty() ? nullptr : find_step(sequence, wanted);
  if (!wanted.empty() && last == nullptr) {
    diagnostics.error(
        diagnostic::wrong_value, {},
        fmt::format("there is no step {} in {}", sheaf::quoted(wanted),
                    printable(line.marking.sequence)),
        "write a step's number or name after --step");
    return;
  }
  add_patterns(sequence.taught, phonics, taught, diagnostics);
  add_sight_words(sequence.sight_words, sight_words);
  for (const SequenceStep& step : sequence.steps) {
    add_patterns(step.patterns, phonics, taught, diagnostics);
    add_sight_words(step.sight_words, sight_words);
    if (&step == last) break;
  }
}

// Whether the text can be read at all, and in a bearable time.
bool is_readable(const SourceFile& file, Diagnostics& diagnostics) {
  if (!check_plain_text(file, kLargestText, diagnostics)) return false;
  const RunningText text = read_running_text(file.text());
  if (text.words.size() <= kMostTextWords) return true;
  const TextWord& first = text.words[kMostTextWords];
  diagnostics.error(
      diagnostic::too_many,
      {&file, static_cast<std::uint32_t>(first.begin),
       static_cast<std::uint32_t>(first.end)},
      fmt::format("the text has more than {} words before this one",
                  kMostTextWords),
      "split it into several texts");
  return false;
}

void report_unread(const FreeWriting& writing, const SourceFile& file,
                   Diagnostics& diagnostics) {
  for (const RunningText::Place& place : writing.text.unread) {
    diagnostics.warning(
        diagnostic::unread_answer,
        {&file, static_cast<std::uint32_t>(place.begin),
         static_cast<std::uint32_t>(place.end)},
        "these braces say nothing about a word",
        "put them directly after a word: `{=ship}` if ship was meant, "
        "`{-shop}` if shop was not, `{-}` to leave the word alone");
  }
}

}  // namespace

int run_writing(const CommandLine& line) {
  if (line.marking.sequence.empty() == line.marking.taught.empty()) {
    fmt::print(stderr,
               "sheaf writing: this needs what was taught: a sequence after "
               "--sequence, or patterns after --taught\n");
    return kWrongCommandLine;
  }
  Workspace workspace(disk(), shipped_folder());
  std::vector<std::string> faults;
  MarkingDesk desk(workspace, marking_request(line), faults);
  if (!print_faults(faults)) return kWrongCommandLine;
  const PatternCatalogue& catalogue = desk.phonics().patterns();
  Diagnostics diagnostics;
  std::vector<PatternId> taught;
  SightWords sight_words;
  for (const std::string& name : line.marking.taught) {
    add_patterns({{name, {}}}, desk.phonics(), taught, diagnostics);
  }
  if (!line.marking.sequence.empty()) {
    add_sequence(workspace, line, desk.phonics(), taught, sight_words,
                 diagnostics);
  }
  if (diagnostics.has_errors()) {
    print(diagnostics);
    return kFaultsInFiles;
  }
  const std::string& path = line.arguments.front();
  const bool typed = path == "-";
  const SourceFile file(typed ? "standard input" : path,
                        typed ? read_standard_input(kLargestText)
                              : disk().read(path, kLargestText));
  file.keep_private();
  if (!is_readable(file, diagnostics)) {
    print(diagnostics);
    return kFaultsInFiles;
  }
  const std::vector<ListedWord> words = listed_words(desk.lexicon());
  const WordIndex index(WordSource{words, &desk.lexicon().inventory()},
                        desk.spellings());
  const FreeWriting writing =
      read_free_writing(file.text(), taught,
                        WritingGround{desk.phonics(), desk.spellings(), index,
                                      desk.options(), std::move(sight_words)});
  report_unread(writing, file, diagnostics);
  print(diagnostics);
  const std::string learner =
      line.marking.learners.empty() ? "" : line.marking.learners.front();
  if (line.json) {
    fmt::print("{}\n", writing_json(writing, catalogue, file, learner));
  } else {
    fmt::print("{}{}\n", writing_text(writing, catalogue, learner),
               kScoreCaution);
  }
  return kDone;
}

}  // namespace sheaf
