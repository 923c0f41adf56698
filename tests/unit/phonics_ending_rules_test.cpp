// The rules of endings, both ways, and what the word list makes of them.

#include "phonics/ending_rules.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "phonics/derive.h"
#include "phonics/irregular_forms.h"
#include "phonics/lexicon.h"
#include "phonics/table_text.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

std::vector<std::string> spellings(const std::vector<EndedWord>& words) {
  std::vector<std::string> all;
  for (const EndedWord& word : words) all.push_back(word.spelling);
  return all;
}

bool has(const std::vector<std::string>& all, std::string_view one) {
  return std::ranges::find(all, one) != all.end();
}

BaseTraits traits_in_list(std::string_view base) {
  const Lexicon& lexicon = shared_phonics().lexicon();
  BaseTraits traits;
  for (const WordRecord& record : lexicon.readings(base)) {
    traits = traits_of(record, lexicon.inventory());
    // Of permit the verb is meant.
    if (traits.last_beat == BaseTraits::Beat::strong) break;
  }
  return traits;
}

struct FormRow {
  std::string rule, base;
  Ending ending = Ending::none;
  std::vector<std::string> right, wrong;
};

// Of words in -ies and the like the table tells the ending as one asks for it.
std::vector<FormRow> form_rows() {
  std::vector<FormRow> rows;
  const std::string text = test_data("phonics_ending_forms.tsv");
  for (const TableRow& row : table_rows(text)) {
    FormRow read{std::string(row.cell(0)),
                 std::string(row.cell(1)),
                 ending_of_text(row.cell(2)),
                 {},
                 {}};
    for (const auto form : split_at(row.cell(3), '|')) {
      read.right.emplace_back(form);
    }
    for (const auto form : split_at(row.cell(4), '|')) {
      read.wrong.emplace_back(form);
    }
    rows.push_back(std::move(read));
  }
  return rows;
}

TEST(EndingRules, MakeEveryRightFormAndNoWrongOne) {
  const std::vector<FormRow> rows = form_rows();
  EXPECT_GE(rows.size(), 700U);
  for (const FormRow& row : rows) {
    const auto made = spellings(
        put_ending_on(row.base, row.ending, traits_in_list(row.base)));
    for (const std::string& form : row.right) {
      EXPECT_TRUE(has(made, form)) << row.rule << ": " << form;
    }
    // Whether -o takes -s or -es is for the lists to say.
    for (const std::string& form : row.wrong) {
      if (row.rule == "-o" || every_scowl_word().contains(form)) continue;
      EXPECT_FALSE(has(made, form)) << row.rule << ": " << form;
    }
  }
}

TEST(EndingRules, TakeApartWhatTheyMake) {
  int regular = 0;
  for (const FormRow& row : form_rows()) {
    for (const EndedWord& made : put_ending_on(row.base, row.ending)) {
      if (made.ending == Ending::none || row.base.size() < 3) continue;
      ++regular;
      bool found = false;
      for (const auto& a : possible_bases(made.spelling, made.ending)) {
        found = found || (a.base == row.base && a.joint == made.joint);
      }
      EXPECT_TRUE(found) << made.spelling;
    }
    for (const std::string& wrong : row.wrong) {
      const auto right = spellings(put_ending_on(row.base, row.ending));
      if (has(right, wrong)) continue;  // where the stress alone tells
      for (const Ending ending : {row.ending, Ending::es}) {
        for (const auto& a : possible_bases(wrong, ending)) {
          EXPECT_NE(a.base, row.base) << wrong;
        }
      }
    }
  }
  EXPECT_GE(regular, 600);
}

TEST(EndingRules, SayWhatWasDone) {
  const auto joint_of = [](std::string_view word, Ending ending,
                           std::string_view base) {
    for (const auto& a : possible_bases(word, ending)) {
      if (a.base == base) return static_cast<int>(a.joint);
    }
    return -1;
  };
  const auto is = [](Joint joint) { return static_cast<int>(joint); };
  EXPECT_EQ(joint_of("knives", Ending::es, "knife"), is(Joint::f_to_v));
  EXPECT_EQ(joint_of("penknives", Ending::es, "penknife"), is(Joint::f_to_v));
  EXPECT_EQ(joint_of("quizzes", Ending::es, "quiz"), is(Joint::doubled));
  EXPECT_EQ(joint_of("panicked", Ending::ed, "panic"), is(Joint::c_to_ck));
  EXPECT_EQ(joint_of("dying", Ending::ing, "die"), is(Joint::ie_to_y));
  EXPECT_EQ(joint_of("gently", Ending::ly, "gentle"), is(Joint::dropped_e));
  EXPECT_EQ(joint_of("wholly", Ending::ly, "whole"), is(Joint::dropped_e));
  EXPECT_EQ(joint_of("saves", Ending::es, "safe"), -1);
  EXPECT_EQ(joint_of("seed", Ending::ed, "see"), -1);
}

TEST(EndingRules, KnowIrregularWordsBehindPrefixesAndInCompounds) {
  const auto forms = [](std::string_view base, Ending ending) {
    return spellings(put_ending_on(base, ending));
  };
  using Words = std::vector<std::string>;
  EXPECT_EQ(forms("overtake", Ending::ed), (Words{"overtook", "overtaken"}));
  EXPECT_EQ(forms("snowman", Ending::s), Words{"snowmen"});
  EXPECT_EQ(forms("human", Ending::s), Words{"humans"});
  EXPECT_EQ(forms("belief", Ending::s), Words{"beliefs"});
  EXPECT_EQ(forms("target", Ending::ed), (Words{"targeted", "targetted"}));
  EXPECT_EQ(forms("mongoose", Ending::s), (Words{"mongooses", "mongeese"}));
}

// Every row names an ending that there is, forms that its base does not have
// twice, and what the rules would not say by themselves.
TEST(IrregularForms, TheirTableIsInOrder) {
  EXPECT_GE(irregular_rows().size(), 600U);
  std::map<std::pair<std::string, Ending>, int> seen;
  for (const IrregularRow& row : irregular_rows()) {
    const auto key = std::pair(row.base, row.ending);
    const int count = ++seen[key];
    EXPECT_EQ(count, 1) << row.base;
    EXPECT_NE(row.ending, Ending::none) << row.base;
    std::vector<std::string> forms = row.forms;
    std::ranges::sort(forms);
    EXPECT_EQ(std::ranges::adjacent_find(forms), forms.end()) << row.base;
  }
}

TEST(Suffixes, HaveTheirBasesByTheSameRules) {
  const auto bases = [](std::string_view word, std::string_view suffix) {
    std::vector<std::string> all;
    for (auto& found : possible_suffix_bases(word, suffix)) {
      all.push_back(std::move(found.base));
    }
    return all;
  };
  EXPECT_TRUE(has(bases("noticeable", "able"), "notice"));
  EXPECT_TRUE(has(bases("movable", "able"), "move"));
  EXPECT_TRUE(has(bases("stoppable", "able"), "stop"));
  EXPECT_FALSE(has(bases("stopable", "able"), "stop"));
  EXPECT_TRUE(has(bases("reliable", "able"), "rely"));
}

TEST(EndingPatterns, AreSeenBehindPrefixesAndChanges) {
  const std::string text = test_data("phonics_ending_patterns.tsv");
  const PatternCatalogue& patterns = shared_phonics().patterns();
  int rows = 0;
  for (const TableRow& row : table_rows(text)) {
    ++rows;
    const Reading reading =
        shared_phonics().read(row.cell(1), Conventions{}).front();
    bool found = false;
    for (const std::string_view id : split_at(row.cell(0), '|')) {
      const Pattern* pattern = patterns.by_id(id);
      ASSERT_NE(pattern, nullptr) << id;
      found = found || reading.find(patterns.id_of(*pattern)) != nullptr;
    }
    EXPECT_EQ(found, row.cell(2) == "yes") << row.cell(0) << " " << row.cell(1);
  }
  EXPECT_GE(rows, 250);
}

}  // namespace
}  // namespace sheaf
