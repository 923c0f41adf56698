#include "lexicon/sources.h"

#include <fmt/format.h>

#include "base/utf8.h"
#include "phonics/conventions.h"
#include "phonics/inventory.h"
#include "phonics/table_text.h"
#include "phonics/word_record.h"

namespace sheaf {
namespace {

std::string label_of(std::string_view part_of_speech) {
  if (part_of_speech == "n") return "noun";
  if (part_of_speech == "v" || part_of_speech == "vl") return "verb";
  if (part_of_speech == "v_p") return "past";
  if (part_of_speech == "j") return "adjective";
  return {};
}

// The phones between the brackets of an entry: (((k ae t) 1) ((s) 0)).
bool read_syllables(std::string_view text, Pronunciation& result) {
  std::size_t at = 0;
  int syllable = 0;
  while ((at = text.find("((", at)) != std::string_view::npos) {
    while (at < text.size() && text[at] == '(') ++at;
    const std::size_t close = text.find(')', at);
    if (close == std::string_view::npos) return false;
    if (!read_phonemes(text.substr(at, close - at), result.phonemes)) {
      return false;
    }
    const std::size_t digit = text.find_first_of("01", close);
    if (digit == std::string_view::npos) return false;
    if (text[digit] == '1' && syllable < 16) result.stress |= 1U << syllable;
    ++syllable;
    at = digit;
  }
  return syllable > 0;
}

}  // namespace

PronunciationTable read_festlex(std::string_view text) {
  PronunciationTable table;
  for (const std::string_view line : split_at(text, '\n')) {
    if (!line.starts_with("(\"")) continue;
    const std::size_t quote = line.find('"', 2);
    if (quote == std::string_view::npos) continue;
    const std::size_t open = line.find('(', quote);
    if (open == std::string_view::npos) continue;
    Pronunciation pronunciation;
    if (!read_syllables(line.substr(open), pronunciation)) continue;
    std::string_view pos = line.substr(quote + 1, open - quote - 1);
    while (!pos.empty() && pos.front() == ' ') pos.remove_prefix(1);
    while (!pos.empty() && pos.back() == ' ') pos.remove_suffix(1);
    pronunciation.label = label_of(pos);
    table[lower_case(line.substr(2, quote - 2))].push_back(pronunciation);
  }
  for (auto& [word, readings] : table) {
    if (readings.size() == 1) readings.front().label.clear();
  }
  return table;
}

bool read_sounds(std::string_view text, Pronunciation& pronunciation) {
  int syllable = 0;
  for (std::string_view part : split_at(text, '|')) {
    while (part.starts_with(' ')) part.remove_prefix(1);
    if (part.starts_with('\'')) {
      pronunciation.stress |= 1U << syllable;
      part.remove_prefix(1);
    }
    if (!read_phonemes(part, pronunciation.phonemes)) return false;
    ++syllable;
  }
  return !pronunciation.phonemes.empty() && syllable <= 16;
}

PronunciationTable read_supplement(std::string_view text, std::string& fault) {
  PronunciationTable table;
  for (const TableRow& row : table_rows(text)) {
    if (row.cell(1) == "sounds") continue;  // the head
    Pronunciation pronunciation;
    if (!read_sounds(row.cell(1), pronunciation)) {
      fault = fmt::format("line {}: the sounds of `{}` cannot be read",
                          row.line, row.cells[0]);
      return {};
    }
    pronunciation.label = row.cell(2);
    pronunciation.graphemes = row.cell(3);
    table[std::string(row.cells[0])].push_back(std::move(pronunciation));
  }
  return table;
}

AccentTable read_accent_words(std::string_view text, std::string& fault) {
  AccentTable table;
  for (const TableRow& row : table_rows(text)) {
    if (row.cell(1) == "accents") continue;  // the head
    AccentRow entry;
    for (const std::string_view name : split_at(row.cell(1), ' ')) {
      Conventions conventions;
      const bool good = !set_convention(conventions, "accent", name);
      const std::uint8_t bit = accent_bit(conventions.accent);
      if (!good || bit == 0) {
        fault = fmt::format(
            "line {}: `{}` is no accent that has words of its "
            "own",
            row.line, name);
        return {};
      }
      entry.accents |= bit;
    }
    if (row.cell(2) != "=" && !read_sounds(row.cell(2), entry.pronunciation)) {
      fault = fmt::format("line {}: the sounds of `{}` cannot be read",
                          row.line, row.cells[0]);
      return {};
    }
    if (row.cell(5).empty()) {
      fault =
          fmt::format("line {}: `{}` has no source", row.line, row.cells[0]);
      return {};
    }
    entry.pronunciation.label = row.cell(3);
    entry.pronunciation.graphemes = row.cell(4);
    table[std::string(row.cells[0])].push_back(std::move(entry));
  }
  return table;
}

void add_word_list(std::string_view text, int tier, bool american,
                   WordLists& lists) {
  for (std::string_view word : split_at(text, '\n')) {
    if (word.ends_with('\r')) word.remove_suffix(1);
    bool good = !word.empty();
    bool capital = false;
    for (const char c : word) {
      capital = capital || (c >= 'A' && c <= 'Z');
      good = good &&
             ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '\'');
    }
    // Possessives are made from their base.
    if (!good || word.ends_with("'s")) continue;
    auto [place, added] =
        lists.try_emplace(lower_case(word), ScowlWord{tier, capital, american});
    // Larger lists have every surname.
    constexpr int kLargestNameList = 50;
    place->second.also_name |= capital && tier <= kLargestNameList;
    if (!added) {
      ScowlWord& old = place->second;
      old.american = old.american || american;
      // A plain word outranks a name of the same letters.
      if (old.name != capital ? old.name : tier < old.tier) {
        old = {tier, capital, old.american, old.also_name};
      }
    }
  }
}

}  // namespace sheaf
