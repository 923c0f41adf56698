// Accents are applied before patterns are judged: what a word has, says and is
// parted into in each accent, against lists that were written before Sheaf's
// own answers were looked at.

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>

#include "phonics/notation.h"
#include "phonics/table_text.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

Conventions accent_conventions(std::string_view name) {
  Conventions conventions;
  EXPECT_FALSE(set_convention(conventions, "accent", name)) << name;
  return conventions;
}

std::string graphemes_of(const Reading& reading) {
  std::string text;
  for (const Unit& unit : reading.units) {
    text += (text.empty() ? "" : " ") + unit.grapheme;
  }
  return text;
}

bool is_one_of(std::string_view text, std::string_view accepted) {
  const auto all = split_at(accepted, '|');
  return std::ranges::find(all, text) != all.end();
}

std::string sounds_of(const Reading& reading, const Conventions& conventions) {
  std::string text;
  for (const Sound& sound : reading.sounds) {
    text += (text.empty() ? "" : " ") + sound_name(sound.phonemes, conventions);
  }
  return text;
}

bool sounds_fit(const Reading& reading, const Conventions& conventions,
                std::string_view expected) {
  const auto boxes = split_at(expected, ' ');
  if (boxes.size() != reading.sounds.size()) return false;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    if (!is_one_of(sound_name(reading.sounds[i].phonemes, conventions),
                   boxes[i])) {
      return false;
    }
  }
  return true;
}

bool has_pattern(const Reading& reading, std::string_view id) {
  const PatternCatalogue& all = shared_phonics().patterns();
  const Pattern* pattern = all.by_id(id);
  EXPECT_NE(pattern, nullptr) << id;
  return pattern != nullptr && reading.find(all.id_of(*pattern)) != nullptr;
}

TEST(AccentWords, AreAsWrittenBefore) {
  const std::string text = test_data("phonics_accent_words.tsv");
  int rows = 0, right = 0;
  for (const TableRow& row : table_rows(text)) {
    const Conventions conventions = accent_conventions(row.cell(0));
    const std::string word(row.cell(1));
    const Reading reading = shared_phonics().read(word, conventions).front();
    const std::string where = std::string(row.cell(0)) + " " + word + ": " +
                              graphemes_of(reading) + " /" +
                              sounds_of(reading, conventions) + "/";
    std::string wrong;
    if (!is_one_of(graphemes_of(reading), row.cell(2))) wrong += " graphemes";
    if (!sounds_fit(reading, conventions, row.cell(3))) wrong += " sounds";
    for (const std::string_view id : split_at(row.cell(4), ' ')) {
      if (id != "-" && !has_pattern(reading, id)) {
        wrong += " lacks " + std::string(id);
      }
    }
    for (const std::string_view id : split_at(row.cell(5), ' ')) {
      if (id != "-" && has_pattern(reading, id)) {
        wrong += " has " + std::string(id);
      }
    }
    ++rows;
    right += wrong.empty() ? 1 : 0;
    EXPECT_EQ(wrong, "") << where;
  }
  std::cout << right << " of " << rows << " words as written before\n";
  EXPECT_GE(rows, 230);
}

TEST(AccentWords, HavePatternsAsWrittenBefore) {
  const std::string text = test_data("phonics_accent_patterns.tsv");
  int rows = 0, right = 0;
  for (const TableRow& row : table_rows(text)) {
    const Conventions conventions = accent_conventions(row.cell(0));
    const std::string word(row.cell(1));
    const Reading reading = shared_phonics().read(word, conventions).front();
    const bool has = has_pattern(reading, row.cell(2));
    ++rows;
    right += has == (row.cell(3) == "yes") ? 1 : 0;
    EXPECT_EQ(has ? "yes" : "no", row.cell(3))
        << row.cell(0) << " " << word << " " << row.cell(2) << ": "
        << graphemes_of(reading) << " /" << sounds_of(reading, conventions)
        << "/";
  }
  std::cout << right << " of " << rows << " patterns as written before\n";
  EXPECT_GE(rows, 150);
}

}  // namespace
}  // namespace sheaf
