// `sheaf find`: words to teach a pattern with.

#include <fmt/format.h>

#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/find_texts.h"
#include "cli/json.h"
#include "cli/messages.h"
#include "cli/planning_arguments.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "driver/planning_ground.h"
#include "driver/workspace.h"
#include "files/disk_files.h"
#include "input/file_kind.h"
#include "phonics/explain.h"
#include "planning/contrast.h"
#include "planning/pseudo_words.h"

namespace sheaf {

namespace {

constexpr std::size_t kUsualCount = 12;

// All words of a lesson, also those that Sheaf chose for it, to be left out.
bool add_lesson_words(Workspace& workspace, const CommandLine& line,
                      const std::string& path,
                      std::set<std::string, std::less<>>& words) {
  const SourceFile& file = workspace.open(path);
  // So that a whole folder can be named.
  const auto kind = kind_of(file);
  if (kind && kind != FileKind::lesson) return true;
  Diagnostics diagnostics;
  Lesson lesson = read_lesson(file, diagnostics);
  std::unique_ptr<Phonics> own;
  if (!diagnostics.has_errors()) {
    own = workspace.phonics_with_own(lesson, diagnostics);
  }
  AnalyzedLesson analyzed;
  if (!diagnostics.has_errors()) {
    analyzed = plan_lesson(workspace, lesson_request(line),
                           FilePath(path).parent_path(), lesson,
                           own ? *own : workspace.phonics(), has_clear_picture,
                           diagnostics)
                   .analyzed;
  }
  if (diagnostics.has_errors()) {
    print(diagnostics);
    return false;
  }
  for (const auto* list : {&lesson.words, &lesson.dictate_words}) {
    for (const LessonWord& word : *list) {
      words.insert(lower_case(word.spelling.value));
    }
  }
  for (const auto* sentences :
       {&analyzed.sentences, &analyzed.dictate_sentences}) {
    for (const AnalyzedSentence& sentence : *sentences) {
      for (const AnalyzedSentence::Part& part : sentence.words) {
        words.insert(lower_case(part.word.reading.word));
      }
    }
  }
  return true;
}

// The other word of the pair that a word is in, or nothing.
std::string partner(const std::vector<SoundPair>& pairs,
                    const std::string& word) {
  for (const SoundPair& pair : pairs) {
    if (pair.first == word) return pair.second;
    if (pair.second == word) return pair.first;
  }
  return {};
}

std::string remarks(const FoundWord& word,
                    const std::vector<SoundPair>& pairs) {
  std::string text = word.picture ? "picture" : "";
  const auto add = [&](const std::string& remark) {
    text += (text.empty() ? "" : ", ") + remark;
  };
  const std::string other = partner(pairs, word.reading->word);
  if (!other.empty()) add("beside " + other);
  if (word.fit == ContrastFit::breaks) add("an exception");
  if (word.older) add("for later");
  return text;
}

void print_found(const std::vector<FoundWord>& words,
                 const std::vector<SoundPair>& pairs,
                 const Conventions& conventions) {
  std::size_t widest = 0;
  for (const FoundWord& w : words) {
    widest = std::max(widest, w.reading->word.size());
  }
  for (const FoundWord& w : words) {
    fmt::print("{:<{}}  {:<18} {:<26} {}\n", w.reading->word, widest,
               graphemes_text(*w.reading), sounds_text(*w.reading, conventions),
               remarks(w, pairs));
  }
}

constexpr std::size_t kFewWords = 10;

// What a search asks for besides the pattern, as the end of a sentence.
std::string limits_text(const SearchGround& source, const WordQuery& query) {
  const Range any;
  const bool limited =
      query.pictures_only || !query.leave_out.empty() ||
      !query.without.empty() || query.syllables.least != any.least ||
      query.syllables.most != any.most || query.letters.least != any.least ||
      query.letters.most != any.most;
  return std::string(limited ? " with these limits" : "") +
         (source.taught.known() ? " that can be read at this step" : "");
}

// Says where a pattern has few words, and where fewer were found than asked
// for.
void report_few(const Pattern& pattern, const SearchGround& source,
                const WordQuery& query, std::size_t found) {
  const std::string limits = limits_text(source, query);
  const std::size_t good = good_words(source, query, kFewWords);
  if (good < kFewWords) {
    const std::string count = good == 0 ? "are no good words"
                              : good == 1
                                  ? "is only one good word"
                                  : fmt::format("are only {} good words", good);
    fmt::print(stderr,
               "sheaf: there {} for {}{}: words that most children of seven to "
               "nine know and that show it plainly{}\n",
               count, pattern.name, limits,
               query.older ? "" : "; `--older` adds words for older learners");
  } else if (found < query.count) {
    fmt::print(stderr,
               "sheaf: {} of the {} words asked for were found for {}{}\n",
               found, query.count, pattern.name, limits);
  }
}

int print_pseudo(const SearchGround& source, PatternId pattern,
                 std::size_t count, bool json) {
  const auto words = pseudo_words(source, pattern, count);
  const Pattern& p = source.phonics.patterns()[pattern];
  if (json) {
    std::vector<FoundJson> list;
    for (const PseudoWord& w : words) list.push_back({w.word});
    fmt::print("{}\n", found_json(p.id, list));
    return kDone;
  }
  if (words.empty()) {
    fmt::print(
        stderr,
        "sheaf: no word could be made up for {}; Sheaf makes up words only for "
        "patterns that fit in one syllable and are read in one way\n",
        p.name);
  } else if (words.size() < std::min(count, kFewWords)) {
    fmt::print(stderr, "sheaf: only {} word{} could be made up for {}\n",
               words.size(), words.size() == 1 ? "" : "s", p.name);
  }
  for (const PseudoWord& w : words) {
    std::string graphemes;
    for (const Unit& unit : w.units) {
      graphemes += (graphemes.empty() ? "" : " ") + unit.grapheme;
    }
    fmt::print("{:<8} {}\n", w.word, graphemes);
  }
  return kDone;
}

std::string as_json(const Pattern& pattern, const std::vector<FoundWord>& words,
                    const std::vector<SoundPair>& pairs,
                    const Conventions& conventions) {
  std::vector<FoundJson> list;
  for (const FoundWord& w : words) {
    list.push_back({w.reading->word, graphemes_text(*w.reading),
                    sounds_text(*w.reading, conventions), w.picture,
                    partner(pairs, w.reading->word),
                    w.fit == ContrastFit::breaks});
  }
  return found_json(pattern.id, list);
}

// The pattern, and the one to tell it apart from if there is any.
std::optional<std::vector<PatternId>> wanted_patterns(const CommandLine& line,
                                                      const Phonics& phonics) {
  auto patterns = pattern_arguments(line.arguments.front(), phonics);
  if (patterns && !line.planning.contrast.empty()) {
    const auto others = pattern_arguments(line.planning.contrast, phonics);
    if (!others) return std::nullopt;
    patterns->insert(patterns->end(), others->begin(), others->end());
  }
  if (!patterns || patterns->size() <= 2) return patterns;
  fmt::print(stderr,
             "sheaf find: this takes two patterns to tell apart, and you gave "
             "{}; `sheaf draft` takes up to four\n",
             patterns->size());
  return std::nullopt;
}

}  // namespace

int run_find(const CommandLine& line) {
  Workspace workspace(disk(), shipped_folder());
  const CommandLine::Planning& planning = line.planning;
  const Phonics& phonics = workspace.phonics();
  const auto wanted = wanted_patterns(line, phonics);
  const auto syllables = range_argument(planning.syllables, "--syllables");
  const auto letters = range_argument(planning.letters, "--length");
  if (!wanted || !syllables || !letters) return kWrongCommandLine;
  const PatternId pattern = wanted->front();
  const auto taught = taught_argument(workspace, planning);
  if (!taught) return kFaultsInFiles;
  const BlockList own = own_block_list(workspace, planning.file, "");
  const auto spoken = accent_argument(line.accent);
  if (!spoken) return kWrongCommandLine;
  const Conventions& conventions = *spoken;

  WordQuery query;
  query.pattern = pattern;
  query.count = planning.count > 0 ? static_cast<std::size_t>(planning.count)
                                   : kUsualCount;
  query.syllables = *syllables;
  query.letters = *letters;
  query.pictures_only = planning.pictures;
  query.first_set = !planning.later_set && planning.lessons.empty();
  query.older = planning.older;
  for (const std::string& lesson : planning.lessons) {
    if (!add_lesson_words(workspace, line, lesson, query.leave_out)) {
      return kFaultsInFiles;
    }
  }
  Diagnostics diagnostics;
  const SearchGround source{
      phonics,
      conventions,
      *taught,
      &own,
      has_clear_picture,
      own_sentences(workspace, planning.own, "", diagnostics)};
  if (planning.sentences) {
    return print_found_sentences(source, *wanted, line, diagnostics);
  }
  if (planning.passages) return print_found_passages(source, *wanted, line);
  const Pattern& own_pattern = phonics.patterns()[pattern];
  if (planning.pseudo) {
    return print_pseudo(source, pattern, query.count, line.json);
  }
  std::optional<PatternId> contrast;
  if (wanted->size() > 1) {
    contrast = wanted->back();
    query.without.push_back(*contrast);
  }
  std::vector<SoundPair> pairs;
  if (contrast) {
    pairs = contrast_pairs(source, query, *contrast);
    query.prefer = words_of(pairs);
  }
  const auto show = [&](const Pattern& p) {
    const auto words = find_words(source, query);
    if (line.json) {
      fmt::print("{}\n", as_json(p, words, pairs, conventions));
      return;
    }
    if (contrast) fmt::print("{}\n", p.name);
    print_found(words, pairs, conventions);
    report_few(p, source, query, words.size());
  };
  show(own_pattern);
  if (contrast) {
    query.pattern = *contrast;
    query.without = {pattern};
    show(phonics.patterns()[*contrast]);
  }
  return kDone;
}

}  // namespace sheaf
