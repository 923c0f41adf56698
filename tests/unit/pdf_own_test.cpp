// A PDF that Sheaf made is known again by a few bytes of it, and no other is.

#include <gtest/gtest.h>

#include "pdf/own_pdf.h"
#include "pdf/pdf_writer.h"
#include "support/run_program.h"
#include "support/sample_document.h"

namespace sheaf {
namespace {

using testing_support::DocumentMaker;
using testing_support::file_bytes;
using testing_support::run_program;
using testing_support::TemporaryFolder;

std::optional<OwnPdf> read_own(const std::string& bytes) {
  std::size_t read = 0;
  int parts = 0;
  auto pdf =
      read_own_pdf(bytes.size(), [&](std::uint64_t begin, std::size_t size) {
        ++parts;
        std::string part =
            begin < bytes.size() ? bytes.substr(begin, size) : std::string();
        read += part.size();
        return part;
      });
  EXPECT_LE(parts, 3);
  EXPECT_LE(read, 8192U);
  return pdf;
}

Document one_page(std::string title) {
  Document document;
  document.title = std::move(title);
  document.add({Role::section, kDocumentElement});
  document.pages.emplace_back().size = {Length::from_mm(210),
                                        Length::from_mm(297)};
  return document;
}

TEST(OwnPdf, IsKnownAgainWithItsTitle) {
  for (const char* title :
       {"Progress", "a (b) \\ c", "learner's packet, code KF8V, for B7",
        "Füchse, for É7", "\U0001F98A for B7"}) {
    const auto pdf = read_own(write_pdf(one_page(title)));
    ASSERT_TRUE(pdf.has_value()) << title;
    EXPECT_EQ(pdf->title, title);
  }
  DocumentMaker maker(SHEAF_FONTS);
  EXPECT_TRUE(read_own(write_pdf(maker.worksheet(30, 1))).has_value());
  PdfWriter writer({"teacher's pages"});
  writer.add(one_page("one"));
  writer.add(one_page("two"));
  const auto pdf = read_own(writer.finish());
  ASSERT_TRUE(pdf.has_value());
  EXPECT_EQ(pdf->title, "teacher's pages");
}

TEST(OwnPdf, IsNoneAfterAnyoneWroteBehindIt) {
  const std::string own = write_pdf(one_page("Progress"));
  EXPECT_FALSE(read_own(own + "1 0 obj\n<<>>\nendobj\n%%EOF\n").has_value());
  EXPECT_FALSE(read_own(own + "\n").has_value());
  EXPECT_FALSE(read_own(own.substr(0, own.size() - 1)).has_value());
  EXPECT_FALSE(read_own(own.substr(0, own.size() / 2)).has_value());
  // As programs that add remarks do it: another table, and another end.
  const std::size_t begin = own.rfind(" 0 obj\n<</Type/XRef");
  ASSERT_NE(begin, std::string::npos);
  std::string remarks = own +
                        "99 0 obj\n<</Type/XRef/Size 99/Prev 1>>\n"
                        "stream\n\nendstream\nendobj\nstartxref\n" +
                        std::to_string(own.size()) + "\n%%EOF\n";
  EXPECT_FALSE(read_own(remarks).has_value());
}

TEST(OwnPdf, IsNoFileOfAnotherMaker) {
  const TemporaryFolder folder;
  const std::string own =
      folder.write("own.pdf", write_pdf(one_page("Progress")));
  const std::string other = folder.path() + "/other.pdf";
  for (const std::vector<std::string>& command :
       {std::vector<std::string>{"qpdf", own, other},
        {"qpdf", "--object-streams=generate", own, other},
        {"qpdf", "--linearize", own, other},
        {"qpdf", "--rotate=+90", own, other}}) {
    const auto made = run_program(command);
    ASSERT_EQ(made.status, 0) << made.out;
    EXPECT_FALSE(read_own(file_bytes(other)).has_value()) << command[1];
  }
  for (const std::string& text :
       {std::string(), std::string("%PDF-1.7\n%\xE2\xE3\xCF\xD3\n"),
        std::string("date: 2026-03-12\n"), std::string(100, '\0'),
        std::string("\nstartxref\n0\n%%EOF\n"),
        std::string("%PDF-1.7\n%\xE2\xE3\xCF\xD3\n3 0 obj\n<</Producer(Sheaf)"
                    "/Title(a"),
        std::string("%PDF-1.7\n%\xE2\xE3\xCF\xD3\n3 0 obj\n<</Producer(Sheaf)"
                    "/Title(a)>>\nendobj\n\nstartxref\n15\n%%EOF\n"),
        std::string("%PDF-1.7\n%\xE2\xE3\xCF\xD3\n3 0 obj\n<</Producer(Sheaf)"
                    "/Title<FEFF00"),
        std::string("%PDF-1.7\n%\xE2\xE3\xCF\xD3\n3 0 obj\n<</Producer(Sheaf)"
                    "/Title(a)>>\nstartxref\n99999999999999999999\n%%EOF\n")}) {
    EXPECT_FALSE(read_own(text).has_value()) << text;
  }
}

// Packets of before the mark are not to stand in the way of new ones.
TEST(OwnPdf, MayBeOfBeforeTheMark) {
  std::string old =
      "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n6 0 obj\n<</Filter/FlateDecode/Length 3"
      ">>\nstream\nabc\nendstream\nendobj\n";
  const std::string place = std::to_string(old.size());
  const std::string sum(32, 'a');
  old +=
      "9 0 obj\n<</Type/XRef/Size 10/W[1 4 2]/Filter/FlateDecode/DecodeParms"
      "<</Predictor 12/Columns 7>>/Root 1 0 R/Info 2 0 R/ID[<" +
      sum + "><" + sum +
      ">]/Length 2>>\nstream\nxx\nendstream\nendobj\n"
      "startxref\n" +
      place + "\n%%EOF\n";
  const auto pdf = read_own(old);
  ASSERT_TRUE(pdf.has_value());
  EXPECT_EQ(pdf->title, "");
}

// Any single byte of the parts that are looked at may be another.
TEST(OwnPdf, BearsAnyChange) {
  const std::string own = write_pdf(one_page("Progress"));
  for (std::size_t at = 0; at < own.size(); ++at) {
    std::string changed = own;
    changed[at] = static_cast<char>(changed[at] ^ 0x15);
    read_own(changed);
    read_own(own.substr(0, at));
  }
}

}  // namespace
}  // namespace sheaf
