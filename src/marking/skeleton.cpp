#include "marking/skeleton.h"

#include <algorithm>

#include "phonics/letters.h"

namespace sheaf {
namespace {

constexpr std::size_t kMostSkeletons = 8;

char group_of(Phoneme p) {
  switch (p) {
    case Phoneme::p:
    case Phoneme::b:
      return 'P';
    case Phoneme::t:
    case Phoneme::d:
      return 'T';
    case Phoneme::f:
    case Phoneme::v:
    case Phoneme::th:
    case Phoneme::dh:
      return 'F';
    case Phoneme::k:
    case Phoneme::g:
      return 'K';
    case Phoneme::s:
    case Phoneme::z:
    case Phoneme::sh:
    case Phoneme::zh:
    case Phoneme::ch:
    case Phoneme::jh:
      return 'S';
    case Phoneme::l:
      return 'L';
    case Phoneme::r:
    case Phoneme::er:
      return 'R';
    case Phoneme::m:
    case Phoneme::n:
    case Phoneme::ng:
      return 'M';
    default:
      return '\0';
  }
}

// What stands at one place: the groups it may stand for and its letters.
// '-' in `groups` means that it may be silent.
struct Piece {
  std::string_view groups;
  std::size_t width = 1;
};

Piece digraph(std::string_view rest, bool first) {
  struct Row {
    std::string_view letters;
    std::string_view groups;
    bool only_first;
  };
  static constexpr Row kRows[] = {
      {"tch", "S", false}, {"dge", "S", false},   {"sch", "S", false},
      {"ti", "TS", false}, {"ci", "S", false},    {"ssi", "S", false},
      {"si", "S", false},  {"tu", "TS", false},   {"th", "F", false},
      {"sh", "S", false},  {"chr", "STK", false}, {"ch", "SK", false},
      {"ph", "F", false},  {"ck", "K", false},    {"gh", "-FK", false},
      {"kn", "M", true},   {"gn", "M", true},     {"wr", "R", true},
      {"wh", "W-", true},  {"ps", "S", true},     {"sc", "S", false},
      {"ng", "M", false},  {"mb", "M", false},
  };
  for (const Row& row : kRows) {
    if (!rest.starts_with(row.letters) || (row.only_first && !first)) continue;
    const char after =
        rest.size() > row.letters.size() ? rest[row.letters.size()] : '\0';
    if (row.letters == "chr") return {row.groups, 2};
    // ti, ci and si say /sh/ before another vowel only.
    const bool needs_vowel = row.letters.back() == 'i';
    if (needs_vowel && !is_vowel_letter(after)) continue;
    if (row.letters == "tu" && after != 'r') continue;
    if (row.letters == "sc" && after != 'e' && after != 'i') continue;
    if (row.letters == "mb" && after != '\0') continue;
    return {row.groups, row.letters.size()};
  }
  return {{}, 0};
}

Piece single(std::string_view rest, bool first) {
  const char next = rest.size() > 1 ? rest[1] : '\0';
  const bool soft = next == 'e' || next == 'i' || next == 'y';
  switch (rest[0]) {
    case 'b':
    case 'p':
      return {"P"};
    case 'd':
    case 't':
      return {"T"};
    case 'f':
    case 'v':
      return {"F"};
    case 'k':
    case 'q':
      return {"K"};
    case 'c':
      return soft ? Piece{"SK"} : Piece{"K"};
    case 'g':
      return soft ? Piece{"KS"} : Piece{"K"};
    case 'j':
      return next == 'r' ? Piece{"ST"} : Piece{"S"};
    case 's':
    case 'z':
      return {"S"};
    case 'l':
      return {"L"};
    case 'm':
    case 'n':
      return {"M"};
    case 'r':
      return is_vowel_letter(next) ? Piece{"R"} : Piece{"R-"};
    case 'w':
      return first ? Piece{"W"} : Piece{"-"};
    default:
      return {"-"};
  }
}

void append(std::vector<std::string>& all, std::string_view groups,
            bool after_same) {
  const std::size_t count = all.size();
  for (std::size_t g = 1; g < groups.size(); ++g) {
    for (std::size_t i = 0; i < count && all.size() < kMostSkeletons; ++i) {
      all.push_back(all[i]);
      if (groups[g] != '-') all.back() += groups[g];
    }
  }
  for (std::size_t i = 0; i < count; ++i) {
    const bool twin =
        after_same && !all[i].empty() && all[i].back() == groups[0];
    if (groups[0] != '-' && !twin) all[i] += groups[0];
  }
}

}  // namespace

std::string consonant_skeleton(std::span<const Phoneme> sounds) {
  std::string skeleton;
  bool after_consonant = false;
  for (std::size_t i = 0; i < sounds.size(); ++i) {
    const Phoneme p = sounds[i];
    char group = group_of(p);
    if (i == 0 && (p == Phoneme::w || p == Phoneme::hw)) group = 'W';
    if (group != '\0') {
      const bool twin =
          after_consonant && !skeleton.empty() && skeleton.back() == group;
      if (!twin) skeleton += group;
    }
    after_consonant = group != '\0' && p != Phoneme::er;
  }
  return skeleton;
}

std::vector<std::string> letter_skeletons(std::string_view letters) {
  std::vector<std::string> all(1);
  bool after_consonant = false;
  for (std::size_t i = 0; i < letters.size();) {
    const std::string_view rest = letters.substr(i);
    Piece piece = digraph(rest, i == 0);
    if (piece.width == 0) {
      if (rest[0] == 'x') {
        append(all, "K", after_consonant);
        append(all, "S", false);
        after_consonant = true;
        ++i;
        continue;
      }
      piece = single(rest, i == 0);
    }
    append(all, piece.groups, after_consonant);
    after_consonant = piece.groups != "-";
    i += piece.width;
  }
  std::ranges::sort(all);
  const auto twins = std::ranges::unique(all);
  all.erase(twins.begin(), twins.end());
  return all;
}

}  // namespace sheaf
