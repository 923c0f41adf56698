#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <sstream>
#include <string>
#include <vector>

#include "pdf/pdf_writer.h"
#include "support/pattern.h"
#include "support/run_program.h"
#include "support/sample_document.h"
#include "support/small_font.h"

namespace sheaf {
namespace {

using testing_support::DocumentMaker;
using testing_support::Outcome;
using testing_support::Pattern;
using testing_support::placed_glyphs;
using testing_support::PlacedGlyph;
using testing_support::run_program;
using testing_support::text_in_order;
using testing_support::tree_in_order;

Length pt(double value) { return Length::from_pt(value); }

std::string with_single_spaces(const std::string& text) {
  std::istringstream words(text);
  std::string result;
  for (std::string word; words >> word;) {
    if (!result.empty()) result += ' ';
    result += word;
  }
  return result;
}

// What readers of other makers see in a file. They share no code with Sheaf.
class Readers : public testing::Test {
 protected:
  std::string written(const Document& document) {
    return folder.write("a.pdf", write_pdf(document));
  }
  Document with_text(std::string_view text, double size = 20) {
    Document document;
    document.title = "Text";
    document.pages.resize(1);
    document.pages[0].size = {pt(612), pt(792)};
    const ElementId paragraph =
        document.add({Role::paragraph, kDocumentElement});
    document.pages[0].marks.push_back(
        GlyphMark{maker.run(text, size), {pt(40), pt(100)}, kBlack, paragraph});
    return document;
  }
  GlyphRun& run_of(Document& document) {
    return std::get<GlyphMark>(document.pages[0].marks[0]).run;
  }

  DocumentMaker maker{SHEAF_FONTS};
  testing_support::TemporaryFolder folder;
};

TEST_F(Readers, FindNoFaultInTheSyntax) {
  Document blank;
  blank.pages.resize(2);
  for (Page& page : blank.pages) page.size = {pt(595.276), pt(841.89)};
  for (const Document& document :
       {maker.one_of_everything(), maker.worksheet(3, 1), blank}) {
    const std::string path = written(document);
    const Outcome check = run_program({"qpdf", "--check", path});
    EXPECT_EQ(check.status, 0) << check.out;
    EXPECT_EQ(check.out.find("WARNING"), std::string::npos) << check.out;
    const Outcome draw = run_program(
        {"mutool", "draw", "-q", "-o", folder.path() + "/%d.png", path});
    EXPECT_EQ(draw.status, 0) << draw.out;
    EXPECT_EQ(draw.out.find("error"), std::string::npos) << draw.out;
    const Outcome fonts = run_program({"pdfinfo", path});
    EXPECT_EQ(fonts.out.find("rror"), std::string::npos) << fonts.out;
  }
}

TEST_F(Readers, GetTheWordsInOrder) {
  for (const Document& document :
       {maker.one_of_everything(), maker.worksheet(3, 1)}) {
    const Outcome text =
        run_program({"pdftotext", "-raw", written(document), "-"});
    EXPECT_EQ(with_single_spaces(text.out),
              with_single_spaces(text_in_order(document)));
  }
}

TEST_F(Readers, GetEachLetterAsItWasWritten) {
  for (const char* text :
       {"caf\u00E9 na\u00EFve \u00C9cole",
        "m\u0103n mo\u035Eon f\u014D t\u0306",
        "\u201CIt\u2019s a \u2018fish\u2019\u201D \u2014 really\u2026",
        "flip office fjord waffle", "/\u0283\u026Ap/ \u02C8\u03B8\u026An\u014B",
        "1/2 + (3) = [4] \\ 50% & a_e #7 <b>", "st\u200Dop AV To We"}) {
    const std::string path = written(with_text(text));
    EXPECT_EQ(with_single_spaces(run_program({"pdftotext", path, "-"}).out),
              text);
  }
}

// Glyphs as MuPDF places them: <g unicode="N" glyph="10" x="43" y="732" .../>,
// upwards.
std::vector<PlacedGlyph> traced(const std::string& path) {
  std::vector<PlacedGlyph> glyphs;
  const std::string trace = run_program({"mutool", "trace", path}).out;
  const Pattern glyph(
      "<g unicode=\"([^\"]*)\"[^>]* x=\"([-.0-9e]+)\" y=\"([-.0-9e]+)\"");
  for (const Pattern::Match& found : glyph.all_in(trace)) {
    glyphs.push_back(
        {found[1], std::stod(found[2]), 792 - std::stod(found[3])});
  }
  return glyphs;
}

// Word spaces draw nothing, and the file has more of them than the page: those
// that part one text from the next.
std::vector<PlacedGlyph> without_spaces(std::vector<PlacedGlyph> glyphs) {
  std::erase_if(glyphs, [](const PlacedGlyph& g) { return g.text == " "; });
  return glyphs;
}

TEST_F(Readers, PlaceEveryGlyphWithinATenthOfAPoint) {
  std::vector<Document> documents = {maker.one_of_everything(),
                                     maker.worksheet(1, 5)};
  for (const double size : {9.0, 14.0, 36.0, 72.0}) {
    documents.push_back(
        with_text("WAVE To ha\u00EFku t\u0306 brush fo\u035Eod", size));
    documents.push_back(documents.back());
    run_of(documents.back()).tracking = pt(3.3);
    run_of(documents.back()).word_gap = pt(7.7);
  }
  double worst = 0;
  for (const Document& document : documents) {
    const auto expected = without_spaces(placed_glyphs(document.pages[0]));
    const auto seen = without_spaces(traced(written(document)));
    ASSERT_EQ(seen.size(), expected.size());
    for (std::size_t i = 0; i < seen.size(); ++i) {
      worst = std::max({worst, std::abs(seen[i].x - expected[i].x),
                        std::abs(seen[i].y - expected[i].y)});
    }
  }
  EXPECT_LE(worst, 0.1);
  RecordProperty("worst_in_thousandths_of_a_point",
                 static_cast<int>(worst * 1000));
}

// The advance of the last letter leads to where the word goes on, for readers
// that take a move of the pen for a blank.
TEST_F(Readers, FindAWordWholeWhoseLettersStandApart) {
  std::string why;
  const testing_support::SmallFont blocks{.is_cid_keyed = true};
  const Font* small =
      maker.library().add("Blocks", FontRole::regular, blocks.file(), why);
  ASSERT_TRUE(small) << why;
  for (const Font* font : {&maker.font(), small}) {
    for (const double apart : {0.0, 0.03, 0.09, 0.18, 0.5}) {
      Document document = with_text("coach");
      std::vector<Mark>& marks = document.pages[0].marks;
      const ElementId element = std::get<GlyphMark>(marks[0]).element;
      marks.clear();
      Length x = pt(40);
      for (const char* part : {"c", "oa", "ch", " goo", "d"}) {
        GlyphRun run = maker.run(*font, part, 20);
        run.tracking = pt(20 * apart);
        const bool ends = part[1] == 'h' || part[0] == 'd';
        if (!ends) run.room_after = pt(20 * (apart + 0.013 * x.pt() / 10));
        marks.push_back(GlyphMark{run, {x, pt(100)}, kBlack, element});
        x += width_of(run) + run.room_after;
      }
      const std::string path = written(document);
      EXPECT_EQ(with_single_spaces(run_program({"pdftotext", path, "-"}).out),
                "coach good")
          << apart;
      const std::string text = folder.path() + "/a.txt";
      run_program({"mutool", "draw", "-q", "-F", "txt", "-o", text, path});
      EXPECT_EQ(with_single_spaces(testing_support::file_bytes(text)),
                "coach good")
          << apart;
      // Where a letter stands has nothing to do with how it got there.
      const auto expected = placed_glyphs(document.pages[0]);
      // The word space at the end is not on the page.
      const auto seen = traced(path);
      ASSERT_EQ(seen.size(), expected.size() + 1);
      for (std::size_t i = 0; i < expected.size(); ++i) {
        EXPECT_NEAR(seen[i].x, expected[i].x, 0.1) << apart << " " << i;
      }
    }
  }
}

// Word boxes as poppler finds them, downwards.
TEST_F(Readers, PlaceEveryWordWithinATenthOfAPoint) {
  const Document document = with_text("goat on a boat in the fog");
  const GlyphRun run = std::get<GlyphMark>(document.pages[0].marks[0]).run;
  const std::string boxes =
      run_program({"pdftotext", "-bbox", written(document), "-"}).out;
  const Pattern box("<word xMin=\"([.0-9]+)\" [^>]*>([^<]*)</word>");
  std::size_t offset = 0;
  int words = 0;
  for (const Pattern::Match& found : box.all_in(boxes)) {
    const std::string& word = found[2];
    offset = run.shape->text.find(word, offset);
    ASSERT_NE(offset, std::string::npos);
    EXPECT_NEAR(std::stod(found[1]), 40 + pen_before(run, offset).pt(), 0.1)
        << word;
    offset += word.size();
    ++words;
  }
  EXPECT_EQ(words, 7);
}

// poppler's listing without attributes: "    LI (block)" becomes "    LI".
std::string tree_of(const std::string& listing) {
  std::istringstream lines(listing);
  std::string tree;
  const Pattern kind("^( *)([A-Z][A-Za-z0-9]*)( \\((block|inline)\\))?:?$");
  for (std::string line; std::getline(lines, line);) {
    if (const auto match = kind.of(line); !match.empty()) {
      tree += match[1] + match[2] + "\n";
    } else if (line.find('"') != std::string::npos &&
               line.find("\"\"") == std::string::npos) {
      // Without the space that parts it from the next.
      if (line.ends_with(" \"")) line.erase(line.size() - 2, 1);
      tree += line + "\n";
    }
  }
  return tree;
}

TEST_F(Readers, TellTheTreeInOrder) {
  for (const Document& document :
       {maker.one_of_everything(), maker.worksheet(3, 1)}) {
    const Outcome listing =
        run_program({"pdfinfo", "-struct-text", written(document)});
    EXPECT_EQ(tree_of(listing.out), tree_of(tree_in_order(document)));
  }
}

TEST_F(Readers, TellAnElementThatGoesOnOverPages) {
  Document document = with_text("first part");
  document.pages.push_back(document.pages[0]);
  std::get<GlyphMark>(document.pages[1].marks[0]).run =
      maker.run("second part", 20);
  const Outcome listing =
      run_program({"pdfinfo", "-struct-text", written(document)});
  EXPECT_EQ(tree_of(listing.out),
            "Document\n  P\n    \"first part\"\n    \"second part\"\n");
}

// Documents behind each other: none is kept, and each is a section.
TEST_F(Readers, TellSectionsOfAFile) {
  PdfWriter writer({"Both"});
  std::string expected = "Document\n";
  for (const char* text : {"first", "second"}) {
    Document part = with_text(text);
    Page blank;
    blank.size = {pt(612), pt(792)};
    blank.label = "blank";
    part.pages.resize(2, blank);
    part.elements[1] = {Role::heading1, kDocumentElement};
    writer.add(part);
    expected += fmt::format("  Sect\n    H1\n      \"{}\"\n", text);
  }
  EXPECT_EQ(writer.page_count(), 4U);
  const std::string path = folder.write("b.pdf", writer.finish());
  EXPECT_EQ(run_program({"qpdf", "--check", path}).status, 0);
  EXPECT_EQ(tree_of(run_program({"pdfinfo", "-struct-text", path}).out),
            expected);
}

// Graphemes set wide apart, with marks between them, read as the word.
TEST_F(Readers, GetAWordWhoseLettersStandApart) {
  Document document = with_text("Read ");
  const ElementId word = document.add({Role::span, 2, "shed"});
  const auto put = [&](std::string_view letters, double x) {
    document.pages[0].marks.push_back(
        GlyphMark{maker.run(letters, 20), {pt(x), pt(100)}, kBlack, word});
    document.pages[0].marks.push_back(DotMark{{pt(x), pt(110)}, pt(5)});
  };
  put("sh", 120);
  put("e", 180);
  put("d", 240);
  document.pages[0].marks.push_back(
      GlyphMark{maker.run(" now", 20), {pt(260), pt(100)}, kBlack, 2});
  const std::string path = written(document);
  EXPECT_EQ(with_single_spaces(run_program({"pdftotext", path, "-"}).out),
            "Read shed now");
  const std::string marked =
      run_program({"mutool", "show", "-b", path, "pages/1/Contents"}).out;
  EXPECT_NE(marked.find("/ActualText(shed)>>BDC"), std::string::npos);
  EXPECT_NE(marked.find("/ActualText()>>BDC"), std::string::npos);
}

// What is heard of a document: the texts of its tags in order, as they are.
std::string heard(const std::string& path) {
  std::string all;
  const Pattern text("(?:^|\n) *\"([^\n]*)\"");
  for (const Pattern::Match& found :
       text.all_in(run_program({"pdfinfo", "-struct-text", path}).out)) {
    all += found[1];
  }
  return all;
}

// Cells, a label and its body, the lines of a paragraph, words above each
// other: a real space stands between any two, and only one.
TEST_F(Readers, HearASpaceBetweenTwoTexts) {
  Document document = with_text("26/26");
  const auto put = [&](std::string_view text, double x, double y,
                       ElementId element, FontRole role = FontRole::regular) {
    const GlyphRun run = maker.run(text, 20, role);
    document.pages[0].marks.push_back(
        GlyphMark{run, {pt(x), pt(y)}, kBlack, element});
    return x + width_of(run).pt();
  };
  const ElementId next = document.add({Role::paragraph, kDocumentElement});
  put("secure", 40 + width_of(run_of(document)).pt() + 4, 100, next);
  put("one line ", 40, 140, next);
  put("and the next", 40, 160, next);
  put("11", 40, 162.5, next);
  const ElementId word = document.add({Role::paragraph, kDocumentElement});
  const double end = put("sh", 40, 200, word, FontRole::bold);
  put(".", put("ip", end, 200, word), 200, word);
  EXPECT_EQ(heard(written(document)),
            "26/26 secure one line and the next 11 ship. ");
  EXPECT_EQ(with_single_spaces(
                run_program({"pdftotext", "-raw", written(document), "-"}).out),
            "26/26 secure one line and the next 11 ship.");
}

// A gap in a sentence is heard as a word of its own; the full stop behind it
// belongs to it.
TEST_F(Readers, HearASpaceAroundAGap) {
  Document document = with_text("in the");
  const auto gap = [&](double x) {
    const ElementId blank = document.add({Role::span, 2, "blank"});
    document.pages[0].marks.push_back(
        LineMark{{pt(x), pt(100)}, {pt(x + 60), pt(100)}, {pt(1)}, blank});
  };
  const auto put = [&](std::string_view text, double x) {
    document.pages[0].marks.push_back(
        GlyphMark{maker.run(text, 20), {pt(x), pt(100)}, kBlack, 2});
  };
  gap(110);
  put("or", 171);
  gap(200);
  put(".", 260);
  const std::string marked =
      run_program(
          {"mutool", "show", "-b", written(document), "pages/1/Contents"})
          .out;
  EXPECT_NE(marked.find("/ActualText(blank )>>BDC"), std::string::npos);
  EXPECT_NE(marked.find("/ActualText(blank)>>BDC"), std::string::npos);
  EXPECT_EQ(heard(written(document)), "in the or . ");
}

// Furniture is not heard, so that it parts nothing and needs no space.
TEST_F(Readers, LeaveFurnitureAsItIs) {
  Document document = with_text("page 1");
  std::get<GlyphMark>(document.pages[0].marks[0]).element = kPageFooter;
  const auto glyphs = traced(written(document));
  ASSERT_EQ(glyphs.size(), 6U);
  EXPECT_EQ(glyphs.back().text, "1");
}

// Sizes in points: Letter is 8.5 by 11 inches (ANSI/ASME Y14.1), A4 210 by
// 297 mm (ISO 216); poppler knows both by name.
TEST_F(Readers, KnowThePaper) {
  Document document = with_text("size");
  document.pages.push_back(document.pages[0]);
  document.pages[1].size = {Length::from_mm(210), Length::from_mm(297)};
  const std::string sizes =
      run_program({"pdfinfo", "-l", "2", written(document)}).out;
  EXPECT_NE(sizes.find("612 x 792 pts (letter)"), std::string::npos) << sizes;
  EXPECT_NE(sizes.find("595.276 x 841.89 pts (A4)"), std::string::npos)
      << sizes;
}

TEST_F(Readers, FindAllFontsEmbedded) {
  const std::string fonts =
      run_program({"pdffonts", written(maker.one_of_everything())}).out;
  const Pattern line(
      "[A-Z]{6}\\+Andika\\S* +CID TrueType +Identity-H +yes "
      "yes yes .*");
  std::istringstream lines(fonts);
  int found = 0;
  for (std::string text; std::getline(lines, text);) {
    if (text.find("Andika") == std::string::npos) continue;
    EXPECT_FALSE(line.of(text).empty()) << text;
    ++found;
  }
  EXPECT_EQ(found, 2);
}

}  // namespace
}  // namespace sheaf
