#include "marking/sound_distance.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string_view>
#include <vector>

namespace sheaf {
namespace {

// Where the tongue is when a vowel begins and ends: height from 0 (close) to 8
// (open), from 0 (front) to 8 (back).
struct VowelRow {
  std::string_view name;
  int height, back, end_height, end_back;
  bool is_long;
};

constexpr std::array kVowels = {
    VowelRow{"ae", 7, 0, 7, 0, false}, VowelRow{"eh", 5, 0, 5, 0, false},
    VowelRow{"ih", 2, 1, 2, 1, false}, VowelRow{"aa", 8, 6, 8, 6, false},
    VowelRow{"ah", 5, 4, 5, 4, false}, VowelRow{"uh", 2, 7, 2, 7, false},
    VowelRow{"oh", 7, 8, 7, 8, false}, VowelRow{"ax", 4, 4, 4, 4, false},
    VowelRow{"ey", 4, 0, 1, 0, true},  VowelRow{"iy", 0, 0, 0, 0, true},
    VowelRow{"ay", 8, 4, 2, 1, true},  VowelRow{"ow", 4, 8, 2, 8, true},
    VowelRow{"uw", 0, 8, 0, 8, true},  VowelRow{"ao", 7, 8, 7, 8, false},
    VowelRow{"aw", 8, 4, 2, 7, true},  VowelRow{"oy", 6, 8, 2, 1, true},
    VowelRow{"er", 4, 4, 4, 5, true},  VowelRow{"ia", 2, 1, 4, 4, true},
    VowelRow{"ea", 5, 0, 4, 4, true},  VowelRow{"ua", 2, 7, 4, 4, true},
};

enum class Manner { stop, affricate, fricative, nasal, liquid, glide };

struct ConsonantRow {
  std::string_view name;
  int place;  // from the lips (0) to the throat (7)
  Manner manner;
  bool voiced;
};

// w stands beside r: for learners they are neighbours.
constexpr std::array kConsonants = {
    ConsonantRow{"b", 0, Manner::stop, true},
    ConsonantRow{"ch", 4, Manner::affricate, false},
    ConsonantRow{"d", 3, Manner::stop, true},
    ConsonantRow{"dh", 2, Manner::fricative, true},
    ConsonantRow{"f", 1, Manner::fricative, false},
    ConsonantRow{"g", 6, Manner::stop, true},
    ConsonantRow{"hh", 7, Manner::fricative, false},
    ConsonantRow{"hw", 5, Manner::glide, false},
    ConsonantRow{"jh", 4, Manner::affricate, true},
    ConsonantRow{"k", 6, Manner::stop, false},
    ConsonantRow{"l", 3, Manner::liquid, true},
    ConsonantRow{"m", 0, Manner::nasal, true},
    ConsonantRow{"n", 3, Manner::nasal, true},
    ConsonantRow{"ng", 6, Manner::nasal, true},
    ConsonantRow{"p", 0, Manner::stop, false},
    ConsonantRow{"r", 4, Manner::liquid, true},
    ConsonantRow{"s", 3, Manner::fricative, false},
    ConsonantRow{"sh", 4, Manner::fricative, false},
    ConsonantRow{"t", 3, Manner::stop, false},
    ConsonantRow{"th", 2, Manner::fricative, false},
    ConsonantRow{"v", 1, Manner::fricative, true},
    ConsonantRow{"w", 5, Manner::glide, true},
    ConsonantRow{"y", 5, Manner::glide, true},
    ConsonantRow{"z", 3, Manner::fricative, true},
    ConsonantRow{"zh", 4, Manner::fricative, true},
};

int vowel_distance(const VowelRow& a, const VowelRow& b) {
  const int start =
      55 * std::abs(a.height - b.height) + 45 * std::abs(a.back - b.back);
  const int end = 55 * std::abs(a.end_height - b.end_height) +
                  45 * std::abs(a.end_back - b.end_back);
  return std::min(1000,
                  (start + end) / 2 + (a.is_long != b.is_long ? 60 : 0) + 10);
}

bool rings(Manner m) {
  return m == Manner::nasal || m == Manner::liquid || m == Manner::glide;
}

int manner_distance(Manner a, Manner b) {
  if (a == b) return 0;
  if (rings(a) != rings(b)) return 550;
  if (rings(a)) {
    return a == Manner::nasal || b == Manner::nasal ? 350 : 120;
  }
  const bool stop = a == Manner::stop || b == Manner::stop;
  const bool fricative = a == Manner::fricative || b == Manner::fricative;
  return stop && fricative ? 200 : 150;
}

int consonant_distance(const ConsonantRow& a, const ConsonantRow& b) {
  return std::min(1000, 90 * std::min(3, std::abs(a.place - b.place)) +
                            manner_distance(a.manner, b.manner) +
                            (a.voiced != b.voiced ? 150 : 0) + 10);
}

template <typename Rows>
auto row_of(const Rows& rows, Phoneme p) {
  const auto name = phoneme_name(p);
  return std::ranges::find_if(rows,
                              [&](const auto& r) { return r.name == name; });
}

int measure(Phoneme a, Phoneme b) {
  if (a == b) return 0;
  if (is_vowel(a) != is_vowel(b)) return 1000;
  if (is_vowel(a)) {
    const auto x = row_of(kVowels, a), y = row_of(kVowels, b);
    if (x == kVowels.end() || y == kVowels.end()) return 1000;
    return vowel_distance(*x, *y);
  }
  const auto x = row_of(kConsonants, a), y = row_of(kConsonants, b);
  if (x == kConsonants.end() || y == kConsonants.end()) return 1000;
  return consonant_distance(*x, *y);
}

using DistanceTable =
    std::array<std::array<std::uint16_t, kPhonemeCount>, kPhonemeCount>;

DistanceTable make_table() {
  DistanceTable table{};
  for (int a = 0; a < kPhonemeCount; ++a) {
    for (int b = 0; b < kPhonemeCount; ++b) {
      table[static_cast<std::size_t>(a)][static_cast<std::size_t>(b)] =
          static_cast<std::uint16_t>(
              measure(static_cast<Phoneme>(a), static_cast<Phoneme>(b)));
    }
  }
  return table;
}

int cost_alone(Phoneme p) {
  return p == Phoneme::ax || p == Phoneme::r ? 300 : 500;
}

}  // namespace

int sound_distance(Phoneme a, Phoneme b) {
  static const DistanceTable table = make_table();
  return table[static_cast<std::size_t>(a)][static_cast<std::size_t>(b)];
}

int sound_distance(std::span<const Phoneme> a, std::span<const Phoneme> b) {
  if (a.size() == 1 && b.size() == 1) return sound_distance(a[0], b[0]);
  if (a.empty() && b.empty()) return 0;
  std::vector<int> row(b.size() + 1);
  for (std::size_t j = 0; j < b.size(); ++j) {
    row[j + 1] = row[j] + cost_alone(b[j]);
  }
  for (const Phoneme p : a) {
    int diagonal = row[0];
    row[0] += cost_alone(p);
    for (std::size_t j = 0; j < b.size(); ++j) {
      const int changed = diagonal + sound_distance(p, b[j]);
      diagonal = row[j + 1];
      row[j + 1] = std::min(
          {changed, row[j + 1] + cost_alone(p), row[j] + cost_alone(b[j])});
    }
  }
  const auto longest = static_cast<int>(std::max(a.size(), b.size()));
  return std::min(1000, row.back() / longest);
}

}  // namespace sheaf
