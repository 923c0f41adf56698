// Made-up words: put together from graphemes that are known, so that what the
// guesser is to find in them is known beforehand.

#include <gtest/gtest.h>

#include <sstream>

#include "unit/phonics_data.h"

namespace sheaf {
namespace {

using Texts = std::vector<std::string>;

const Conventions kUsual;

std::string joined(const Texts& graphemes) {
  std::string text;
  for (const std::string& g : graphemes) text += (text.empty() ? "" : " ") + g;
  return text;
}

std::string read_graphemes(const std::string& word) {
  Texts graphemes;
  const Reading reading = shared_phonics().read(word, kUsual).front();
  for (const Unit& unit : reading.units) {
    graphemes.push_back(unit.grapheme);
  }
  return joined(graphemes);
}

std::string read_sounds(const std::string& word) {
  std::string text;
  const Reading reading = shared_phonics().read(word, kUsual).front();
  for (const Unit& unit : reading.units) {
    for (const Phoneme p : unit.listed) {
      text += (text.empty() ? "" : " ") + std::string(phoneme_name(p));
    }
  }
  return text;
}

// "a_e" and "m" make "ame".
std::string spelled(const Texts& graphemes) {
  std::string word, silent;
  for (const std::string& g : graphemes) {
    const std::size_t gap = g.find('_');
    word += g.substr(0, gap) + (gap == std::string::npos ? silent : "");
    silent = gap == std::string::npos ? "" : g.substr(gap + 1);
  }
  return word;
}

struct Grid {
  int all = 0;
  std::map<std::string, std::string> otherwise;

  void add(const Texts& graphemes) {
    const std::string word = spelled(graphemes);
    if (shared_phonics().knows(word)) return;
    ++all;
    const std::string read = read_graphemes(word);
    if (read != joined(graphemes)) otherwise[word] = read;
  }
};

Texts with_onset(const Texts& onset, const std::string& team,
                 const std::string& coda) {
  Texts graphemes = onset;
  graphemes.push_back(team);
  if (!coda.empty()) graphemes.push_back(coda);
  return graphemes;
}

// c and g are soft before e and i, k is not written before others; nothing
// with o or u stands behind qu and wh.
bool may_stand_before(const std::string& onset, char vowel) {
  const bool soft = vowel == 'e' || vowel == 'i';
  const bool round = vowel == 'o' || vowel == 'u';
  if (onset == "c" || onset == "g") return !soft;
  if (onset == "k") return soft;
  return !round || (onset != "qu" && onset != "wh");
}

std::vector<Texts> onsets() {
  std::istringstream parts(
      "b,c,d,f,g,h,j,k,l,m,n,p,r,s,t,v,w,y,z,sh,ch,th,wh,qu,b l,b r,c r,d r,"
      "f l,f r,g l,g r,p l,p r,s l,s m,s n,s p,s t,s t r,t r,t w");
  std::vector<Texts> all;
  for (std::string part; std::getline(parts, part, ',');) {
    std::istringstream graphemes(part);
    all.emplace_back();
    for (std::string g; graphemes >> g;) all.back().push_back(g);
  }
  return all;
}

// At most one in a hundred is read otherwise, and those are printed.
void expect_read_so(const Grid& grid, const char* what) {
  std::cout << what << ": "
            << grid.all - static_cast<int>(grid.otherwise.size()) << " of "
            << grid.all << " read as they were made\n";
  for (const auto& [word, read] : grid.otherwise) {
    std::cout << "  " << word << ": " << read << "\n";
  }
  EXPECT_LE(grid.otherwise.size() * 100, static_cast<std::size_t>(grid.all));
}

// Every onset with each vowel and coda that may follow it.
Grid grid_of(const std::vector<std::string>& vowels,
             const std::vector<std::string>& codas) {
  Grid grid;
  for (const Texts& onset : onsets()) {
    for (const std::string& vowel : vowels) {
      if (!may_stand_before(onset.back(), vowel[0])) continue;
      for (const std::string& coda : codas) {
        grid.add(with_onset(onset, vowel, coda));
      }
    }
  }
  return grid;
}

TEST(GuessMade, VowelTeamsBeforeAConsonant) {
  const Grid grid = grid_of(
      {"ai", "ee", "ea", "oa", "oi", "oo", "ou", "au", "ow", "aw"},
      {"b", "d", "f", "g", "k", "l", "m", "n", "p", "t", "sh", "ch", "th"});
  EXPECT_GT(grid.all, 3000);
  expect_read_so(grid, "vowel teams before a consonant");
}

TEST(GuessMade, VowelTeamsAtTheEnd) {
  const Grid grid = grid_of(
      {"ay", "oy", "ow", "aw", "ew", "ee", "ea", "igh", "oo", "ue", "ie"},
      {""});
  EXPECT_GT(grid.all, 200);
  expect_read_so(grid, "vowel teams at the end");
}

TEST(GuessMade, AVowelWithAFinalE) {
  const Grid grid = grid_of({"a_e", "i_e", "o_e", "u_e"},
                            {"b", "d", "f", "k", "l", "m", "n", "p", "t"});
  EXPECT_GT(grid.all, 700);
  expect_read_so(grid, "a vowel with a final e");
}

TEST(GuessMade, ConsonantTeams) {
  const Grid grid = grid_of({"a", "e", "i", "o", "u"},
                            {"sh", "ch", "th", "ck", "tch", "dge", "ng"});
  EXPECT_GT(grid.all, 1000);
  expect_read_so(grid, "consonant teams");
}

// The list was written before the program was asked.
TEST(GuessMade, WordsOfTheListAreReadSo) {
  std::istringstream rows(test_data("phonics_guess_words.tsv"));
  int all = 0, right = 0;
  for (std::string row; std::getline(rows, row);) {
    if (row.starts_with('#') || row.empty()) continue;
    std::istringstream columns(row);
    std::string word, graphemes, sounds;
    std::getline(columns, word, '\t');
    std::getline(columns, graphemes, '\t');
    std::getline(columns, sounds, '\t');
    const std::string read = read_graphemes(word), said = read_sounds(word);
    EXPECT_EQ(read, graphemes) << word;
    if (!sounds.empty()) {
      EXPECT_EQ(said, sounds) << word;
    }
    ++all;
    right += read == graphemes && (sounds.empty() || said == sounds) ? 1 : 0;
  }
  std::cout << "words read as expected: " << right << " of " << all << "\n";
  EXPECT_GT(all, 40);
}

}  // namespace
}  // namespace sheaf
