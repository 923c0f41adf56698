// `sheaf word`: graphemes, sounds, boxes and patterns of words, and why.

#include <fmt/format.h>

#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/files.h"
#include "cli/json.h"
#include "cli/verbs.h"
#include "cli/workspace.h"

namespace sheaf {

namespace {

std::string joined(const std::vector<std::string>& parts,
                   std::string_view between) {
  std::string text;
  for (const std::string& part : parts) {
    if (!text.empty()) text += between;
    text += part;
  }
  return text;
}

void print_reading(const Phonics& phonics, const Reading& reading) {
  std::vector<std::string> graphemes, sounds, patterns;
  for (const Unit& unit : reading.units) graphemes.push_back(unit.grapheme);
  for (const Sound& sound : reading.sounds) {
    std::string text = "/";
    for (const Phoneme p : sound.phonemes) text += phoneme_name(p);
    sounds.push_back(text + "/");
  }
  for (const PatternPlace& place : reading.places) {
    const Pattern& pattern = phonics.patterns()[place.pattern];
    patterns.push_back(pattern.id == pattern.name
                           ? std::string(pattern.id)
                           : fmt::format("{} ({})", pattern.id, pattern.name));
  }
  fmt::print("{}{}\n", reading.word,
             reading.label.empty() ? "" : " (" + reading.label + ")");
  if (reading.origin == Reading::Origin::guess) {
    fmt::print("  not in the word list: this is a guess\n");
  }
  fmt::print("  graphemes  {}\n", joined(graphemes, " "));
  fmt::print("  sounds     {}\n", joined(sounds, " "));
  fmt::print("  boxes      {}\n",
             reading.boxes());
  fmt::print("  patterns   {}\n", joined(patterns, ", "));
}

}  // namespace

int run_word(const CommandLine& line) {
  Workspace workspace(shipped_folder());
  const Phonics& phonics = workspace.phonics();
  Conventions conventions;
  if (!line.accent.empty()) {
    const auto fault = set_convention(conventions, "accent", line.accent);
    if (fault) {
      fmt::print(stderr, "sheaf: {}; {}\n", fault.text, fault.help);
      return kWrongCommandLine;
    }
  }
  bool good = true;
  std::vector<std::vector<Reading>> all;
  for (const std::string& given : line.arguments) {
    const std::string word = normalized(given);
    if (!is_word(word)) {
      fmt::print(stderr, "sheaf: `{}` is not a word: letters, with "
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
      for (const Reading& r : readings) print_reading(phonics, r);
    }
  }
  return good ? kDone : kFaultsInFiles;
}

}  // namespace sheaf
