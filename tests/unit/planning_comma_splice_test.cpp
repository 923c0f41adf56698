// Commas that join two sentences, against sentences judged before the program
// was asked (34 of 40 found at the first pass), and against all sentences that
// come with Sheaf, which have none.

#include <gtest/gtest.h>

#include <fmt/format.h>

#include <cstdio>

#include "analysis/comma_splice.h"
#include "phonics/lexicon.h"
#include "phonics/sentence_bank.h"
#include "phonics/table_text.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

TEST(CommaSplice, IsFoundWhereItIsClearAndNowhereElse) {
  const std::string text = test_data("comma_splices.tsv");
  int found = 0, all = 0;
  for (const TableRow& row : table_rows(text)) {
    if (row.cells[0] == "kind") continue;
    const std::string_view sentence = row.cell(1);
    const auto splice = find_comma_splice(sentence, shared_phonics());
    if (row.cells[0] == "fine") {
      EXPECT_FALSE(splice) << sentence;
      continue;
    }
    ++all;
    found += splice.has_value();
    if (!splice) std::puts(fmt::format("not found: {}", sentence).c_str());
    if (splice) {
      EXPECT_EQ(sentence[splice->comma], ',');
      EXPECT_EQ(splice->second, splice->comma + 2);
    }
  }
  std::puts(fmt::format("found {} of {}", found, all).c_str());
  EXPECT_EQ(all, 40);
  EXPECT_GE(found, 37);
}

TEST(CommaSplice, IsInNoSentenceThatComesWithSheaf) {
  const SentenceBank& bank = shared_phonics().bank();
  int sentences = 0;
  for (std::size_t i = 0; i < bank.size(); ++i) {
    std::vector<std::string_view> texts;
    if (bank.is_sentence(i)) {
      texts.push_back(bank.sentence(i).text);
    } else if (bank.is_passage(i)) {
      const BankPassage passage = bank.passage(i);
      texts.push_back(passage.text.text);
      for (const BankText& question : passage.questions) {
        texts.push_back(question.text);
      }
    }
    for (std::string_view text : texts) {
      // As a stretch up to each end mark.
      while (!text.empty()) {
        const std::size_t end =
            std::min(text.find_first_of(".!?\n"), text.size() - 1) + 1;
        ++sentences;
        EXPECT_FALSE(find_comma_splice(text.substr(0, end), shared_phonics()))
            << text.substr(0, end);
        text.remove_prefix(end);
      }
    }
  }
  EXPECT_GT(sentences, 5494);
}

// A word with a small letter is said to lack a capital where the word list has
// it with one only; none of the sentences that come with Sheaf has such a word.
TEST(MissingCapital, IsInNoSentenceThatComesWithSheaf) {
  const SentenceBank& bank = shared_phonics().bank();
  EXPECT_GT(bank.word_count(), 1000U);
  for (std::size_t i = 0; i < bank.word_count(); ++i) {
    const auto word = bank.spelling(static_cast<BankWord>(i));
    if (word.empty() || word[0] < 'a' || word[0] > 'z') continue;
    const auto head = shared_phonics().lexicon().head(word);
    EXPECT_FALSE(head && head->name) << word;
  }
}

}  // namespace
}  // namespace sheaf
