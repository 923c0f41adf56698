#include <gtest/gtest.h>

#include <memory>
#include <string>

#include "pdf/cff.h"
#include "pdf/pdf_writer.h"
#include "support/pdf_file.h"
#include "support/run_program.h"
#include "support/sample_document.h"
#include "support/small_font.h"

namespace sheaf {
namespace {

using testing_support::DocumentMaker;
using testing_support::run_program;
using testing_support::SmallFont;

Length pt(double value) { return Length::from_pt(value); }

// The parts of a written file as libqpdf reads them.
class Parts : public testing::Test {
 protected:
  void read(const Document& document) {
    bytes = write_pdf(document);
    pdf = std::make_unique<testing_support::PdfFile>(bytes);
  }
  std::string picture(const std::string& path) const {
    return pdf->page(0, "/Resources/XObject/" + path);
  }
  std::string content() const { return pdf->page_stream(0, "/Contents"); }
  Document blank() {
    Document document;
    document.title = "Parts";
    document.pages.resize(1);
    document.pages[0].size = {pt(612), pt(792)};
    return document;
  }
  template <typename... Marks>
  std::string content_of(Marks... marks) {
    Document document = blank();
    (document.pages[0].marks.push_back(marks), ...);
    read(document);
    return content();
  }

  DocumentMaker maker{SHEAF_FONTS};
  std::string bytes;
  std::unique_ptr<testing_support::PdfFile> pdf;
};

TEST_F(Parts, SayHowToPrint) {
  Document document = blank();
  read(document);
  EXPECT_EQ(pdf->catalog("/ViewerPreferences/PrintScaling"), "/None");
  EXPECT_EQ(pdf->catalog("/ViewerPreferences/Duplex"), "/DuplexFlipLongEdge");
  EXPECT_EQ(pdf->catalog("/ViewerPreferences/DisplayDocTitle"), "true");
  document.duplex = false;
  read(document);
  EXPECT_EQ(pdf->catalog("/ViewerPreferences/Duplex"), "/Simplex");
}

TEST_F(Parts, HaveTheBoxesOfThePaper) {
  read(blank());
  for (const char* box : {"/MediaBox", "/CropBox", "/TrimBox"}) {
    EXPECT_EQ(pdf->page(0, box), "[ 0 0 612 792 ]");
  }
  EXPECT_EQ(pdf->page(0, "/Tabs"), "/S");
}

TEST_F(Parts, HaveLabelsAndAnOutline) {
  Document document = blank();
  document.pages.resize(3, document.pages[0]);
  document.pages[0].label = "plan";
  document.pages[1].label = "cards 1";
  document.pages[2].label = "cards 2";
  document.outline = {{"Plan \U0001F41F", 0}, {"Cards", 1}};
  read(document);
  EXPECT_EQ(pdf->label(0), "plan");
  EXPECT_EQ(pdf->label(2), "cards 2");
  const auto outline = pdf->outline();
  ASSERT_EQ(outline.size(), 2U);
  EXPECT_EQ(outline[0].title, "Plan \U0001F41F");
  EXPECT_EQ(outline[0].page, 0);
  EXPECT_EQ(outline[1].title, "Cards");
  EXPECT_EQ(outline[1].page, 1);
}

TEST_F(Parts, OfSectionsLieBehindEachOther) {
  PdfWriter writer({"Both"});
  Document section = blank();
  section.pages.resize(2, section.pages[0]);
  section.outline = {{"Cards", 1}};
  for (const char* label : {"plan", "cards 7"}) {
    section.pages[1].label = label;
    writer.add(section);
  }
  EXPECT_EQ(writer.page_count(), 4U);
  pdf = std::make_unique<testing_support::PdfFile>(writer.finish());
  EXPECT_EQ(pdf->label(1), "plan");
  EXPECT_EQ(pdf->label(3), "cards 7");
  const auto outline = pdf->outline();
  ASSERT_EQ(outline.size(), 2U);
  EXPECT_EQ(outline[0].page, 1);
  EXPECT_EQ(outline[1].page, 3);
}

TEST_F(Parts, DrawAPictureOnce) {
  Document document = blank();
  const Picture& house = maker.drawing("house");
  for (int i = 0; i < 5; ++i) {
    document.pages[0].marks.push_back(
        PictureMark{&house, {pt(50.0 * i), pt(100), pt(40), pt(40)}});
  }
  read(document);
  EXPECT_EQ(picture("X0/Subtype"), "/Form");
  EXPECT_EQ(picture("X1"), "null");
}

TEST_F(Parts, MaskOnlyWhatIsTransparent) {
  Document document = blank();
  const Rect box = {pt(100), pt(100), pt(40), pt(40)};
  document.pages[0].marks = {
      PictureMark{&maker.pixels(8, 8, true, true), box},
      PictureMark{&maker.pixels(8, 8, true, false), box}};
  PixelImage opaque;
  opaque.width = opaque.height = 2;
  opaque.rgb.assign(12, 200);
  opaque.alpha.assign(4, 255);
  document.pages[0].marks.push_back(
      PictureMark{&maker.add({"opaque", opaque}), box});
  read(document);
  EXPECT_EQ(picture("X0/SMask/Subtype"), "/Image");
  EXPECT_EQ(picture("X1/SMask"), "null");
  EXPECT_EQ(picture("X2/SMask"), "null");
  EXPECT_EQ(picture("X1/ColorSpace"), "/DeviceRGB");
  EXPECT_EQ(picture("X2/ColorSpace"), "/DeviceGray");
  EXPECT_EQ(pdf->page_stream(0, "/Resources/XObject/X2").size(), 4U);
}

// The profile of the file is for red, green and blue (ISO 19005-2, 6.2.4.3).
TEST_F(Parts, AreNoArchiveWithAPictureInPrintingInks) {
  for (const int components : {1, 3, 4}) {
    Document document = blank();
    const Picture& photo =
        maker.add({"photo", JpegImage{30, 20, components, "\xFF\xD8"}});
    document.pages[0].marks.push_back(
        PictureMark{&photo, {pt(100), pt(100), pt(40), pt(40)}});
    const std::string written = write_pdf(document);
    EXPECT_EQ(written.find("<pdfaid:part>2") != std::string::npos,
              components != 4);
    EXPECT_NE(written.find("<pdfuaid:part>1"), std::string::npos);
  }
}

TEST_F(Parts, EmbedAJpegFileAsItIs) {
  // Only what the writer looks at: the marker by which Adobe's programs say
  // that their CMYK is upside down.
  using namespace std::string_literals;
  const std::string file =
      "\xFF\xD8\xFF\xE0\0\x04xx\xFF\xEE\0\x0E"
      "Adobe"s +
      std::string(7, '\0') + "\xFF\xDA\0\x02"s;
  Document document = blank();
  const Rect box = {pt(100), pt(100), pt(40), pt(40)};
  const auto jpeg = [&](int components) {
    const Picture& added =
        maker.add({"photo", JpegImage{30, 20, components, file}});
    document.pages[0].marks.push_back(PictureMark{&added, box});
  };
  jpeg(3);
  jpeg(4);
  jpeg(1);
  read(document);
  EXPECT_EQ(pdf->raw_page_stream(0, "/Resources/XObject/X0"), file);
  EXPECT_EQ(picture("X0/Filter"), "/DCTDecode");
  EXPECT_EQ(picture("X0/Decode"), "null");
  EXPECT_EQ(picture("X1/Decode"), "[ 1 0 1 0 1 0 1 0 ]");
  EXPECT_EQ(picture("X2/ColorSpace"), "/DeviceGray");
  EXPECT_NE(content().find("q 40 0 0 26.666667 100 658.67 cm/X0 Do Q"),
            std::string::npos)
      << content();
}

TEST_F(Parts, HoldPicturesAsFineAsTheirLargestPlaceNeeds) {
  Document document = blank();
  const Picture& fine = maker.pixels(400, 200, true, true);
  const Picture& other = maker.pixels(400, 200, true, false);
  const auto place = [&](const Picture& picture, double side, bool grey) {
    document.pages[0].marks.push_back(
        PictureMark{&picture, {pt(100), pt(100), pt(side), pt(side)}, 0, grey});
  };
  place(fine, 36, false);
  place(fine, 72, false);
  place(fine, 18, false);
  place(fine, 36, true);
  place(other, 96, false);
  read(document);
  // An inch is 300 dots, in the file once; grey, it is another picture.
  EXPECT_EQ(picture("X0/Width"), "300");
  EXPECT_EQ(picture("X0/Height"), "150");
  EXPECT_EQ(picture("X0/SMask/Width"), "300");
  EXPECT_EQ(picture("X0/ColorSpace"), "/DeviceRGB");
  EXPECT_EQ(picture("X1/Width"), "150");
  EXPECT_EQ(picture("X1/ColorSpace"), "/DeviceGray");
  EXPECT_EQ(picture("X2/Width"), "400");
  EXPECT_EQ(picture("X0/Interpolate"), "null");
}

TEST_F(Parts, PaintDotsAsRoundEnds) {
  const DotMark dot{{pt(10), pt(12)}, pt(4)};
  const DotMark other{{pt(20), pt(12)}, pt(4)};
  EXPECT_EQ(content_of(dot, other),
            "/Artifact<</Type/Layout>>BDC\n4 w\n1 J\n10 780 m\n10 780 l\n20 "
            "780 m\n20 780 l\n"
            "S\nEMC\n");
}

TEST_F(Parts, PaintLinesOfOneKindTogether) {
  const Stroke thin{pt(0.5), 128, {pt(3), pt(2)}, false};
  const LineMark line{{pt(0), pt(0)}, {pt(9), pt(0)}, thin};
  RectMark box;
  box.rect = {pt(1), pt(2), pt(3), pt(4)};
  box.stroke = thin;
  EXPECT_EQ(
      content_of(line, box),
      "/Artifact<</Type/Layout>>BDC\n.5 w\n.502 G\n[3 2]0 d\n0 792 m\n9 792 l\n"
      "1 786 3 4 re\nS\nEMC\n");
  RectMark shaded = box;
  shaded.filled = true;
  shaded.fill = 200;
  EXPECT_EQ(content_of(shaded),
            "/Artifact<</Type/Layout>>BDC\n.784 g\n.5 w\n.502 G\n[3 2]0 d\n1 "
            "786 3 4 re\nB\n"
            "EMC\n");
  RectMark nothing = box;
  nothing.stroked = false;
  EXPECT_EQ(content_of(nothing), "/Artifact<</Type/Layout>>BDC\nEMC\n");
}

TEST_F(Parts, DotWhatHasDashesOfNoLength) {
  const LineMark dots{{pt(0), pt(0)},
                      {pt(9), pt(0)},
                      {pt(1), kBlack, {Length(), pt(3)}, false}};
  EXPECT_EQ(content_of(dots),
            "/Artifact<</Type/Layout>>BDC\n[0 3]0 d\n1 J\n0 792 m\n9 792 "
            "l\nS\nEMC\n");
}

// A circle is drawn once; on the page there is only where it stands.
TEST_F(Parts, LeaveAHollowDotHollow) {
  const DotMark ring{{pt(10), pt(12)}, pt(6), true, pt(1), kBlack};
  DotMark other = ring;
  other.centre.x = pt(30);
  EXPECT_EQ(content_of(ring, other),
            "/Artifact<</Type/Layout>>BDC\nq 1 0 0 1 10 780 cm/X0 Do Q\n"
            "q 1 0 0 1 30 780 cm/X0 Do Q\nEMC\n");
  const std::string circle = pdf->page_stream(0, "/Resources/XObject/X0");
  EXPECT_NE(circle.find("2.5 0 m\n"), std::string::npos) << circle;
  EXPECT_NE(circle.find("\ns\n"), std::string::npos);
  EXPECT_EQ(circle.find("f\n"), std::string::npos);
}

TEST_F(Parts, FillADotWhoseRingHasNoHole) {
  const DotMark dot{{pt(10), pt(12)}, pt(6), true, pt(6), kBlack};
  EXPECT_NE(content_of(dot).find("6 w\n1 J\n10 780 m\n10 780 l\nS"),
            std::string::npos)
      << content();
}

// Fonts with CFF outlines, keyed by name and by CID.
TEST_F(Parts, HoldCffFonts) {
  for (const bool keyed : {false, true}) {
    const SmallFont blocks{.is_cid_keyed = keyed};
    std::string why;
    const Font* font =
        maker.library().add("Blocks", FontRole::regular, blocks.file(), why);
    ASSERT_TRUE(font) << why;
    Document document = blank();
    const ElementId paragraph =
        document.add({Role::paragraph, kDocumentElement});
    document.pages[0].marks.push_back(
        GlyphMark{maker.run(*font, "caf\u00E9 zoo H", 20),
                  {pt(40), pt(100)},
                  kBlack,
                  paragraph});
    testing_support::TemporaryFolder folder;
    const std::string path = folder.write("a.pdf", write_pdf(document));
    EXPECT_EQ(run_program({"pdftotext", path, "-"}).out,
              "caf\u00E9 zoo H\n\n\f");
    const std::string fonts = run_program({"pdffonts", path}).out;
    EXPECT_NE(fonts.find("CID Type 0C"), std::string::npos) << fonts;
    // MuPDF's own idea of each glyph's width, in ems, from the program.
    const std::string trace = run_program({"mutool", "trace", path}).out;
    EXPECT_NE(trace.find("unicode=\"f\" glyph="), std::string::npos) << trace;
    EXPECT_NE(trace.find("x=\"56.4\" y=\"692\" adv=\".45\""), std::string::npos)
        << trace;
  }
}

// A font that sets é as e and an accent: one character, two glyphs.
TEST_F(Parts, GiveBackACharacterOfSeveralGlyphs) {
  const SmallFont blocks{.splits_e_acute = true};
  std::string why;
  const Font* font =
      maker.library().add("Blocks", FontRole::regular, blocks.file(), why);
  ASSERT_TRUE(font) << why;
  const GlyphRun run = maker.run(*font, "caf\u00E9s", 20);
  ASSERT_EQ(run.shape->glyphs.size(), 6U);
  EXPECT_EQ(run.shape->characters, 5U);
  Document document = blank();
  const ElementId paragraph = document.add({Role::paragraph, kDocumentElement});
  document.pages[0].marks.push_back(
      GlyphMark{run, {pt(40), pt(100)}, kBlack, paragraph});
  read(document);
  EXPECT_NE(content().find("/Span<</ActualText<FEFF00E9>>>BDC"),
            std::string::npos);
  testing_support::TemporaryFolder folder;
  const std::string path = folder.write("a.pdf", bytes);
  EXPECT_EQ(run_program({"pdftotext", path, "-"}).out, "caf\u00E9s\n\n\f");
}

TEST(Cff, RefusesDamagedPrograms) {
  const std::string file = SmallFont{.is_cid_keyed = true}.file();
  const std::size_t begin = file.find(std::string("\1\0\4\2", 4));
  const std::string program = file.substr(begin);
  const auto cids = cff_glyph_cids(program, 32);
  ASSERT_TRUE(cids);
  EXPECT_EQ(cids->at(0), 0);
  EXPECT_EQ(cids->at(31), 131);
  EXPECT_FALSE(cff_glyph_cids("", 32));
  for (std::size_t size = 0; size < 60; ++size) {
    EXPECT_FALSE(cff_glyph_cids(program.substr(0, size), 32)) << size;
    EXPECT_FALSE(cff_with_widths(program.substr(0, size), 90)) << size;
  }
  EXPECT_EQ(cff_with_widths(program, 0), program);
}

}  // namespace
}  // namespace sheaf
