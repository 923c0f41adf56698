#include "phonics/inventory.h"

#include <algorithm>
#include <cstring>

#include <fmt/format.h>

#include "phonics/table_text.h"

namespace sheaf {

bool Correspondence::has_vowel() const {
  return std::ranges::any_of(phonemes(),
                             [](Phoneme one) { return is_vowel(one); });
}

Inventory::Inventory(std::span<const Correspondence> all) : all_(all) {
  for (const Correspondence& c : all) ++begins_[c.letters[0] - 'a' + 1];
  for (std::size_t i = 1; i < begins_.size(); ++i) begins_[i] += begins_[i - 1];
  by_letter_.resize(all.size());
  std::array<std::uint16_t, 27> next = begins_;
  for (std::size_t id = 0; id < all.size(); ++id) {
    by_letter_[next[all[id].letters[0] - 'a']++] =
        static_cast<CorrespondenceId>(id);
  }
}

std::span<const CorrespondenceId> Inventory::beginning_with(char letter) const {
  if (letter < 'a' || letter > 'z') return {};
  const std::size_t begin = begins_[letter - 'a'];
  return std::span(by_letter_)
      .subspan(begin, begins_[letter - 'a' + 1] - begin);
}

bool Inventory::spells(std::span<const Phoneme> phonemes) const {
  return std::ranges::any_of(all_, [&](const Correspondence& c) {
    return std::ranges::equal(c.phonemes(), phonemes);
  });
}

int Inventory::find(std::string_view grapheme,
                    std::span<const Phoneme> phonemes) const {
  if (grapheme.empty()) return -1;
  for (const CorrespondenceId id : beginning_with(grapheme[0])) {
    if (all_[id].grapheme() == grapheme &&
        std::ranges::equal(all_[id].phonemes(), phonemes)) {
      return id;
    }
  }
  return -1;
}

bool read_phonemes(std::string_view names, std::vector<Phoneme>& phonemes) {
  for (const std::string_view name : split_at(names, ' ')) {
    if (name.empty()) continue;
    const auto phoneme = phoneme_from_name(name);
    if (!phoneme) return false;
    phonemes.push_back(*phoneme);
  }
  return true;
}

namespace {

std::string read_row(std::span<const std::string_view> cells,
                     Correspondence& row) {
  if (cells.size() < 3) return "fewer than three columns";
  const std::string_view grapheme = cells[0];
  std::vector<Phoneme> phonemes;
  if (!read_phonemes(cells[1], phonemes)) {
    return fmt::format("unknown phoneme in `{}`", cells[1]);
  }
  if (grapheme.empty() || grapheme[0] < 'a' || grapheme[0] > 'z' ||
      grapheme.size() > Correspondence::kLongestGrapheme) {
    return fmt::format("`{}` is not a grapheme", grapheme);
  }
  if (phonemes.empty() || phonemes.size() > Correspondence::kMostPhonemes) {
    return "one to three phonemes are wanted";
  }
  std::memcpy(row.letters, grapheme.data(), grapheme.size());
  row.length = static_cast<std::uint8_t>(grapheme.size());
  std::ranges::copy(phonemes, row.sounds);
  row.sound_count = static_cast<std::uint8_t>(phonemes.size());
  row.rare = cells[2] == "common" ? 0 : 1;
  row.by_hand = cells[2] == "hand"     ? Correspondence::kByHand
                : cells[2] == "accent" ? Correspondence::kOfAccents
                                       : 0;
  return {};
}

}  // namespace

std::vector<Correspondence> read_correspondences(std::string_view text,
                                                 std::string& fault) {
  std::vector<Correspondence> all;
  for (const TableRow& row : table_rows(text)) {
    if (row.cells[0] == "grapheme") continue;
    Correspondence correspondence{};
    const std::string problem = read_row(row.cells, correspondence);
    if (!problem.empty()) {
      fault = fmt::format("line {}: {}", row.line, problem);
      return {};
    }
    all.push_back(correspondence);
  }
  return all;
}

}  // namespace sheaf
