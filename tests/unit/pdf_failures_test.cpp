#include <gtest/gtest.h>

#include <string>

#include "base/error.h"
#include "base/shuffle.h"
#include "pdf/pdf_writer.h"
#include "support/run_program.h"
#include "support/sample_document.h"
#include "support/small_font.h"

namespace sheaf {
namespace {

using testing_support::DocumentMaker;
using testing_support::SmallFont;

Length pt(double value) { return Length::from_pt(value); }

Document with_run(const GlyphRun& run) {
  Document document;
  document.title = "Text";
  document.pages.resize(1);
  document.pages[0].size = {pt(612), pt(792)};
  const ElementId paragraph = document.add({Role::paragraph, kDocumentElement});
  document.pages[0].marks.push_back(
      GlyphMark{run, {pt(40), pt(100)}, kBlack, paragraph});
  return document;
}

std::string complaint(const Document& document) {
  try {
    write_pdf(document);
  } catch (const MachineError& error) {
    return error.what();
  }
  return "written";
}

TEST(Failures, SayWhatTheFontLacks) {
  DocumentMaker maker(SHEAF_FONTS);
  EXPECT_EQ(complaint(with_run(maker.run("a \U0001F41F", 20))),
            "the font `Andika` has no shape for `\U0001F41F`");
}

TEST(Failures, SayThatThereIsNothingToPrint) {
  EXPECT_EQ(complaint({}), "there is no page to print");
}

TEST(Failures, SayThatThereIsTooMuch) {
  Document document;
  document.pages.resize(100001);
  EXPECT_EQ(complaint(document),
            "a PDF of more than 100,000 pages is too large");
}

TEST(Failures, DoNotComeFromManyPages) {
  // More pages, and more objects, than one of libharu's arrays can hold.
  Document document;
  document.pages.resize(33000);
  for (Page& page : document.pages) page.size = {pt(612), pt(792)};
  testing_support::TemporaryFolder folder;
  const std::string path = folder.write("many.pdf", write_pdf(document));
  const auto outcome =
      testing_support::run_program({"qpdf", "--show-npages", path});
  EXPECT_EQ(outcome.out, "33000\n");
}

// Tries a font file that may be damaged: whatever happens must be one of
// three clear ends.
enum class End { refused, failed, written };

End end_of(const std::string& file) {
  DocumentMaker maker(SHEAF_FONTS);
  std::string why;
  const Font* font = maker.library().add("Own", FontRole::regular, file, why);
  if (!font) {
    EXPECT_FALSE(why.empty());
    return End::refused;
  }
  try {
    for (const char* text : {"the quick brown fox", "caf\u00E9 H I"}) {
      const GlyphRun run = maker.run(*font, text, 20);
      ink_of(run, 0, run.shape->text.size());
      EXPECT_FALSE(write_pdf(with_run(run)).empty());
    }
  } catch (const MachineError&) {
    return End::failed;
  }
  return End::written;
}

// Changes some bytes in one of a font's tables, most often near its start,
// where numbers are that others hang on.
std::string damaged(std::string file, std::uint64_t seed) {
  Random random(seed);
  const auto u8 = [&](std::size_t at) {
    return static_cast<std::size_t>(static_cast<unsigned char>(file[at]));
  };
  const auto u32 = [&](std::size_t at) {
    return u8(at) << 24 | u8(at + 1) << 16 | u8(at + 2) << 8 | u8(at + 3);
  };
  const std::size_t tables = u8(4) << 8 | u8(5);
  const std::size_t record = 12 + 16 * random.below(tables);
  const std::size_t begin = u32(record + 8);
  const std::size_t length = std::max<std::size_t>(1, u32(record + 12));
  const std::size_t reach =
      random.below(3) == 0 ? length : std::min<std::size_t>(length, 64);
  for (std::uint64_t i = 0; i < 1 + random.below(8); ++i) {
    file[(begin + random.below(reach)) % file.size()] =
        static_cast<char>(random.below(4) == 0 ? 0xFF : random.next());
  }
  if (random.below(10) == 0) file.resize(random.below(file.size()));
  if (random.below(10) == 0) file[random.below(12 + 16 * tables)] ^= 0x20;
  return file;
}

TEST(Failures, ComeGentlyFromDamagedFonts) {
  const std::string andika =
      testing_support::file_bytes(SHEAF_FONTS "/Andika-Regular.ttf");
  SmallFont by_name, by_cid;
  by_name.splits_e_acute = true;
  by_cid.is_cid_keyed = true;
  int ends[3] = {};
  for (std::uint64_t seed = 0; seed < 400; ++seed) {
    const std::string& file = seed % 4 == 0   ? by_name.file()
                              : seed % 4 == 1 ? by_cid.file()
                                              : andika;
    ++ends[static_cast<int>(end_of(damaged(file, seed)))];
  }
  EXPECT_GT(ends[static_cast<int>(End::refused)], 0);
  EXPECT_GT(ends[static_cast<int>(End::written)], 0);
  RecordProperty("refused", ends[0]);
  RecordProperty("failed", ends[1]);
  RecordProperty("written", ends[2]);
}

TEST(Failures, ComeGentlyFromCutFonts) {
  SmallFont font;
  const std::string file = font.file();
  for (std::size_t size = 0; size < file.size(); size += 13) {
    end_of(file.substr(0, size));
  }
  EXPECT_EQ(end_of(file), End::written);
}

}  // namespace
}  // namespace sheaf
