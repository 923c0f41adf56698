// `sheaf word`: graphemes, sounds, boxes and patterns of words, and why.

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/utf8.h"
#include "base/value.h"
#include "cli/exit_codes.h"
#include "cli/json.h"
#include "cli/verbs.h"
#include "driver/workspace.h"
#include "files/disk_files.h"
#include "phonics/division.h"
#include "phonics/explain.h"
#include "phonics/notation.h"
#include "planning/block_list.h"

namespace sheaf {

namespace {

// The graphemes that say here what they seldom say: "ai says /e/".
std::string irregular_text(const Reading& reading,
                           const Conventions& conventions) {
  std::string text;
  for (const Unit& unit : reading.units) {
    if (!unit.irregular) continue;
    text += fmt::format("{}{} says /{}/", text.empty() ? "" : ", ",
                        unit.grapheme, sound_name(unit.phonemes, conventions));
  }
  return text;
}

void print_reading(const Phonics& phonics, const Reading& reading,
                   const Conventions& conventions) {
  std::string patterns;
  for (const PatternPlace& place : reading.places) {
    const Pattern& pattern = phonics.patterns()[place.pattern];
    if (!patterns.empty()) patterns += ", ";
    patterns += pattern.id;
    if (pattern.id != pattern.name)
      patterns += fmt::format(" ({})", pattern.name);
    if (place.later)
      patterns += " (for later: the sound beside it changes the vowel)";
  }
  fmt::print("{}{}\n", reading.word,
             reading.label.empty() ? "" : " (" + reading.label + ")");
  fmt::print("  graphemes  {}\n", graphemes_text(reading));
  fmt::print("  sounds     {}\n", sounds_text(reading, conventions));
  fmt::print("  boxes      {}\n", explain_boxes(reading, conventions));
  const std::string beats = explain_division(reading, phonics);
  if (!beats.empty()) fmt::print("  beats      {}\n", beats);
  fmt::print("  patterns   {}\n", patterns.empty() ? "none" : patterns);
  const std::string irregular = irregular_text(reading, conventions);
  if (!irregular.empty()) fmt::print("  irregular  {}\n", irregular);
  fmt::print("  from       {}\n", origin_text(reading.origin));
  if (reading.origin == Reading::Origin::guess) {
    const std::vector<std::string> words =
        phonics.meant_words(reading.word, [](std::string_view word) {
          return !BlockList::shipped().blocks(word);
        });
    const std::vector<std::string_view> meant(words.begin(), words.end());
    if (!meant.empty()) fmt::print("  {}\n", ask_for(reading.word, meant).text);
    fmt::print("  to keep or correct it, put this under `split:`  {}\n",
               split_line(reading));
  }
}

// The presets as the command line gives them; an accent sets several switches,
// so it comes first. Says what is wrong and gives false if one is unknown.
bool set_presets(const CommandLine& line, Conventions& conventions) {
  const std::pair<std::string_view, const std::string&> presets[] = {
      {"accent", line.accent},
      {"count", line.count},
      {"notation", line.notation}};
  for (const auto& [name, value] : presets) {
    if (value.empty()) continue;
    const auto fault = set_convention(conventions, name, value);
    if (!fault) continue;
    fmt::print(stderr, "sheaf: {}; {}\n", fault.text, fault.help.text);
    return false;
  }
  return true;
}

}  // namespace

int run_word(const CommandLine& line) {
  Workspace workspace(disk(), shipped_folder());
  const Phonics& phonics = workspace.phonics();
  Conventions conventions;
  if (!set_presets(line, conventions)) return kWrongCommandLine;
  bool good = true;
  std::vector<std::vector<Reading>> all;
  for (const std::string& given : line.arguments) {
    const std::string word =
        normalized(PlacedText(given, {}, {{0, 0}}).without_ligatures().text());
    if (!is_word(word)) {
      fmt::print(stderr,
                 "sheaf: `{}` is not a word: letters, with "
                 "apostrophes or hyphens inside, at most 64\n",
                 printable(given.substr(0, 80)));
      good = false;
      continue;
    }
    all.push_back(phonics.read(word, conventions));
  }
  if (line.json) {
    fmt::print("{}\n", words_json(phonics, all, conventions));
  } else {
    for (const auto& readings : all) {
      for (const Reading& r : readings) print_reading(phonics, r, conventions);
    }
  }
  return good ? kDone : kFaultsInFiles;
}

}  // namespace sheaf
