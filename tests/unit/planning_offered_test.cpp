// Which words are offered: those that a teacher would name first, and none that
// is unfit for a child who struggles.

#include <gtest/gtest.h>

#include <map>
#include <set>
#include <sstream>

#include "phonics/table_text.h"
#include "pictures/picture_words.h"
#include "planning/contrast.h"
#include "planning/word_search.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

const Conventions kUsual;
const Taught kNothingKnown;

const SearchGround& ground() {
  static const SearchGround source{shared_phonics(), kUsual, kNothingKnown,
                                   nullptr, [](std::string_view word) {
                                     const PictureWord* row =
                                         find_picture_word(word);
                                     return row != nullptr && row->clear;
                                   }};
  return source;
}

PatternId pattern(std::string_view id) {
  const Pattern* found = shared_phonics().patterns().by_id(id);
  EXPECT_NE(found, nullptr) << id;
  return shared_phonics().patterns().id_of(*found);
}

WordQuery query(std::string_view id, std::size_t count) {
  WordQuery q;
  q.pattern = pattern(id);
  q.count = count;
  return q;
}

std::vector<std::string> offered(const WordQuery& q) {
  std::vector<std::string> words;
  for (const FoundWord& w : find_words(ground(), q)) {
    words.push_back(w.reading->word);
  }
  return words;
}

std::vector<std::string> offered(std::string_view id, std::size_t count) {
  return offered(query(id, count));
}

bool has(const std::vector<std::string>& words, std::string_view word) {
  return std::ranges::find(words, word) != words.end();
}

PatternWord entry(std::string_view id, std::string_view word) {
  for (const PatternWord& w : shared_phonics().pattern_words(pattern(id), {})) {
    if (w.word == word) return w;
  }
  ADD_FAILURE() << word << " is not in the index of " << id;
  return {};
}

// Rows below the head, with their cells.
std::vector<std::vector<std::string>> rows_of(const std::string& file) {
  const std::string text = test_data(file);
  std::vector<std::vector<std::string>> rows;
  for (const TableRow& row : table_rows(text)) {
    rows.push_back({row.cells.begin(), row.cells.end()});
  }
  rows.erase(rows.begin());
  return rows;
}

TEST(Offered, NoWordThatWasJudgedUnfit) {
  int rows = 0;
  for (const auto& row : rows_of("planning_unfit.tsv")) {
    ++rows;
    EXPECT_FALSE(has(offered(row[0], 20), row[1]))
        << row[1] << " for " << row[0] << ": " << row[2];
  }
  EXPECT_EQ(rows, 82);
}

// The list was written before anyone looked and is never tuned to. Of its 300
// words the first twenty had 216 when it was written, and 255 at the first try
// with the rules that hold now.
TEST(Offered, WordsThatATeacherNamesFirst) {
  int found = 0, all = 0;
  for (const auto& row : rows_of("planning_first_named.tsv")) {
    const auto words = offered(row[0], 20);
    std::istringstream named(row[1]);
    for (std::string word; named >> word; ++all) found += has(words, word);
  }
  EXPECT_EQ(all, 300);
  EXPECT_GE(found, 255);
}

TEST(Offered, APlaceThatWouldStarveTheSetIsLeft) {
  const std::map<std::string, std::vector<std::string>> wanted = {
      {"th_voiced", {"this", "that", "mother", "father"}},
      {"ph", {"phone", "photo", "graph", "elephant"}},
      {"k_eiy", {"kit", "kid", "king", "kiss"}},
      {"er_est_double", {"bigger", "biggest", "hotter", "hottest"}}};
  for (const auto& [id, words] : wanted) {
    const auto first = offered(id, 12);
    for (const std::string& word : words) {
      EXPECT_TRUE(has(first, word)) << word << " for " << id;
    }
  }
}

// Where a place has words enough, a first set keeps to it.
TEST(Offered, APlaceWithEnoughWordsIsKept) {
  for (const char* id : {"sh", "short_i", "ck", "ay", "a_e", "ng", "blend_l"}) {
    const auto found = find_words(ground(), query(id, 10));
    ASSERT_EQ(found.size(), 10U) << id;
    for (const FoundWord& w : found) {
      EXPECT_EQ(w.place, found.front().place) << w.reading->word;
    }
  }
}

// A weak vowel cannot be sounded out (the e of toilet). Where words of one beat
// are enough for a lesson, none of its ten has one.
TEST(Offered, NoWeakVowelWhereShortWordsAreEnough) {
  const auto weak = [](const Reading& reading) {
    return std::ranges::any_of(reading.units, [](const Unit& unit) {
      return unit.listed.size() == 1 && unit.listed.front() == Phoneme::ax;
    });
  };
  for (const char* id :
       {"oi", "ai", "ay", "oa", "igh", "ow_ow", "ou_ow", "aw",  "ar", "or",
        "ir", "ur", "sh", "ch", "ck",  "a_e",   "i_e",   "o_e", "ee", "ew"}) {
    const auto found = find_words(ground(), query(id, 10));
    ASSERT_EQ(found.size(), 10U) << id;
    for (const FoundWord& w : found) {
      EXPECT_FALSE(weak(*w.reading)) << w.reading->word << " for " << id;
    }
  }
  // Nor has one of the four that a lesson looks for beside its ten.
  WordQuery more = query("oi", 4);
  for (const std::string& word : offered("oi", 10)) more.leave_out.insert(word);
  EXPECT_FALSE(has(offered(more), "toilet"));
  // What is only known in longer words has them as before.
  EXPECT_TRUE(has(offered("ph", 12), "elephant"));
  EXPECT_TRUE(has(offered("double_middle", 12), "carrot"));
}

TEST(Offered, OnlyWhatChildrenKnow) {
  for (const Pattern& p : shared_phonics().patterns().all()) {
    for (const FoundWord& w : find_words(ground(), query(p.id, 30))) {
      EXPECT_TRUE(w.info.everyday && !w.info.british && !w.older)
          << w.reading->word << " for " << p.id;
    }
  }
  for (const char* word : {"thee", "cite", "alpha", "ugh", "prepay"}) {
    EXPECT_FALSE(shared_phonics().info(word)->everyday) << word;
  }
  EXPECT_TRUE(shared_phonics().info("cat")->first);
  EXPECT_FALSE(shared_phonics().info("hydrant")->first);
  EXPECT_TRUE(shared_phonics().info("hydrant")->everyday);
}

// The reasons, each by words that nobody had named.
TEST(Offered, AWordIsHeldBackForItsReason) {
  EXPECT_TRUE(entry("ow_oh", "bow").unsure) << "it has another reading";
  EXPECT_TRUE(entry("short_i", "live").unsure);
  EXPECT_FALSE(entry("u_e_yoo", "use").unsure) << "both readings have it";
  EXPECT_TRUE(entry("u_put", "spatula").weak);
  EXPECT_FALSE(entry("u_put", "sugar").weak);
  EXPECT_FALSE(entry("on_final", "lemon").weak) << "it is about a weak beat";
  EXPECT_TRUE(entry("ng", "taking").affix);
  EXPECT_FALSE(entry("ng", "king").affix);
  EXPECT_TRUE(entry("e_open", "replay").affix);
  EXPECT_TRUE(entry("kn", "knot").twin) << "not is known sooner";
  EXPECT_TRUE(shared_phonics().info("cheque")->british);
  const auto read = [](const char* word) {
    return shared_phonics().read(word, kUsual).front();
  };
  EXPECT_EQ(read("koala").find(pattern("al_all")), nullptr);
  EXPECT_EQ(read("impala").find(pattern("al_all")), nullptr);
  EXPECT_NE(read("walrus").find(pattern("al_all")), nullptr);
  EXPECT_EQ(read("guy").find(pattern("y_eye")), nullptr);
  EXPECT_EQ(read("cake").find(pattern("k_eiy")), nullptr);
  EXPECT_NE(read("sketch").find(pattern("k_eiy")), nullptr);
}

TEST(Offered, NoFormWhereTheBaseWouldDo) {
  for (const Pattern& p : shared_phonics().patterns().all()) {
    if (p.id.starts_with("er_est")) continue;
    const auto found = find_words(ground(), query(p.id, 30));
    std::set<std::string> words;
    for (const FoundWord& w : found) words.insert(w.reading->word);
    for (const FoundWord& w : found) {
      EXPECT_FALSE(words.contains(w.base)) << w.reading->word << " " << p.id;
    }
  }
  WordQuery only_five = query("are", 20);
  only_five.letters = {6, 6};
  EXPECT_FALSE(has(offered(only_five), "scared")) << "scare would do";
}

TEST(Offered, OlderLearnersGetMoreBehindTheRest) {
  WordQuery q = query("sc", 30);
  const auto usual = find_words(ground(), q);
  q.older = true;
  const auto more = find_words(ground(), q);
  ASSERT_GT(more.size(), usual.size());
  bool older = false;
  for (const FoundWord& w : more) {
    EXPECT_TRUE(w.older || !older) << w.reading->word;
    older = older || w.older;
  }
  EXPECT_TRUE(has(offered(q), "discipline"));
}

TEST(Offered, GoodWordsAreCounted) {
  EXPECT_EQ(good_words(ground(), query("short_a", 12), 10), 10U);
  EXPECT_LT(good_words(ground(), query("is_silent", 12), 10), 10U);
  WordQuery older = query("is_silent", 12);
  older.older = true;
  EXPECT_LT(good_words(ground(), older, 10), 10U);
}

TEST(Contrast, PairsDifferInTheSoundOfThePatterns) {
  const auto pairs = contrast_pairs(ground(), query("sh", 12), pattern("ch"));
  ASSERT_GE(pairs.size(), 6U);
  std::set<std::string> words;
  for (const SoundPair& pair : pairs) {
    EXPECT_TRUE(words.insert(pair.first).second) << pair.first;
    EXPECT_TRUE(words.insert(pair.second).second) << pair.second;
  }
  EXPECT_TRUE(words.contains("ship") && words.contains("chip"));
  // A sound more, where the patterns are about how many there are.
  const auto blends =
      contrast_pairs(ground(), query("cvc", 12), pattern("ccvc"));
  EXPECT_EQ(blends.size(), 12U);
  // Two spellings of one sound have none; nor has a pattern with itself.
  EXPECT_TRUE(contrast_pairs(ground(), query("ai", 8), pattern("ay")).empty());
  EXPECT_TRUE(contrast_pairs(ground(), query("ai", 8), pattern("ai")).empty());
}

TEST(Contrast, PreferredWordsComeFirst) {
  WordQuery q = query("short_e", 10);
  q.prefer = words_of(contrast_pairs(ground(), q, pattern("short_i")));
  q.without = {pattern("short_i")};
  const auto first = offered(q);
  ASSERT_EQ(first.size(), 10U);
  for (std::size_t i = 0; i < first.size(); ++i) {
    EXPECT_EQ(first[i], q.prefer[2 * i]);
  }
}

}  // namespace
}  // namespace sheaf
