// `sheaf probe`: short lists of equal make-up, to see growth over a year. Each
// form is a lesson file for `build`, `record` and `mark`.

#include <fmt/format.h>

#include <algorithm>

#include "base/options.h"
#include "base/shuffle.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/new_file.h"
#include "cli/planning_arguments.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "driver/planning_ground.h"
#include "driver/words_of_lessons.h"
#include "files/disk_files.h"
#include "files/output_files.h"
#include "planning/probe_words.h"

namespace sheaf {

namespace {

constexpr std::size_t kUsualWords = 12;
constexpr std::size_t kUsualForms = 8;

// What all forms were made from, for the head of each file.
struct ProbeSource {
  std::string sequence;  // as it was named
  std::string steps;     // "1 to 12"
  std::string seed;
  std::string accent;  // empty for the usual
};

char form_letter(std::size_t form) {
  return static_cast<char>('A' + static_cast<int>(form));
}

std::string words_text(const std::vector<ProbeWord>& words) {
  std::string text;
  for (const ProbeWord& word : words) {
    text += (text.empty() ? "" : " ") + word.word;
  }
  return text;
}

// A lesson is about a few patterns; these stand for all, spread over the steps.
std::vector<ProbeWord> words_for_lesson(std::vector<ProbeWord> words) {
  std::ranges::stable_sort(words, {}, &ProbeWord::step);
  std::vector<ProbeWord> firsts;
  for (const ProbeWord& word : words) {
    if (std::ranges::find(firsts, word.pattern, &ProbeWord::pattern) ==
        firsts.end()) {
      firsts.push_back(word);
    }
  }
  if (firsts.size() <= kMostLessonPatterns) return firsts;
  std::vector<ProbeWord> spread;
  for (std::size_t i = 0; i < kMostLessonPatterns; ++i) {
    spread.push_back(
        firsts[i * (firsts.size() - 1) / (kMostLessonPatterns - 1)]);
  }
  return spread;
}

std::string form_text(const ProbeForms& probe, std::size_t form,
                      const ProbeSource& source,
                      const PatternCatalogue& catalogue) {
  const std::vector<ProbeWord>& words = probe.forms[form];
  std::vector<std::string_view> names;
  const std::vector<ProbeWord> few = words_for_lesson(words);
  for (const ProbeWord& word : few) names.push_back(catalogue[word.pattern].id);
  return fmt::format(
      "# Form {} of {} to see growth: {} words, {} letter sequences, the same\n"
      "# in every form. Words of no lesson, for steps {} of {}\n"
      "# (seed {}). Written by `sheaf probe`. Give each form on another day "
      "and "
      "in\n# the same way; then `sheaf record` with --kind probe.\n"
      "sheaf: 1\ntitle: Form {}\n"
      "# Some of the patterns; the list has more.\npattern: [{}]\n"
      "layout: probe\nsequence: none\n{}words: {}\ndictate-words: {}\n",
      form_letter(form), probe.forms.size(), words.size(),
      probe.letter_sequences, source.steps, source.sequence, source.seed,
      form_letter(form), fmt::join(names, ", "),
      source.accent.empty() ? "" : fmt::format("accent: {}\n", source.accent),
      words_text(few), words_text(words));
}

// Whether as many words were found as were asked for; if not, says what to do.
bool has_enough(const ProbeForms& probe, const ProbeQuery& query) {
  const std::size_t found = probe.forms.front().size();
  if (found == query.words) return true;
  fmt::print(
      stderr,
      "sheaf probe: these steps have words for {} of {} places in each of {} "
      "forms, and no form may share a word with another or with a lesson; ask "
      "for fewer words with --count, fewer forms with --forms, or a later step "
      "with --step\n",
      found, query.words, query.forms);
  return false;
}

// The step up to which words are taken, as an index; -1 where there is none of
// that name, which is said.
int last_step(const SequenceFile& sequence, const std::string& wanted,
              const std::string& path) {
  if (wanted.empty()) return static_cast<int>(sequence.steps.size()) - 1;
  const SequenceStep* step = find_step(sequence, wanted);
  if (step != nullptr) return static_cast<int>(step - sequence.steps.data());
  fmt::print(stderr, "sheaf: {} has no step {}\n", printable(path),
             sheaf::quoted(wanted));
  return -1;
}

// All or none: half a set would not be told from a whole one.
std::vector<std::string> write_forms(const ProbeForms& probe,
                                     const ProbeSource& source,
                                     const FilePath& folder,
                                     const PatternCatalogue& catalogue) {
  const auto files = disk().write();
  std::vector<std::string> paths;
  for (std::size_t form = 0; form < probe.forms.size(); ++form) {
    const char letter = static_cast<char>('a' + static_cast<int>(form));
    const FilePath path = folder / fmt::format("probe-{}.yaml", letter);
    files->add_new(
        path, with_modeline(form_text(probe, form, source, catalogue), "lesson",
                            path));
    paths.push_back(path.string());
  }
  files->finish();
  return paths;
}

// A sequence that begins with teams takes the short vowels for known, and says
// so seldom.
SequenceFile with_short_vowels(const SequenceFile& sequence,
                               const Phonics& phonics) {
  SequenceFile known = sequence;
  for (const Pattern& pattern : phonics.patterns().all()) {
    if (!pattern.short_vowel) continue;
    const bool taught =
        std::ranges::any_of(sequence.steps, [&](const SequenceStep& step) {
          return std::ranges::any_of(
              step.patterns, [&](const PlacedWord& name) {
                const auto found = phonics.find_patterns(name.value);
                return std::ranges::any_of(found, [&](const PatternName& one) {
                  return one.meant &&
                         &phonics.patterns()[*one.meant] == &pattern;
                });
              });
        });
    if (taught) continue;
    PlacedWord name;
    name.value = std::string(pattern.id);
    known.taught.push_back(std::move(name));
  }
  return known;
}

std::uint64_t seed_number(const std::string& text) {
  const auto number = read_count(text);
  return number ? static_cast<std::uint64_t>(*number) : text_hash(text);
}

}  // namespace

int run_probe(const CommandLine& line) {
  Workspace workspace(disk(), shipped_folder());
  const CommandLine::Planning& planning = line.planning;
  const std::string& path = line.arguments.front();
  const FilePath home = FilePath(path).parent_path();
  Diagnostics diagnostics;
  const SequenceFile* sequence = workspace.sequence(path, diagnostics);
  print(diagnostics);
  if (sequence == nullptr) return kFaultsInFiles;
  const int step = last_step(*sequence, planning.step, path);
  if (step < 0) return kWrongCommandLine;
  ProbeSource source{
      .sequence = FilePath(path).filename().string(),
      .steps = fmt::format(
          "{} to {}", sequence->steps.front().number.value,
          sequence->steps[static_cast<std::size_t>(step)].number.value),
      .seed = planning.seed,
      .accent = line.accent.empty() ? sequence->accent.value : line.accent};
  // A name with a line break in it would end the remark.
  if (printable(source.sequence) != source.sequence) {
    source.sequence = "the sequence";
  }
  if (printable(source.seed) != source.seed) source.seed = "given";
  const auto conventions = accent_argument(source.accent);
  if (!conventions) return kWrongCommandLine;

  ProbeQuery query{.words = kUsualWords,
                   .forms = kUsualForms,
                   .seed = seed_number(planning.seed),
                   .leave_out = {}};
  if (planning.count > 0)
    query.words = static_cast<std::size_t>(planning.count);
  if (planning.forms > 0)
    query.forms = static_cast<std::size_t>(planning.forms);
  std::vector<std::string> lessons = planning.lessons;
  lessons.push_back(home.empty() ? "." : home.string());
  Diagnostics found;
  const Taught taught =
      taught_at(with_short_vowels(*sequence, workspace.phonics()), step,
                workspace.phonics(), found);
  add_words_of_lessons(workspace, lesson_request(line), lessons,
                       query.leave_out, found);
  print(found);
  if (found.has_errors()) return kFaultsInFiles;
  const BlockList own = own_block_list(workspace, "", home);
  const SearchGround ground{workspace.phonics(), *conventions, taught, &own,
                            has_clear_picture};
  const ProbeForms probe = probe_forms(ground, query);
  if (!has_enough(probe, query)) return kFaultsInFiles;

  const FilePath folder =
      planning.folder.empty() ? home / "probes" : FilePath(planning.folder);
  const std::vector<std::string> paths =
      write_forms(probe, source, folder, workspace.phonics().patterns());
  for (std::size_t form = 0; form < paths.size(); ++form) {
    fmt::print("{}: {}\n", printable(paths[form]),
               words_text(probe.forms[form]));
  }
  fmt::print(
      "{} forms of {} words and {} letter sequences; `sheaf build {}` prints "
      "one, and `sheaf record {} --class CLASS --date DAY --kind probe` writes "
      "its "
      "record form\n",
      paths.size(), query.words, probe.letter_sequences,
      printable(paths.front()), printable(paths.front()));
  return kDone;
}

}  // namespace sheaf
