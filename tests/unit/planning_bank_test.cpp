// The sentences and passages that come with Sheaf, read by a program: known
// words, the pattern that each was written for, form, length, and no two alike.
// What a group can read is judged by src/data/teaching_order.yaml.

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "analysis/taught.h"
#include "base/utf8.h"
#include "input/sequence.h"
#include "phonics/sentence_bank.h"
#include "planning/sentence_search.h"
#include "unit/bank_names.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

const Conventions kSpoken;

const SentenceBank& bank() { return shared_phonics().bank(); }

std::string pattern_id(PatternId id) {
  return std::string(shared_phonics().patterns()[id].id);
}

struct Order {
  std::unique_ptr<SourceFile> file;
  SequenceFile sequence;
  /// The step of each pattern; 8 for what is known from the start.
  std::map<PatternId, int> step;
  std::vector<Taught> taught;
};

const Order& order() {
  static const Order all = [] {
    Order made;
    std::ifstream in(SHEAF_TEACHING_ORDER);
    std::stringstream text;
    text << in.rdbuf();
    made.file = std::make_unique<SourceFile>("order.yaml", text.str());
    Diagnostics diagnostics;
    made.sequence = read_sequence(*made.file, diagnostics);
    for (std::size_t i = 0; i < made.sequence.steps.size(); ++i) {
      made.taught.push_back(taught_at(made.sequence, static_cast<int>(i),
                                      shared_phonics(), diagnostics));
      for (const PatternId id :
           made.taught.back().patterns_of(static_cast<int>(i))) {
        made.step.emplace(id, static_cast<int>(i));
      }
    }
    EXPECT_FALSE(diagnostics.has_errors());
    constexpr int kWithTheFirstDigraph = 7;
    for (std::size_t id = 0; id < shared_phonics().patterns().all().size();
         ++id) {
      made.step.emplace(static_cast<PatternId>(id), kWithTheFirstDigraph);
    }
    return made;
  }();
  return all;
}

std::vector<std::string> words_of(const BankText& text) {
  std::vector<std::string> words;
  for (const BankWord word : text.words) {
    words.emplace_back(bank().spelling(word));
  }
  return words;
}

std::vector<BankSentence> sentences() {
  std::vector<BankSentence> all;
  for (std::size_t i = 0; i < bank().size(); ++i) {
    if (bank().is_sentence(i)) all.push_back(bank().sentence(i));
  }
  return all;
}

std::vector<BankPassage> passages() {
  std::vector<BankPassage> all;
  for (std::size_t i = 0; i < bank().size(); ++i) {
    if (bank().is_passage(i)) all.push_back(bank().passage(i));
  }
  return all;
}

bool has(const std::string& word, PatternId pattern) {
  return shared_phonics().first_reading(word, kSpoken)->find(pattern) !=
         nullptr;
}

bool is_readable(const std::string& word, const Taught& taught) {
  const auto reading = shared_phonics().first_reading(word, kSpoken);
  return taught.is_sight_word(lower_case(word)) ||
         taught.is_decodable(*reading);
}

bool is_readable(const BankText& text, const Taught& taught) {
  const auto words = words_of(text);
  return std::ranges::all_of(
      words, [&](const std::string& w) { return is_readable(w, taught); });
}

TEST(Bank, KnowsEveryWord) {
  for (std::size_t i = 0; i < bank().word_count(); ++i) {
    const std::string word(bank().spelling(static_cast<BankWord>(i)));
    EXPECT_TRUE(shared_phonics().knows(word)) << word;
  }
}

TEST(Bank, UsesNoNamesButItsOwn) {
  const auto check = [](const BankText& text) {
    for (const std::string& word : words_of(text)) {
      EXPECT_FALSE(is_foreign_name(word)) << word << ": " << text.text;
    }
  };
  for (const BankSentence& sentence : sentences()) check(sentence);
}

TEST(Bank, HasThePatternThatEachWasWrittenFor) {
  for (const BankSentence& sentence : sentences()) {
    const auto words = words_of(sentence);
    EXPECT_TRUE(std::ranges::any_of(
        words,
        [&](const std::string& word) { return has(word, sentence.pattern); }))
        << pattern_id(sentence.pattern) << ": " << sentence.text;
  }
}

TEST(Bank, HasWellFormedSentences) {
  for (const BankSentence& sentence : sentences()) {
    const std::string text(sentence.text);
    const std::size_t first = text.find_first_not_of("\u201C");
    EXPECT_TRUE(std::isupper(static_cast<unsigned char>(text[first])) != 0 ||
                text.starts_with("\u201C"))
        << text;
    std::string_view end = text;
    if (end.ends_with("\u201D")) end.remove_suffix(3);
    EXPECT_TRUE(end.ends_with('.') || end.ends_with('!') || end.ends_with('?'))
        << text;
    EXPECT_EQ(text.find("  "), std::string::npos) << text;
    EXPECT_EQ(text.find('"'), std::string::npos) << text;
    EXPECT_EQ(text.find("\u2019"), std::string::npos) << text;
  }
}

// Early ones are short.
TEST(Bank, GrowsInLengthWithTheSteps) {
  for (const BankSentence& sentence : sentences()) {
    const int step = order().step.at(sentence.pattern) + 1;
    const std::size_t most = step <= 10 ? 8 : step <= 30 ? 10 : 14;
    EXPECT_LE(sentence.words.size(), most) << sentence.text;
    EXPECT_GE(sentence.words.size(), 3U) << sentence.text;
  }
}

// Two sentences are alike where one has nearly all the words of the other.
TEST(Bank, HasNoTwoAlike) {
  const auto all = sentences();
  std::map<std::string, std::string_view> seen;
  std::map<std::string, std::vector<std::size_t>> with_word;
  std::vector<std::set<std::string>> sets;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto [place, is_new] =
        seen.emplace(sentence_key(all[i].text), all[i].text);
    EXPECT_TRUE(is_new) << all[i].text;
    std::set<std::string> words;
    for (const std::string& word : words_of(all[i])) {
      words.insert(lower_case(word));
    }
    std::map<std::size_t, std::size_t> shared;
    for (const std::string& word : words) {
      for (const std::size_t other : with_word[word]) ++shared[other];
      with_word[word].push_back(i);
    }
    for (const auto& [other, count] : shared) {
      const std::size_t either = words.size() + sets[other].size() - count;
      EXPECT_LT(count * 100, either * 84)
          << all[i].text << " / " << all[other].text;
    }
    sets.push_back(std::move(words));
  }
}

TEST(Bank, HasEnoughForEveryPattern) {
  for (std::size_t i = 0; i < shared_phonics().patterns().all().size(); ++i) {
    const auto id = static_cast<PatternId>(i);
    const Taught& taught =
        order().taught[static_cast<std::size_t>(order().step.at(id))];
    int carry = 0, readable = 0;
    for (const std::uint16_t number : bank().with(id)) {
      if (!bank().is_sentence(number)) continue;
      ++carry;
      readable += is_readable(bank().sentence(number), taught) ? 1 : 0;
    }
    EXPECT_GE(carry, 20) << pattern_id(id);
    EXPECT_GE(readable, 8) << pattern_id(id);
  }
  EXPECT_GE(sentences().size(), 4000U);
}

TEST(Bank, HasPassagesThatCanBeRead) {
  for (const BankPassage& passage : passages()) {
    const auto step =
        static_cast<std::size_t>(order().step.at(passage.pattern));
    const Taught& taught = order().taught[step];
    std::vector<BankText> parts = passage.questions;
    parts.push_back(passage.title);
    parts.push_back(passage.text);
    for (const BankText& part : parts) {
      for (const std::string& word : words_of(part)) {
        EXPECT_TRUE(is_readable(word, taught))
            << passage.title.text << " (" << pattern_id(passage.pattern)
            << "): " << word;
      }
    }
    EXPECT_GE(passage.questions.size(), 2U) << passage.title.text;
    EXPECT_GE(passage.text.words.size(), 20U) << passage.title.text;
    EXPECT_LE(passage.text.words.size(), 200U) << passage.title.text;
    const auto words = words_of(passage.text);
    EXPECT_GE(std::ranges::count_if(words,
                                    [&](const std::string& word) {
                                      return has(word, passage.pattern);
                                    }),
              4)
        << passage.title.text;
  }
  std::set<std::string> titles;
  for (const BankPassage& passage : passages()) {
    EXPECT_TRUE(titles.insert(sentence_key(passage.title.text)).second)
        << passage.title.text;
  }
}

TEST(Sentences, AreReadableAndUnlikeEachOther) {
  for (std::size_t step = 0; step < order().taught.size(); ++step) {
    const Taught& taught = order().taught[step];
    SentenceQuery query;
    query.patterns = taught.patterns_of(static_cast<int>(step));
    query.count = 6;
    const SearchGround ground{shared_phonics(), kSpoken, taught, nullptr, {}};
    const auto found = find_sentences(ground, query);
    EXPECT_EQ(found.size(), 6U) << "step " << step + 1;
    for (const FoundSentence& sentence : found) {
      EXPECT_TRUE(sentence.not_yet.empty()) << sentence.text;
      EXPECT_GE(sentence.pattern_words, 1) << sentence.text;
    }
    // The same again, and others where these are left out.
    const auto again = find_sentences(ground, query);
    ASSERT_EQ(again.size(), found.size());
    for (std::size_t i = 0; i < found.size(); ++i) {
      EXPECT_EQ(again[i].text, found[i].text);
      query.leave_out.insert(sentence_key(found[i].text));
    }
    for (const FoundSentence& other : find_sentences(ground, query)) {
      EXPECT_FALSE(query.leave_out.contains(sentence_key(other.text)))
          << other.text;
    }
  }
}

TEST(Sentences, NearOnesSayWhatIsMissing) {
  const Taught& taught = order().taught[0];
  SentenceQuery query;
  query.patterns = {*shared_phonics().patterns().find_exact("oa")};
  query.count = 3;
  const SearchGround ground{shared_phonics(), kSpoken, taught, nullptr, {}};
  EXPECT_TRUE(find_sentences(ground, query).empty());
  query.near_ones = true;
  const auto found = find_sentences(ground, query);
  ASSERT_EQ(found.size(), 3U);
  for (const FoundSentence& sentence : found) {
    EXPECT_FALSE(sentence.not_yet.empty()) << sentence.text;
  }
}

OwnSentences own_of(const std::vector<std::string>& texts) {
  OwnSentences own;
  for (const std::string& text : texts) own.add(text);
  return own;
}

TEST(Sentences, OwnOnesComeFirst) {
  const Taught& taught = order().taught[40];
  SentenceQuery query;
  query.patterns = {*shared_phonics().patterns().find_exact("oa")};
  query.count = 5;
  // Poor in the pattern, alike, and one with a word that no list knows.
  const OwnSentences own = own_of(
      {"His goat ate the soap.", "The goat is red.", "The goat had a plob."});
  const SearchGround ground{shared_phonics(), kSpoken, taught,
                            nullptr,          {},      [&] { return &own; }};
  const auto found = find_sentences(ground, query);
  ASSERT_EQ(found.size(), 5U);
  std::set<std::string> first;
  for (std::size_t i = 0; i < found.size(); ++i) {
    EXPECT_EQ(found[i].own, i < 3) << found[i].text;
    EXPECT_TRUE(found[i].not_yet.empty()) << found[i].text;
    if (i < 3) first.insert(found[i].text);
  }
  EXPECT_EQ(first.size(), 3U);
  EXPECT_EQ(found.front().text, "His goat ate the soap.");
}

// What cannot be read yet waits behind all that can, whoever wrote it.
TEST(Sentences, OwnOnesThatCannotBeReadComeLast) {
  const Taught& taught = order().taught[40];
  SentenceQuery query;
  query.patterns = {*shared_phonics().patterns().find_exact("oa")};
  query.count = 300;
  query.near_ones = true;
  const OwnSentences own = own_of({"The goat has a station."});
  const SearchGround ground{shared_phonics(), kSpoken, taught,
                            nullptr,          {},      [&] { return &own; }};
  const auto found = find_sentences(ground, query);
  const auto mine = std::ranges::find(found, true, &FoundSentence::own);
  ASSERT_NE(mine, found.end());
  EXPECT_EQ(mine->not_yet, std::vector<std::string>{"station"});
  EXPECT_GT(mine - found.begin(), 8);
  EXPECT_TRUE(std::all_of(mine, found.end(), [](const FoundSentence& other) {
    return !other.not_yet.empty();
  }));
}

// A sentence that Sheaf has as well is found once, as the teacher's.
TEST(Sentences, OnesOfBothAreFoundOnce) {
  const Taught& taught = order().taught[40];
  SentenceQuery query;
  query.patterns = {*shared_phonics().patterns().find_exact("oa")};
  query.count = 1;
  const SearchGround alone{shared_phonics(), kSpoken, taught, nullptr, {}};
  const std::string text = find_sentences(alone, query).at(0).text;
  std::string other = text;
  other.back() = other.back() == '!' ? '.' : '!';
  const OwnSentences own = own_of({other, text});
  ASSERT_EQ(own.all().size(), 1U);
  const SearchGround ground{shared_phonics(), kSpoken, taught,
                            nullptr,          {},      [&] { return &own; }};
  query.count = 200;
  int times = 0;
  for (const FoundSentence& found : find_sentences(ground, query)) {
    if (sentence_key(found.text) != sentence_key(text)) continue;
    ++times;
    EXPECT_TRUE(found.own);
    EXPECT_EQ(found.text, other);
  }
  EXPECT_EQ(times, 1);
}

TEST(Sentences, ToWriteAreShort) {
  for (const std::size_t step : {10U, 40U, 60U}) {
    const Taught& taught = order().taught[step];
    SentenceQuery query;
    query.patterns = taught.patterns_of(static_cast<int>(step));
    query.count = 3;
    query.to_write = true;
    query.words.most = 9;
    const SearchGround ground{shared_phonics(), kSpoken, taught, nullptr, {}};
    for (const FoundSentence& sentence : find_sentences(ground, query)) {
      EXPECT_LE(sentence.words, 9) << sentence.text;
    }
  }
}

}  // namespace
}  // namespace sheaf
