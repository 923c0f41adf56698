#include "marking/sound_spellings.h"

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace sheaf {
namespace {

// What learners read off a grapheme although the inventory parts it there:
// er in very and cherry.
struct AddedRow {
  std::string_view grapheme;
  std::array<Phoneme, 2> phonemes;
};
constexpr std::array kAdded = {
    AddedRow{"er", {Phoneme::eh, Phoneme::r}},
};

Correspondence correspondence_of(const AddedRow& row) {
  Correspondence c{};
  row.grapheme.copy(c.letters, Correspondence::kLongestGrapheme);
  c.length = static_cast<std::uint8_t>(row.grapheme.size());
  std::ranges::copy(row.phonemes, c.sounds);
  c.sound_count = static_cast<std::uint8_t>(row.phonemes.size());
  c.cost = 2048;
  return c;
}

int parts_of(double part, double whole) {
  return static_cast<int>(std::lround(10000.0 * part / whole));
}

}  // namespace

SoundSpellings::SoundSpellings(const Inventory& inventory) {
  for (const AddedRow& row : kAdded) {
    if (inventory.find(row.grapheme, row.phonemes) < 0) {
      added_.push_back(correspondence_of(row));
    }
  }
  std::vector<const Correspondence*> records;
  for (const Correspondence& c : inventory.all()) records.push_back(&c);
  for (const Correspondence& c : added_) records.push_back(&c);

  const auto uses = [](const Correspondence& c) {
    return std::exp(-c.cost / 256.0);
  };
  std::unordered_map<std::string_view, double> of_grapheme;
  std::unordered_map<std::string_view, double> of_sound;
  const auto sound_of = [](const Correspondence& c) {  // as a key
    return std::string_view(reinterpret_cast<const char*>(c.phonemes().data()),
                            c.phonemes().size());
  };
  for (const Correspondence* c : records) {
    of_grapheme[c->grapheme()] += uses(*c);
    of_sound[sound_of(*c)] += uses(*c);
  }
  for (const Correspondence* c : records) {
    all_.push_back({c->grapheme(), c->phonemes(), c->is_split(), c->rare != 0,
                    parts_of(uses(*c), of_grapheme[c->grapheme()]),
                    parts_of(uses(*c), of_sound[sound_of(*c)])});
  }
  std::ranges::stable_sort(all_, [](const Spelling& a, const Spelling& b) {
    if (a.grapheme[0] != b.grapheme[0]) return a.grapheme[0] < b.grapheme[0];
    if (a.grapheme.size() != b.grapheme.size()) {
      return a.grapheme.size() > b.grapheme.size();
    }
    if (a.grapheme != b.grapheme) return a.grapheme < b.grapheme;
    return a.share_of_grapheme > b.share_of_grapheme;
  });
  for (std::size_t i = all_.size(); i-- > 0;) {
    begins_[static_cast<std::size_t>(all_[i].grapheme[0] - 'a')] =
        static_cast<std::uint16_t>(i);
  }
  begins_[26] = static_cast<std::uint16_t>(all_.size());
  for (std::size_t letter = 26; letter-- > 0;) {
    const std::size_t begin = begins_[letter];
    const bool used =
        begin < all_.size() &&
        all_[begin].grapheme[0] == static_cast<char>('a' + letter);
    if (!used) begins_[letter] = begins_[letter + 1];
  }
}

std::span<const Spelling> SoundSpellings::beginning_with(char letter) const {
  if (letter < 'a' || letter > 'z') return {};
  const auto at = static_cast<std::size_t>(letter - 'a');
  return std::span(all_).subspan(begins_[at], begins_[at + 1] - begins_[at]);
}

std::span<const Spelling> SoundSpellings::of_grapheme(
    std::string_view grapheme) const {
  if (grapheme.empty()) return {};
  const auto same = beginning_with(grapheme[0]);
  const auto first = std::ranges::find(same, grapheme, &Spelling::grapheme);
  auto last = first;
  while (last != same.end() && last->grapheme == grapheme) ++last;
  return {first, last};
}

std::vector<const Spelling*> SoundSpellings::of_sound(
    std::span<const Phoneme> sound) const {
  std::vector<const Spelling*> found;
  for (const Spelling& s : all_) {
    if (std::ranges::equal(s.phonemes, sound)) found.push_back(&s);
  }
  std::ranges::stable_sort(found, [](const Spelling* a, const Spelling* b) {
    return a->share_of_sound > b->share_of_sound;
  });
  return found;
}

}  // namespace sheaf
