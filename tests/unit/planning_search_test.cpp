#include <gtest/gtest.h>

#include <fstream>

#include "phonics/word_facts.h"
#include "pictures/picture_words.h"
#include "planning/pseudo_words.h"
#include "planning/word_search.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

bool pictured(std::string_view word) {
  const PictureWord* row = find_picture_word(word);
  return row != nullptr && row->clear;
}

const Conventions kUsual;
const Taught kNothingKnown;

SearchGround source_with(const BlockList* blocked = nullptr) {
  return {shared_phonics(), kUsual, kNothingKnown, blocked, pictured};
}

PatternId pattern(std::string_view id) {
  const PatternCatalogue& all = shared_phonics().patterns();
  const Pattern* found = all.by_id(id);
  EXPECT_NE(found, nullptr) << id;
  return all.id_of(*found);
}

std::vector<std::string> names(const std::vector<FoundWord>& words) {
  std::vector<std::string> result;
  for (const FoundWord& w : words) result.push_back(w.reading->word);
  return result;
}

WordQuery query(std::string_view id, std::size_t count) {
  WordQuery q;
  q.pattern = pattern(id);
  q.count = count;
  return q;
}

TEST(Find, GivesTheSameWordsEveryTime) {
  const auto first = names(find_words(source_with(), query("oa", 12)));
  EXPECT_EQ(first, names(find_words(source_with(), query("oa", 12))));
  EXPECT_EQ(first.size(), 12U);
  EXPECT_EQ(first.front(), "boat");
}

TEST(Find, EveryWordHasThePatternAndIsCommon) {
  for (const Pattern& p : shared_phonics().patterns().all()) {
    const auto found = find_words(source_with(), query(p.id, 20));
    std::set<std::string> once;
    for (const FoundWord& w : found) {
      EXPECT_NE(w.reading->find(pattern(p.id)), nullptr)
          << w.reading->word << " " << p.id;
      EXPECT_TRUE(once.insert(w.reading->word).second) << w.reading->word;
      EXPECT_TRUE(w.info.everyday || (w.info.tier > 0 && w.info.tier <= 20))
          << w.reading->word;
      EXPECT_FALSE(BlockList::shipped().blocks(w.reading->word));
    }
  }
}

// The list of the Debian package wamerican, or Sheaf's everyday words.
TEST(Find, NoSuggestionIsOutsideTheDictionaryOfTheSystem) {
  std::set<std::string> known;
  for (const char* path :
       {"/usr/share/dict/american-english", SHEAF_DATA "/everyday_words.txt",
        SHEAF_DATA "/first_words.txt"}) {
    std::ifstream file(path);
    ASSERT_TRUE(file) << path;
    for (std::string word; file >> word;) known.insert(word);
  }
  for (const Pattern& p : shared_phonics().patterns().all()) {
    for (const auto& word : names(find_words(source_with(), query(p.id, 30)))) {
      EXPECT_TRUE(known.contains(word)) << word << " for " << p.id;
    }
  }
}

TEST(Find, AFirstSetHasThePatternInOnePlace) {
  const auto found = find_words(source_with(), query("sh", 8));
  for (const FoundWord& w : found) EXPECT_EQ(w.place, found.front().place);
  WordQuery later = query("sh", 20);
  later.first_set = false;
  std::set<PatternWord::Place> places;
  for (const FoundWord& w : find_words(source_with(), later)) {
    places.insert(w.place);
  }
  EXPECT_GT(places.size(), 1U);
}

TEST(Find, LimitsAreKept) {
  WordQuery q = query("ai", 10);
  q.syllables = {1, 1};
  q.letters = {4, 4};
  q.pictures_only = true;
  const auto found = find_words(source_with(), q);
  EXPECT_GE(found.size(), 1U);
  for (const FoundWord& w : found) {
    EXPECT_EQ(w.reading->word.size(), 4U);
    EXPECT_EQ(w.reading->syllables(), 1);
    EXPECT_TRUE(pictured(w.reading->word));
  }
}

TEST(Find, LeavesOutWordsThatWereUsedAndTheirForms) {
  WordQuery q = query("oa", 30);
  q.leave_out = {"boat", "float"};
  for (const auto& word : names(find_words(source_with(), q))) {
    EXPECT_NE(word, "boat");
    EXPECT_NE(word, "boats");
    EXPECT_NE(word, "floats");
  }
}

TEST(Find, ATeachersOwnWordsAreLeftOut) {
  BlockList own;
  own.add("# not these\nboat Goat, soap\n");
  for (const auto& word :
       names(find_words(source_with(&own), query("oa", 30)))) {
    EXPECT_NE(word, "boat");
    EXPECT_NE(word, "goat");
    EXPECT_NE(word, "soap");
  }
}

TEST(BlockList, NumbersStandForWordsAndTheirEndings) {
  const std::vector<std::string> words = {"plop"};
  std::string text;
  for (const std::string& part : blocked_parts(words, shared_phonics())) {
    EXPECT_EQ(part.find("plop"), std::string::npos);
    text += part + "\n";
  }
  BlockList list;
  list.add(text);
  for (const char* word : {"plop", "Plops", "plopped", "plopping"}) {
    EXPECT_TRUE(list.blocks(word)) << word;
  }
  EXPECT_FALSE(list.blocks("plot"));
  EXPECT_FALSE(BlockList::shipped().blocks("boat"));
}

TEST(SameWord, EndingsDoNotMakeAnotherWord) {
  EXPECT_TRUE(is_same_word("hop", "hopping"));
  EXPECT_TRUE(is_same_word("hoping", "hope"));
  EXPECT_TRUE(is_same_word("wish", "wishes"));
  EXPECT_TRUE(is_same_word("babies", "baby"));
  EXPECT_TRUE(is_same_word("knife", "knives"));
  EXPECT_TRUE(is_same_word("runner", "run"));
  EXPECT_FALSE(is_same_word("she", "shed"));
  EXPECT_FALSE(is_same_word("see", "seed"));
}

TEST(Pseudo, NoneIsAWordOrSoundsLikeOne) {
  const std::set<std::string> real = scowl_words(70);
  for (const char* id : {"sh", "ch", "ck", "a_e", "i_e", "oa", "ee", "igh",
                         "ar", "or", "ng", "nk", "qu", "ow_ow", "oo_long"}) {
    const auto made = pseudo_words(source_with(), pattern(id), 20);
    EXPECT_GE(made.size(), 8U) << id;
    for (const PseudoWord& w : made) {
      EXPECT_FALSE(real.contains(w.word)) << w.word;
      // Nor what learners write for one: telled.
      EXPECT_TRUE(shared_phonics().right_forms(w.word).empty()) << w.word;
      std::vector<Phoneme> sounds;
      for (const Unit& unit : w.units) {
        sounds.insert(sounds.end(), unit.listed.begin(), unit.listed.end());
      }
      EXPECT_FALSE(shared_phonics().is_said_like_a_word(sounds, {})) << w.word;
    }
  }
}

// Common practice, no source: where letters can stand.
TEST(Pseudo, LettersStandWhereEnglishHasThem) {
  int turn = 0;  // each fifth pattern: all of them take seconds
  for (const Pattern& p : shared_phonics().patterns().all()) {
    if (++turn % 5 != 0) continue;
    if (!p.of_units || p.id == "soft_c" || p.id == "soft_g") continue;
    for (const PseudoWord& w : pseudo_words(source_with(), pattern(p.id), 20)) {
      const std::string& word = w.word;
      for (std::size_t i = 0; i + 1 < word.size(); ++i) {
        const bool soft =
            std::string_view("eiy").find(word[i + 1]) != std::string_view::npos;
        for (const Unit& unit : w.units) {
          if (unit.grapheme != "c" || unit.listed[0] != Phoneme::k) continue;
          EXPECT_FALSE(word[i] == 'c' && soft && unit.begin == i &&
                       unit.end == i + 1)
              << word;
        }
        EXPECT_FALSE(word[i] == 'k' && (i == 0) &&
                     std::string_view("aou").find(word[1]) !=
                         std::string_view::npos)
            << word;
      }
      const char last = word.back();
      const bool doubled = word[word.size() - 2] == last;
      EXPECT_TRUE(doubled || std::string_view("cjqvz").find(last) ==
                                 std::string_view::npos)
          << word;
    }
  }
}

// Source: the words of the BATH set of general British English (Wells,
// Accents of English, 1982, from memory).
TEST(Search, AWordHasThePatternInTheAccentThatIsAskedFor) {
  Conventions british = conventions_for(Accent::british);
  const Taught taught;
  const SearchGround ground{shared_phonics(), british, taught, nullptr, {}};
  WordQuery query;
  query.pattern = *shared_phonics().patterns().find_exact("short_a");
  query.count = 300;
  const auto words = find_words(ground, query);
  EXPECT_GE(words.size(), 100U);
  for (const FoundWord& word : words) {
    for (const char* other : {"mask", "last", "past", "fast", "bath", "task",
                              "glass", "plant", "ask", "after", "class"}) {
      EXPECT_NE(word.reading->word, other);
    }
  }
}

}  // namespace
}  // namespace sheaf
