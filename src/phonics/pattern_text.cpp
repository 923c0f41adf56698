#include "phonics/pattern_text.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <vector>

#include "phonics/table_text.h"
#include "phonics/tables.h"

namespace sheaf {
namespace {

constexpr std::array<std::string_view, 10> kCards = {
    "sound",    "unusual", "silent", "blend",  "closed",
    "syllable", "ending",  "join",   "prefix", "parts"};
constexpr std::array<std::string_view, 5> kWays = {"hold", "short", "into",
                                                   "vowel", "glide"};

template <typename T, std::size_t N>
T named(std::string_view name, const std::array<std::string_view, N>& names) {
  const auto found = std::ranges::find(names, name);
  assert(found != names.end());
  return static_cast<T>(found - names.begin());
}

// Rows below the one that names the columns.
std::vector<TableRow> data_rows(std::string_view table) {
  std::vector<TableRow> rows = table_rows(table);
  rows.erase(rows.begin());
  return rows;
}

std::vector<PatternText> read_texts() {
  std::vector<PatternText> texts;
  for (const TableRow& row : data_rows(pattern_texts_table())) {
    PatternText& text = texts.emplace_back();
    text.id = row.cell(0);
    text.card = named<PatternText::Card>(row.cell(1), kCards);
    text.learner = row.cell(2);
    text.teacher = row.cell(3);
    text.compare = row.cell(4);
    text.source = row.cell(5);
    if (row.cell(6) != "-") text.words = split_at(row.cell(6), ' ');
    if (row.cell(7) == "-") continue;
    for (std::string_view part : split_at(row.cell(7), ';')) {
      if (part.starts_with(' ')) part.remove_prefix(1);
      const std::size_t sign = part.find('=');
      assert(sign != std::string_view::npos);
      text.meanings.push_back({part.substr(0, sign), part.substr(sign + 1)});
    }
  }
  return texts;
}

std::array<SoundWay, kPhonemeCount> read_ways() {
  std::array<SoundWay, kPhonemeCount> ways;
  for (const TableRow& row : data_rows(sound_ways_table())) {
    const auto phoneme = phoneme_from_name(row.cell(0));
    assert(phoneme);
    if (!phoneme) continue;
    ways[static_cast<std::size_t>(*phoneme)] = {
        named<SoundWay::Way>(row.cell(1), kWays), row.cell(2)};
  }
  return ways;
}

}  // namespace

std::span<const PatternText> pattern_texts() {
  static const std::vector<PatternText> texts = read_texts();
  return texts;
}

const PatternText* find_pattern_text(std::string_view id) {
  const auto texts = pattern_texts();
  const auto found = std::ranges::find(texts, id, &PatternText::id);
  return found == texts.end() ? nullptr : &*found;
}

const SoundWay& way_of(Phoneme phoneme) {
  static const std::array<SoundWay, kPhonemeCount> ways = read_ways();
  return ways[static_cast<std::size_t>(phoneme)];
}

}  // namespace sheaf
