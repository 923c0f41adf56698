// Which letters of a word must be remembered, beside what was written down
// before the program was asked (tests/data/irregular_parts.tsv).

#include <gtest/gtest.h>

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <iostream>
#include <sstream>
#include <string>
#include <vector>

#include "analysis/remembered_parts.h"
#include "unit/analyzed_lesson_fixture.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

class IrregularTest : public AnalyzedLessonTest {
 protected:
  // The word with the letters to remember as capitals, for those of the lesson.
  std::string parts(const std::string& text) {
    std::string all;
    for (const RememberedWord& word :
         remembered_words(analyzed_as_taught(text)).words) {
      if (!all.empty()) all += ' ';
      const std::string& letters = word.word.reading.word;
      for (std::size_t i = 0; i < letters.size(); ++i) {
        const auto letter = static_cast<unsigned char>(letters[i]);
        all += word.is_remembered(i) ? static_cast<char>(std::toupper(letter))
                                     : letters[i];
      }
    }
    return all;
  }
};

std::vector<std::vector<std::string>> rows_of(const std::string& text) {
  std::vector<std::vector<std::string>> rows;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.empty() || line[0] == '#' || line.starts_with("word\t")) continue;
    std::vector<std::string>& row = rows.emplace_back();
    std::istringstream cells(line);
    for (std::string cell; std::getline(cells, cell, '\t');) {
      row.push_back(cell);
    }
  }
  return rows;
}

TEST_F(IrregularTest, MarksWhatWasExpected) {
  int words = 0, first = 0, other = 0;
  for (const auto& row : rows_of(test_data("irregular_parts.tsv"))) {
    const std::string found =
        parts("pattern: sh\nwords: ship\nsight-words: " + row[0] +
              "\ntaught: short_a, short_e, short_i, short_o, short_u, sh, ch, "
              "th_voiceless, th_voiced, wh, ck, ng, nk, qu, final_double, s_z, "
              "plural_s, plural_z, a_e, i_e, o_e, u_e_oo, u_e_yoo, ee, ai, ay, "
              "oa, ea_long, igh, ar, or, er, oo_long, ow_ow\n");
    ++words;
    if (found == row[1]) {
      ++first;
      continue;
    }
    std::istringstream also(row.size() > 2 ? row[2] : "");
    bool is_other = false;
    for (std::string reading; also >> reading;) is_other |= reading == found;
    if (is_other) ++other;
    std::cout << fmt::format("{} {}: {} expected, {} found\n",
                             is_other ? "also" : "NOT", row[0], row[1], found);
  }
  RecordProperty("words", words);
  RecordProperty("as_expected", first);
  RecordProperty("as_others_have_it", other);
  std::cout << words << " words, " << first << " as expected, " << other
            << " as others have it\n";
  EXPECT_EQ(words, 91);
  // When the list met the program for the first time, 79 and 4. Then two,
  // pretty, our and hour were decided by what is published.
  EXPECT_GE(first, 82);
  EXPECT_EQ(words - first - other, 0);
}

// Words that the English national curriculum has as exceptions (2013, Appendix
// 1, pp. 54 and 58): what is left to remember once a group knows their parts.
TEST_F(IrregularTest, DecidesByWhatIsPublished) {
  const std::string lesson =
      "pattern: sh\nwords: ship\nsight-words: our hour pretty two where "
      "what\ntaught: short_a, short_e, short_i, sh";
  // Nothing of where is known to a group that has no wh: /w/ is the letter w.
  EXPECT_EQ(parts(lesson + "\n"), "OUR HOUR prETTY TWO WHERE WHAt");
  EXPECT_EQ(parts(lesson + ", wh, final_double, ou_ow, y_ee\n"),
            "ouR HOUR prEtty TWO whERE whAt");
  // Doubles that say something else stay.
  EXPECT_EQ(parts("pattern: sh\nwords: ship\nsight-words: sure rabbit missed "
                  "pressure\ntaught: short_a, short_e, short_i, sh, "
                  "final_double\n"),
            "SURE rabbit missED preSSURE");
}

}  // namespace
}  // namespace sheaf
