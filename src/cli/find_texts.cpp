#include "cli/find_texts.h"

#include <fmt/format.h>

#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/json.h"
#include "cli/messages.h"
#include "cli/planning_arguments.h"
#include "planning/sentence_search.h"

namespace sheaf {

namespace {

constexpr std::size_t kUsualSentences = 8;
constexpr std::size_t kUsualPassages = 1;

std::optional<SentenceQuery> asked_for(const std::vector<PatternId>& patterns,
                                       const CommandLine& line,
                                       std::size_t usual) {
  SentenceQuery query;
  query.patterns = patterns;
  query.count = line.planning.count > 0
                    ? static_cast<std::size_t>(line.planning.count)
                    : usual;
  if (line.planning.passages) query.words = Range{};
  if (!line.planning.letters.empty()) {
    const auto words = range_argument(line.planning.letters, "--length");
    if (!words) return std::nullopt;
    query.words = *words;
  }
  const std::string& name = line.planning.readers;
  for (const Readers readers :
       {Readers::both, Readers::younger, Readers::older}) {
    if (name == readers_name(readers)) query.readers = readers;
  }
  if (!name.empty() && name != readers_name(query.readers)) {
    fmt::print(
        stderr,
        "sheaf find: `--readers` is younger, older or both, and you gave "
        "`{}`\n",
        printable(name));
    return std::nullopt;
  }
  return query;
}

// What would make a word readable: "boat (oa, step 41)".
std::string what_is_missing(const SearchGround& source,
                            const std::string& word) {
  const auto reading = source.phonics.first_reading(word, source.conventions);
  const WordStanding standing = source.taught.standing(*reading);
  if (standing.unit < 0) return word;
  std::string text = fmt::format(
      "{} ({}", word,
      reading->units[static_cast<std::size_t>(standing.unit)].grapheme);
  if (standing.step >= 0) {
    const auto& step =
        source.taught.steps()[static_cast<std::size_t>(standing.step)];
    text += ", " + step_name(step);
  }
  return text + ")";
}

std::string list_missing(const SearchGround& source,
                         const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) {
    text += (text.empty() ? "" : ", ");
    text += what_is_missing(source, word);
  }
  return text;
}

std::string names_of(const SearchGround& source,
                     const std::vector<PatternId>& patterns) {
  std::string text;
  for (const PatternId pattern : patterns) {
    if (!text.empty()) text += " or ";
    text += source.phonics.patterns()[pattern].name;
  }
  return text;
}

std::vector<std::string> ids_of(const SearchGround& source,
                                const std::vector<PatternId>& patterns) {
  std::vector<std::string> ids;
  for (const PatternId pattern : patterns) {
    ids.emplace_back(source.phonics.patterns()[pattern].id);
  }
  return ids;
}

void report_few_texts(const SearchGround& source,
                      const std::vector<PatternId>& patterns,
                      std::string_view what, std::size_t found,
                      std::size_t wanted, bool near) {
  if (found >= wanted) return;
  fmt::print(stderr, "sheaf: {} of the {} {} asked for {} found for {}{}{}\n",
             found, wanted, what, found == 1 ? "was" : "were",
             names_of(source, patterns),
             source.taught.known() ? " that can be read at this step" : "",
             near ? "; these have words that cannot be read yet. Teach what "
                    "stands in brackets first, or put the words among the "
                    "sight words:"
                  : "");
}

void print_passage(const FoundPassage& passage) {
  fmt::print("{}\n\n{}\n\n", passage.title, passage.text);
  for (const std::string& question : passage.questions) {
    fmt::print("? {}\n", question);
  }
  fmt::print("({} words, {} with the pattern)\n", passage.words,
             passage.pattern_words);
}

// What was found, and how many of it can be read wholly.
template <typename Text>
struct Found {
  std::vector<Text> texts;
  std::size_t readable = 0;
};

template <typename Text, typename Search>
Found<Text> found_with_near(SentenceQuery& query, Search search) {
  Found<Text> found{.texts = search(query)};
  found.readable = found.texts.size();
  if (found.readable < query.count) {
    query.near_ones = true;
    found.texts = search(query);
  }
  return found;
}

}  // namespace

int print_found_sentences(const SearchGround& source,
                          const std::vector<PatternId>& patterns,
                          const CommandLine& line,
                          const Diagnostics& diagnostics) {
  auto query = asked_for(patterns, line, kUsualSentences);
  if (!query) return kWrongCommandLine;
  const auto found = found_with_near<FoundSentence>(
      *query,
      [&](const SentenceQuery& q) { return find_sentences(source, q); });
  print(diagnostics);
  if (diagnostics.has_errors()) return kFaultsInFiles;
  if (line.json) {
    fmt::print("{}\n", sentences_json(ids_of(source, patterns), found.texts));
    return kDone;
  }
  for (std::size_t i = 0; i < found.texts.size(); ++i) {
    const FoundSentence& sentence = found.texts[i];
    if (i == found.readable) {
      std::fflush(stdout);
      report_few_texts(source, patterns, "sentences", found.readable,
                       query->count, true);
    }
    fmt::print(
        "{}{}{}\n", sentence.text, sentence.own ? "  (your own)" : "",
        sentence.not_yet.empty()
            ? ""
            : fmt::format("  [{}]", list_missing(source, sentence.not_yet)));
  }
  if (found.texts.size() == found.readable) {
    report_few_texts(source, patterns, "sentences", found.readable,
                     query->count, false);
  }
  return kDone;
}

int print_found_passages(const SearchGround& source,
                         const std::vector<PatternId>& patterns,
                         const CommandLine& line) {
  auto query = asked_for(patterns, line, kUsualPassages);
  if (!query) return kWrongCommandLine;
  const auto found = found_with_near<FoundPassage>(
      *query, [&](const SentenceQuery& q) { return find_passages(source, q); });
  if (line.json) {
    fmt::print("{}\n", passages_json(ids_of(source, patterns), found.texts));
    return kDone;
  }
  for (std::size_t i = 0; i < found.texts.size(); ++i) {
    if (i > 0) fmt::print("\n");
    const FoundPassage& passage = found.texts[i];
    if (i == found.readable) {
      std::fflush(stdout);
      report_few_texts(source, patterns, "passages", found.readable,
                       query->count, true);
    }
    print_passage(passage);
    if (!passage.not_yet.empty()) {
      fmt::print("[{}]\n", list_missing(source, passage.not_yet));
    }
  }
  if (found.texts.size() == found.readable) {
    report_few_texts(source, patterns, "passages", found.readable, query->count,
                     false);
  }
  return kDone;
}

}  // namespace sheaf
