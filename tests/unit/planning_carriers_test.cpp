// The sentences to say dictated words in, read by a program: each has its word
// once and nothing that sounds like it, words that are known, and its form; and
// what Sheaf suggests has one.

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <set>

#include "phonics/accent.h"
#include "phonics/carriers.h"
#include "phonics/sentence_bank.h"
#include "phonics/words_in.h"
#include "pictures/picture_words.h"
#include "planning/sentence_search.h"
#include "planning/word_search.h"
#include "unit/bank_names.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

constexpr Accent kAccents[] = {Accent::general_american, Accent::british,
                               Accent::scottish, Accent::australian};

std::vector<Carrier> carriers() {
  const Carriers& all = shared_phonics().bank().carriers();
  std::vector<Carrier> list;
  for (std::size_t i = 0; i < all.size(); ++i) list.push_back(all.at(i));
  return list;
}

std::vector<std::string> words_of(std::string_view sentence) {
  std::vector<std::string> words;
  for (const WordPlace& place : words_in(sentence)) {
    words.push_back(
        carrier_key(sentence.substr(place.begin, place.end - place.begin)));
  }
  return words;
}

// The readings of its word that a carrier is about.
std::vector<Reading> readings_of(const Carrier& carrier, Accent accent) {
  auto readings = shared_phonics().read(carrier.word, conventions_for(accent));
  std::erase_if(readings, [&](const Reading& reading) {
    return !carrier.any_reading && reading.label != carrier.label;
  });
  return readings;
}

std::string_view sentence_of(const std::string& word, const char* label) {
  for (const Reading& reading : shared_phonics().read(word, Conventions{})) {
    if (reading.label == label) {
      return carrier_of(shared_phonics(), reading, Conventions{});
    }
  }
  ADD_FAILURE() << word << " has no reading " << label;
  return {};
}

TEST(Carriers, HaveTheirWordOnce) {
  for (const Carrier& carrier : carriers()) {
    const auto words = words_of(carrier.sentence);
    EXPECT_EQ(std::ranges::count_if(words,
                                    [&](const std::string& word) {
                                      return lower_case(word) ==
                                             lower_case(carrier.word);
                                    }),
              1)
        << carrier.word << ": " << carrier.sentence;
  }
}

TEST(Carriers, HaveNothingThatSoundsLikeTheirWord) {
  for (const Carrier& carrier : carriers()) {
    const auto words = words_of(lower_case(carrier.sentence));
    for (const Accent accent : kAccents) {
      for (const Reading& reading : readings_of(carrier, accent)) {
        for (const std::string& other :
             shared_phonics().sound_alikes(reading, conventions_for(accent))) {
          EXPECT_EQ(std::ranges::count(words, other), 0)
              << carrier.word << ", " << other << ": " << carrier.sentence;
        }
      }
    }
  }
}

TEST(Carriers, AreOfKnownWords) {
  for (const Carrier& carrier : carriers()) {
    for (const std::string& word : words_of(carrier.sentence)) {
      EXPECT_TRUE(shared_phonics().knows(word))
          << word << ": " << carrier.sentence;
      EXPECT_TRUE(word == carrier.word || !is_foreign_name(word))
          << word << ": " << carrier.sentence;
    }
  }
}

TEST(Carriers, AreWellFormed) {
  for (const Carrier& carrier : carriers()) {
    const std::string text(carrier.sentence);
    const std::size_t first = text.starts_with("\u201C") ? 3 : 0;
    EXPECT_NE(std::isupper(static_cast<unsigned char>(text[first])), 0) << text;
    std::string_view end = text;
    if (end.ends_with("\u201D")) end.remove_suffix(3);
    EXPECT_TRUE(end.ends_with('.') || end.ends_with('!') || end.ends_with('?'))
        << text;
    for (const char* odd : {"  ", "\"", "\u2019", "\t", "\r"}) {
      EXPECT_EQ(text.find(odd), std::string::npos) << text;
    }
    const std::size_t words = words_in(text).size();
    EXPECT_GE(words, 4U) << text;
    EXPECT_LE(words, 13U) << text;
  }
}

TEST(Carriers, AreAllDifferent) {
  std::set<std::string> seen;
  for (const Carrier& carrier : carriers()) {
    EXPECT_TRUE(seen.insert(sentence_key(carrier.sentence)).second)
        << carrier.sentence;
  }
}

TEST(Carriers, AreFoundInEveryAccent) {
  for (const Carrier& carrier : carriers()) {
    for (const Accent accent : kAccents) {
      const auto readings = readings_of(carrier, accent);
      EXPECT_FALSE(readings.empty()) << carrier.word << ' ' << carrier.label;
      for (const Reading& reading : readings) {
        EXPECT_EQ(
            carrier_of(shared_phonics(), reading, conventions_for(accent)),
            carrier.sentence);
      }
    }
  }
}

// A brand more than a word.
const std::set<std::string> kWithout = {"superman"};

TEST(Carriers, AreThereForAllThatIsFoundFirst) {
  const Conventions usual;
  const Taught nothing;
  // As `sheaf find` looks: words with a clear picture come sooner.
  const SearchGround ground{shared_phonics(), usual, nothing, nullptr,
                            [](std::string_view word) {
                              const PictureWord* row = find_picture_word(word);
                              return row != nullptr && row->clear;
                            }};
  std::set<std::string> without;
  int found = 0;
  for (std::size_t i = 0; i < shared_phonics().patterns().all().size(); ++i) {
    WordQuery query;
    query.pattern = static_cast<PatternId>(i);
    query.count = 20;
    for (const FoundWord& word : find_words(ground, query)) {
      ++found;
      if (carrier_of(shared_phonics(), *word.reading, usual).empty()) {
        without.insert(word.reading->word);
      }
    }
  }
  EXPECT_GT(found, 2800);
  EXPECT_EQ(without, kWithout);
}

// Common practice, no source: two words that are spelled alike have a sentence
// each, or only one of them has one.
TEST(Carriers, AreOfOneReading) {
  struct Row {
    const char *word, *label, *has;  // a word that only its sentence has
  };
  constexpr Row kRows[] = {
      {"read", "present", "sign"},    {"read", "past", "Last"},
      {"wind", "noun", "cold"},       {"wind", "verb", "hose"},
      {"live", "verb", "gulls"},      {"live", "adjective", "music"},
      {"lead", "verb", "way"},        {"lead", "metal", "pipe"},
      {"close", "verb", "window"},    {"close", "adjective", "school"},
      {"use", "noun", "map"},         {"tear", "noun", "cheek"},
      {"tear", "verb", "paper"},      {"record", "noun", "school"},
      {"record", "verb", "button"},   {"present", "noun", "birthday"},
      {"present", "verb", "team"},    {"minute", "noun", "keys"},
      {"minute", "adjective", "sand"}};
  for (const Row& row : kRows) {
    EXPECT_NE(sentence_of(row.word, row.label).find(row.has),
              std::string_view::npos)
        << row.word << ' ' << row.label << ": "
        << sentence_of(row.word, row.label);
  }
  EXPECT_EQ(sentence_of("desert", "verb"), "");
  EXPECT_EQ(sentence_of("learned", "adjective"), "");
  EXPECT_EQ(sentence_of("moped", "past of mope"), "");
}

TEST(Carriers, AreOfTheWordAsItIsSpelled) {
  const auto carrier = [](std::string_view word) {
    return carrier_of(shared_phonics(),
                      shared_phonics().read(word, Conventions{}).front(),
                      Conventions{});
  };
  EXPECT_FALSE(carrier("jack").empty());
  EXPECT_TRUE(carrier("Jack").empty());
  EXPECT_FALSE(carrier("gray").empty());
  EXPECT_TRUE(carrier("grey").empty());
  EXPECT_FALSE(carrier("don't").empty());
  EXPECT_EQ(carrier("don\u2019t"), carrier("don't"));
}

TEST(Carriers, AreFoundForASplitByHand) {
  const std::vector<HandUnit> noun = {
      {"w", ""}, {"i", "i"}, {"n", ""}, {"d", ""}};
  const std::vector<HandUnit> verb = {
      {"w", ""}, {"i", "igh"}, {"n", ""}, {"d", ""}};
  const auto carrier = [](const std::vector<HandUnit>& parts) {
    const HandReading read =
        shared_phonics().read_by_hand("wind", parts, Conventions{});
    EXPECT_EQ(read.fault, "");
    return carrier_of(shared_phonics(), read.reading, Conventions{});
  };
  EXPECT_EQ(carrier(noun), sentence_of("wind", "noun"));
  EXPECT_EQ(carrier(verb), sentence_of("wind", "verb"));
}

}  // namespace
}  // namespace sheaf
