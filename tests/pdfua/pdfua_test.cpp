#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <sstream>

#include "pdf/pdf_writer.h"
#include "pdfua/broken_files.h"
#include "pdfua/checker.h"
#include "support/sample_document.h"
#include "support/small_font.h"

namespace pdfua {
namespace {

std::string as_text(const std::set<Rule>& rules) {
  std::string text;
  for (const auto& [clause, test] : rules) {
    text += clause + "-" + std::to_string(test) + " ";
  }
  return text;
}

std::set<Rule> rules_in(const Report& report) {
  std::set<Rule> rules;
  for (const auto& [rule, entry] : report.entries()) rules.insert(rule);
  return rules;
}

std::set<Rule> broken_rules(const std::string& bytes) {
  return rules_in(check(bytes));
}

std::string good_file() {
  sheaf::testing_support::DocumentMaker maker(SHEAF_FONTS);
  return sheaf::write_pdf(maker.one_of_everything());
}

std::vector<Break> all_breaks() {
  std::vector<Break> all;
  for (auto part : {document_breaks(), structure_breaks(), content_breaks(),
                    font_breaks(), archive_breaks(), archive_text_breaks()}) {
    all.insert(all.end(), part.begin(), part.end());
  }
  return all;
}

// Clause and test of every line of a table of rules.
void add_listed(const std::string& path, std::set<Rule>& rules) {
  std::ifstream file(path);
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line[0] == '#' || line.rfind("clause\t", 0) == 0) {
      continue;
    }
    std::istringstream cells(line);
    std::string clause, test;
    std::getline(cells, clause, '\t');
    std::getline(cells, test, '\t');
    rules.insert({clause, std::stoi(test)});
  }
}

std::set<Rule> listed_rules() {
  std::set<Rule> rules;
  for (const char* table : {"rules.tsv", "pdfa_rules.tsv", "own_rules.tsv"}) {
    add_listed(std::string(SHEAF_RULES) + "/" + table, rules);
  }
  return rules;
}

TEST(PdfUa, FindsNothingInTheGoodFile) {
  const std::string good = good_file();
  EXPECT_EQ(as_text(broken_rules(good)), "");
  EXPECT_EQ(as_text(broken_rules(edited(good, [](QPDF&) {}))), "")
      << "nor after libqpdf has written it anew";
}

TEST(PdfUa, FindsTheFaultOfEachBrokenFile) {
  const std::string good = good_file();
  for (const Break& broken : all_breaks()) {
    const std::set<Rule> expected(broken.rules.begin(), broken.rules.end());
    EXPECT_EQ(as_text(broken_rules(broken.apply(good))), as_text(expected));
  }
}

TEST(PdfUa, HasABrokenFileForEveryRule) {
  std::set<Rule> broken;
  for (const auto& breaks : {all_breaks(), own_breaks()}) {
    for (const Break& one : breaks) {
      broken.insert(one.rules.begin(), one.rules.end());
    }
  }
  EXPECT_EQ(as_text(broken), as_text(listed_rules()));
}

TEST(OwnRules, FindTheFaultOfEachBrokenFile) {
  const std::string good = with_region(good_file());
  EXPECT_EQ(as_text(rules_in(check_own(good))), "");
  for (const Break& one : own_breaks()) {
    const std::set<Rule> expected(one.rules.begin(), one.rules.end());
    EXPECT_EQ(as_text(rules_in(check_own(one.apply(good)))), as_text(expected));
  }
}

TEST(PdfUa, FindsNothingInWorksheets) {
  sheaf::testing_support::DocumentMaker maker(SHEAF_FONTS);
  EXPECT_EQ(as_text(broken_rules(sheaf::write_pdf(maker.worksheet(40, 7)))),
            "");
}

// Fonts with wider advances, which the program and the dictionary both have:
// letters apart, and a word that goes on in another run.
TEST(PdfUa, FindsNothingInWideFonts) {
  namespace support = sheaf::testing_support;
  support::DocumentMaker maker(SHEAF_FONTS);
  std::vector<const sheaf::Font*> fonts = {&maker.font()};
  for (const bool keyed : {false, true}) {
    support::SmallFont blocks;
    blocks.is_cid_keyed = keyed;
    std::string why;
    fonts.push_back(maker.library().add("Blocks", sheaf::FontRole::regular,
                                        blocks.file(), why));
    ASSERT_TRUE(fonts.back()) << why;
  }
  for (const sheaf::Font* font : fonts) {
    sheaf::Document document;
    document.title = "Wide";
    document.pages.resize(1);
    document.pages[0].size = {sheaf::Length::from_pt(612),
                              sheaf::Length::from_pt(792)};
    const sheaf::ElementId paragraph =
        document.add({sheaf::Role::paragraph, sheaf::kDocumentElement});
    sheaf::GlyphRun run = maker.run(*font, "sheep", 20);
    run.tracking = sheaf::Length::from_pt(3.6);
    run.room_after = sheaf::Length::from_pt(12);
    for (const double x : {40.0, 180.0}) {
      document.pages[0].marks.push_back(sheaf::GlyphMark{
          run,
          {sheaf::Length::from_pt(x), sheaf::Length::from_pt(100)},
          sheaf::kBlack,
          paragraph});
      run.tracking = {};
    }
    EXPECT_EQ(as_text(broken_rules(sheaf::write_pdf(document))), "");
  }
}

TEST(PdfUa, FindsNothingInSections) {
  sheaf::testing_support::DocumentMaker maker(SHEAF_FONTS);
  sheaf::PdfWriter writer({"Two learners"});
  writer.add(maker.one_of_everything());
  writer.add(maker.worksheet(3, 7));
  EXPECT_EQ(as_text(broken_rules(writer.finish())), "");
}

}  // namespace
}  // namespace pdfua
