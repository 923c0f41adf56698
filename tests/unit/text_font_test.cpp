#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <memory>
#include <sstream>
#include <string>

#include "base/error.h"
#include "files/disk_files.h"
#include "support/run_program.h"
#include "text/font_library.h"
#include "text/shaper.h"

namespace sheaf {
namespace {

std::string file_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string andika() { return file_text(SHEAF_FONTS "/Andika-Regular.ttf"); }

std::size_t u16(const std::string& bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]) << 8 |
         static_cast<unsigned char>(bytes[at + 1]);
}

// Where the record of a table stands in the table directory of an OpenType
// file (OpenType specification, "Table Directory").
std::size_t record_of(const std::string& font, std::string_view tag) {
  for (std::size_t i = 0; i < u16(font, 4); ++i) {
    if (font.compare(12 + 16 * i, 4, tag) == 0) return 12 + 16 * i;
  }
  ADD_FAILURE() << "no table " << tag;
  return 12;
}

std::size_t offset_of(const std::string& font, std::string_view tag) {
  const std::size_t record = record_of(font, tag);
  return u16(font, record + 8) << 16 | u16(font, record + 10);
}

std::string with_rights(std::string font, int bits) {
  const std::size_t rights = offset_of(font, "OS/2") + 8;
  font[rights] = static_cast<char>(bits >> 8);
  font[rights + 1] = static_cast<char>(bits & 0xFF);
  return font;
}

std::string without_table(std::string font, std::string_view tag) {
  font.replace(record_of(font, tag), 4, "zzzz");
  return font;
}

std::string refusal(std::string bytes) {
  FontLibrary library(disk(), SHEAF_FONTS);
  std::string why;
  const Font* font =
      library.add("Own", FontRole::regular, std::move(bytes), why);
  return font ? "taken" : why;
}

TEST(FontLibrary, FindsFacesByFamilyAndRole) {
  FontLibrary library(disk(), SHEAF_FONTS);
  const Font* regular = library.find("Andika", FontRole::regular);
  const Font* bold = library.find("andika", FontRole::bold);
  ASSERT_TRUE(regular && bold);
  EXPECT_EQ(regular->name(), "Andika");
  EXPECT_EQ(bold->name(), "Andika-Bold");
  EXPECT_EQ(library.find("Andika", FontRole::regular), regular);
  EXPECT_EQ(library.find("Copperplate", FontRole::regular), nullptr);
  EXPECT_EQ(library.families(), std::vector<std::string>{"Andika"});
}

TEST(FontLibrary, OpensOnlyWhatIsAskedFor) {
  FontLibrary library(disk(), SHEAF_FONTS);
  const std::string manifest = SHEAF_FONTS "/manifest.tsv";
  EXPECT_EQ(library.files_read(), std::vector<std::string>{manifest});
  library.find("Andika", FontRole::bold);
  EXPECT_EQ(
      library.files_read(),
      (std::vector<std::string>{manifest, SHEAF_FONTS "/Andika-Bold.ttf"}));
}

TEST(FontLibrary, GivesTheFaceThereIs) {
  FontLibrary library(disk(), SHEAF_FONTS);
  std::string why;
  const Font* own = library.add("Own", FontRole::regular, andika(), why);
  ASSERT_TRUE(own) << why;
  EXPECT_EQ(library.find("own", FontRole::bold), own);
  EXPECT_EQ(own->family(), "Own");
}

TEST(FontLibrary, PrefersTheTeachersOwnFace) {
  FontLibrary library(disk(), SHEAF_FONTS);
  const Font* shipped = library.find("Andika", FontRole::regular);
  std::string why;
  const Font* own = library.add("Andika", FontRole::regular, andika(), why);
  EXPECT_NE(own, shipped);
  EXPECT_EQ(library.find("Andika", FontRole::regular), own);
}

// Heights of x and H as hb-shape --show-extents gives them (HarfBuzz 6.0).
TEST(Font, MeasuresItsLetters) {
  FontLibrary library(disk(), SHEAF_FONTS);
  const Font& font = *library.find("Andika", FontRole::regular);
  EXPECT_EQ(font.units_per_em(), 2048);
  EXPECT_EQ(font.x_height(), 1020);
  EXPECT_EQ(font.cap_height(), 1460);
  EXPECT_GT(font.ascent(), font.cap_height());
  EXPECT_GT(font.descent(), 0);
  EXPECT_EQ(font.outlines(), Outlines::truetype);
  EXPECT_EQ(font.bytes().size(), andika().size());
}

TEST(Font, FitsTheTypeSizeToTheHeightOfSmallLetters) {
  FontLibrary library(disk(), SHEAF_FONTS);
  const Font& font = *library.find("Andika", FontRole::regular);
  for (const double mm : {4.0, 5.0, 6.0, 8.0, 10.0}) {
    const Length height = Length::from_mm(mm);
    const Length size = size_for_x_height(font, height);
    const Length back = at_size(font, size, font.x_height());
    EXPECT_LE(std::abs((back - height).mils()), 1) << mm;
  }
  EXPECT_EQ(at_size(font, Length::from_pt(2), -1536), -Length::from_pt(1.5));
}

TEST(Font, KnowsWhichTextItCovers) {
  FontLibrary library(disk(), SHEAF_FONTS);
  const Font& font = *library.find("Andika", FontRole::regular);
  EXPECT_TRUE(
      font.covers("The fish isn\u2019t \u201Chot\u201D \u2014 caf\u00E9"));
  EXPECT_TRUE(font.covers("/\u02C8\u0283\u026Ap/ o\u035Eo \u0103"));
  EXPECT_TRUE(font.covers("a\u200Db")) << "joiners need no glyph";
  EXPECT_TRUE(font.covers(""));
  EXPECT_FALSE(font.covers("fish \U0001F41F"));
  EXPECT_FALSE(font.covers("\u9B5A"));
}

TEST(Font, RefusesWhatIsNoFont) {
  EXPECT_EQ(refusal(""),
            "it is not a TrueType or OpenType font, or is damaged");
  EXPECT_EQ(refusal("PK\x03\x04 a document"),
            "it is not a TrueType or OpenType font, or is damaged");
  EXPECT_EQ(refusal("wOF2" + andika()),
            "it is a web font, not a TrueType or OpenType file");
  EXPECT_EQ(refusal(andika().substr(0, 300)),
            "it is not a TrueType or OpenType font, or is damaged");
}

TEST(Font, RefusesFontsThatCannotPrint) {
  EXPECT_EQ(refusal(without_table(andika(), "glyf")),
            "it has no outlines to print");
  EXPECT_EQ(refusal(without_table(andika(), "cmap")), "it has no letter `a`");
}

// Bits of OS/2 fsType as the OpenType specification defines them.
TEST(Font, RespectsWhatTheMakerAllows) {
  EXPECT_EQ(refusal(with_rights(andika(), 0x0000)), "taken");
  EXPECT_EQ(refusal(with_rights(andika(), 0x0004)), "taken");
  EXPECT_EQ(refusal(with_rights(andika(), 0x0008)), "taken");
  EXPECT_EQ(refusal(with_rights(andika(), 0x0006)), "taken")
      << "of several rights the most generous one counts";
  EXPECT_EQ(refusal(with_rights(andika(), 0x0002)),
            "its licence bits forbid putting it into documents");
  EXPECT_EQ(refusal(with_rights(andika(), 0x0104)),
            "its licence bits forbid putting a part of it into documents");
  EXPECT_EQ(refusal(with_rights(andika(), 0x0204)),
            "its licence bits allow only its bitmaps in documents");
}

class FontManifest : public testing::Test {
 protected:
  void write(const std::string& name, const std::string& text) const {
    place.write(name, text);
  }
  testing_support::TemporaryFolder place;
  const std::string& folder = place.path();
};

TEST_F(FontManifest, MustBeThere) {
  EXPECT_THROW(FontLibrary(disk(), folder), MachineError);
}

TEST_F(FontManifest, MustNameFilesThatAreThere) {
  write("manifest.tsv", "family\trole\tfile\nOwn\tregular\town.ttf\n");
  EXPECT_THROW(FontLibrary(disk(), folder), MachineError);
  write("own.ttf", "");
  FontLibrary library(disk(), folder);
  EXPECT_THROW(library.find("Own", FontRole::regular), MachineError);
}

TEST_F(FontManifest, MustMakeSense) {
  write("own.ttf", andika());
  for (const char* line : {"Own\tregular", "Own\tslanted\town.ttf",
                           "Own\tregular\t../own.ttf", "\tregular\town.ttf"}) {
    write("manifest.tsv", std::string("family\trole\tfile\n") + line + "\n");
    EXPECT_THROW(FontLibrary(disk(), folder), MachineError) << line;
  }
}

TEST_F(FontManifest, MustBeAFileThatNamesATypeface) {
  const auto refusal_of_list = [&]() -> std::string {
    try {
      const FontLibrary library(disk(), folder);
      return "taken";
    } catch (const MachineError& fault) {
      return fault.what();
    }
  };
  const std::string list = folder + "/manifest.tsv";
  for (const char* text : {"", "family\trole\tfile\n# none\n\n"}) {
    write("manifest.tsv", text);
    EXPECT_EQ(refusal_of_list(),
              "the list of fonts " + list +
                  " names no typeface; build or install Sheaf again");
  }
  std::filesystem::remove(list);
  std::filesystem::create_directory(list);
  EXPECT_EQ(refusal_of_list(), "cannot read the list of fonts " + list);
}

// Every shipped file is the one that the manifest says it is.
TEST(ShippedFonts, HaveTheListedChecksums) {
  std::istringstream manifest(file_text(SHEAF_FONTS "/manifest.tsv"));
  std::string line;
  std::getline(manifest, line);
  EXPECT_EQ(line,
            "family\trole\tfile\tversion\tsource package\tsha256\tlicence");
  int fonts = 0;
  while (std::getline(manifest, line)) {
    std::istringstream cells(line);
    std::string cell[7];
    for (std::string& text : cell) std::getline(cells, text, '\t');
    const std::string command = "sha256sum '" SHEAF_FONTS "/" + cell[2] + "'";
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(
        popen(command.c_str(), "r"), &pclose);
    ASSERT_TRUE(pipe);
    char sum[65] = {};
    ASSERT_EQ(std::fread(sum, 1, 64, pipe.get()), 64U);
    EXPECT_EQ(cell[5], sum) << cell[2];
    EXPECT_NE(cell[6].find("OFL-1.1"), std::string::npos);
    ++fonts;
  }
  EXPECT_GE(fonts, 3);
}

}  // namespace
}  // namespace sheaf
