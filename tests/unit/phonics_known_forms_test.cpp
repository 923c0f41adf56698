// Which forms of known bases are known words: those of the lists, and no
// misspelled one. The misspellings are made here, by rules of the test's own.

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "phonics/irregular_forms.h"
#include "phonics/lexicon.h"
#include "phonics/table_text.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

using Words = std::set<std::string>;

bool is_vowel_letter(char c) {
  return std::string_view("aeiou").find(c) != std::string_view::npos;
}

bool ends_in(std::string_view word, std::initializer_list<const char*> ends) {
  for (const char* end : ends) {
    if (word.ends_with(end)) return true;
  }
  return false;
}

bool ends_in_consonant_y(const std::string& base) {
  return base.ends_with('y') && !is_vowel_letter(base[base.size() - 2]);
}

// stop, run: letters of one beat that end in one vowel and one consonant.
bool is_short_word(const std::string& base) {
  const std::size_t n = base.size();
  int vowels = 0;
  for (const char c : base) vowels += is_vowel_letter(c) || c == 'y' ? 1 : 0;
  return vowels == 1 && is_vowel_letter(base[n - 2]) && base.back() != 'w' &&
         base.back() != 'x' && base.back() != 'h';
}

bool is_short_with_two(const std::string& base) {
  const std::size_t n = base.size();
  return n > 3 && !is_vowel_letter(base[n - 1]) &&
         is_vowel_letter(base[n - 2]) && is_vowel_letter(base[n - 3]) &&
         base[n - 4] != 'q' &&
         std::string_view("bdgmnprt").find(base.back()) !=
             std::string_view::npos;
}

// How learners misspell forms of a base.
Words misspelled_forms(const std::string& base) {
  Words forms;
  const auto add = [&](const std::string& stem,
                       std::initializer_list<const char*> endings) {
    for (const char* ending : endings) forms.insert(stem + ending);
  };
  if (ends_in_consonant_y(base)) add(base, {"s", "ed", "er", "est", "ness"});
  const bool silent_e = base.ends_with('e') &&
                        !ends_in(base, {"ee", "oe", "ye", "ie", "ue", "nge"});
  if (silent_e) add(base, {"ing", "ed", "er", "est", "y"});
  if (is_short_word(base)) add(base, {"ing", "ed", "er", "est", "y"});
  if (is_short_with_two(base)) {
    add(base + base.back(), {"ing", "ed", "er", "est"});
  }
  if (ends_in(base, {"s", "x", "z", "sh", "tch"})) add(base, {"s"});
  if (base.ends_with("ic")) add(base, {"ing", "ed"});
  if (ends_in(base, {"ck", "mp", "nt", "st", "lp", "rk"})) {
    add(base + base.back(), {"ing", "ed"});
  }
  return forms;
}

// Regular forms as any book of spelling has them.
Words regular_forms(const std::string& base) {
  Words forms;
  std::string stem = base;
  if (ends_in_consonant_y(base)) {
    stem.back() = 'i';
    forms = {stem + "es",  stem + "ed", base + "ing", stem + "er",
             stem + "est", stem + "ly", stem + "ness"};
    return forms;
  }
  if (ends_in(base, {"s", "x", "z", "sh", "ch"})) {
    forms.insert(base + "es");
  } else {
    forms.insert(base + "s");
  }
  if (base.ends_with('e')) {
    stem.pop_back();
  } else if (is_short_word(base) && !base.ends_with('c')) {
    stem += stem.back();
  }
  for (const char* ending : {"ed", "ing", "er", "est"}) {
    forms.insert(stem + ending);
  }
  for (const char* ending : {"ly", "ness", "less", "ful", "ment"}) {
    forms.insert(base + ending);
  }
  return forms;
}

TEST(KnownForms, MisspelledFormsOfCommonWordsAreUnknown) {
  int asked = 0;
  std::vector<std::string> accepted;
  for (const std::string& base : scowl_words(35)) {
    if (base.size() < 3) continue;
    for (const std::string& form : misspelled_forms(base)) {
      if (every_scowl_word().contains(form)) continue;
      ++asked;
      if (shared_phonics().knows(form)) accepted.push_back(form);
    }
  }
  EXPECT_GE(asked, 20000);
  for (const std::string& form : accepted) ADD_FAILURE() << form;
}

TEST(KnownForms, IrregularWordsAreNotMadeRegular) {
  int asked = 0;
  for (const IrregularRow& row : irregular_rows()) {
    if (row.ending != Ending::ed && row.ending != Ending::s) continue;
    for (const std::string& form : regular_forms(row.base)) {
      if (!form.ends_with(row.ending == Ending::ed ? "ed" : "s") ||
          form.ends_with("less") || form.ends_with("ness")) {
        continue;
      }
      const bool right = std::ranges::find(row.forms, form) != row.forms.end();
      if (right || every_scowl_word().contains(form)) continue;
      ++asked;
      EXPECT_FALSE(shared_phonics().knows(form)) << form;
    }
  }
  EXPECT_GE(asked, 80);
  // The lists have these, for senses that nobody teaches.
  for (const char* word : {"mouses", "knifes", "wolfs", "leafs", "loafs",
                           "gooses", "foots", "payed", "hided", "teared"}) {
    EXPECT_FALSE(shared_phonics().knows(word)) << word;
  }
}

// Words of the lists up to 70 that are regular forms of common words, in
// whatever list the base stands: all known, but for irregular words made
// regular and for what only looks like a form.
TEST(KnownForms, RightFormsOfCommonWordsAreKnown) {
  const Words listed = scowl_words(70);
  int asked = 0;
  std::vector<std::string> unknown;
  for (const std::string& base : scowl_words(35)) {
    if (base.size() < 3 || !shared_phonics().knows(base)) continue;
    for (const std::string& form : regular_forms(base)) {
      if (!listed.contains(form)) continue;
      ++asked;
      if (!shared_phonics().knows(form)) unknown.push_back(form);
    }
  }
  EXPECT_GE(asked, 30000);
  EXPECT_LE(unknown.size(), 40U);
  for (const std::string& form : unknown) std::cout << form << " ";
  std::cout << "(" << unknown.size() << " of " << asked << ")\n";
}

TEST(KnownForms, TheTableOfFormsIsKnownRightAndUnknownWrong) {
  const std::string text = test_data("phonics_ending_forms.tsv");
  int right = 0, wrong = 0, meant = 0;
  for (const TableRow& row : table_rows(text)) {
    const auto forms = split_at(row.cell(3), '|');
    for (const std::string_view form : forms) {
      ++right;
      EXPECT_TRUE(shared_phonics().knows(form)) << form;
    }
    for (const std::string_view form : split_at(row.cell(4), '|')) {
      if (every_scowl_word().contains(std::string(form))) continue;
      ++wrong;
      EXPECT_FALSE(shared_phonics().knows(form)) << form;
      const auto suggested = shared_phonics().right_forms(form);
      if (!suggested.empty() &&
          std::ranges::find(forms, suggested.front()) != forms.end()) {
        ++meant;
      }
    }
  }
  EXPECT_GE(right, 780);
  EXPECT_GE(wrong, 600);
  EXPECT_GE(meant * 100, wrong * 95) << meant << " of " << wrong;
}

TEST(KnownForms, BothFormsAreKnownWhereBothAreRight) {
  for (const char* word :
       {"learned", "learnt", "burned", "burnt", "spelled", "spelt", "dwarfs",
        "dwarves", "hoofs", "hooves", "traveled", "travelled", "buses",
        "busses", "judgment", "judgement", "aging", "ageing"}) {
    EXPECT_TRUE(shared_phonics().knows(word)) << word;
  }
}

// A possessive and a word with a hyphen are known by their parts.
TEST(KnownForms, SignsJoinKnownWordsOnly) {
  for (const char* word :
       {"girl's", "girls'", "James's", "bus's", "runner's", "boxes'",
        "well-known", "knives'", "children's", "news's"}) {
    EXPECT_TRUE(shared_phonics().knows(word)) << word;
  }
  for (const char* word :
       {"girls's", "babys'", "carryed's", "box'", "runing's", "well-makeing"}) {
    EXPECT_FALSE(shared_phonics().knows(word)) << word;
  }
}

TEST(RightForms, AreWhatAWrongOneIsMeantFor) {
  const auto meant = [](std::string_view word) {
    const auto all = shared_phonics().right_forms(word);
    return all.empty() ? std::string() : all.front();
  };
  EXPECT_EQ(meant("carryed"), "carried");
  EXPECT_EQ(meant("Babys"), "babies");
  EXPECT_EQ(meant("runing"), "running");
  EXPECT_EQ(meant("begining"), "beginning");
  EXPECT_EQ(meant("boxs"), "boxes");
  EXPECT_EQ(meant("thiefs"), "thieves");
  EXPECT_EQ(meant("mouses"), "mice");
  EXPECT_EQ(meant("writed"), "wrote");
  EXPECT_EQ(meant("writting"), "writing");
  EXPECT_EQ(meant("beautyfull"), "beautiful");
  EXPECT_EQ(shared_phonics().right_forms("goed"),
            (std::vector<std::string>{"went", "gone"}));
  // Known words, and words that are no form of anything.
  for (const char* word :
       {"carried", "planed", "splomish", "vimming", "e", "girls'", "'", ""}) {
    EXPECT_EQ(meant(word), "") << word;
  }
}

}  // namespace
}  // namespace sheaf
