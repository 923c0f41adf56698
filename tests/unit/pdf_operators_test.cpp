#include <gtest/gtest.h>

#include "pdf/document_entries.h"
#include "pdf/operators.h"

namespace sheaf {
namespace {

template <typename Append, typename... Values>
std::string made(Append append, Values... values) {
  std::string out;
  append(out, values...);
  return out;
}

TEST(Operators, WriteLengthsShort) {
  const auto length = [](std::int64_t mils) {
    return made(append_length, Length::from_mils(mils));
  };
  EXPECT_EQ(length(0), "0");
  EXPECT_EQ(length(4), "0");
  EXPECT_EQ(length(-4), "0");
  EXPECT_EQ(length(5), ".01");
  EXPECT_EQ(length(-5), "-.01");
  EXPECT_EQ(length(500), ".5");
  EXPECT_EQ(length(-500), "-.5");
  EXPECT_EQ(length(12000), "12");
  EXPECT_EQ(length(12345), "12.35");
  EXPECT_EQ(length(-100000), "-100");
  EXPECT_EQ(length(595276), "595.28");
  EXPECT_EQ(made(append_size, Length::from_mils(595276)), "595.276");
}

TEST(Operators, WriteNumbers) {
  EXPECT_EQ(made(append_integer, 0), "0");
  EXPECT_EQ(made(append_integer, -1234567890123), "-1234567890123");
  EXPECT_EQ(made(append_decimal, 1.0 / 3, 6), ".333333");
  EXPECT_EQ(made(append_decimal, -2.5, 2), "-2.5");
  EXPECT_EQ(made(append_grey, 0), "0");
  EXPECT_EQ(made(append_grey, 255), "1");
  EXPECT_EQ(made(append_grey, 128), ".502");
  EXPECT_EQ(made(append_reference, 7U), "7 0 R");
}

// ISO 32000-1, 7.3.4.2: brackets, backslash, and a carriage return, which a
// reader would take for a line feed.
TEST(Operators, EscapeStrings) {
  EXPECT_EQ(made(append_escaped, std::string_view("a(b)c\\d\re\nf")),
            "a\\(b\\)c\\\\d\\re\nf");
  using namespace std::string_view_literals;
  EXPECT_EQ(made(append_escaped, "\0\x01"sv), std::string("\0\x01", 2));
}

TEST(Operators, WriteTextForPeople) {
  const auto text = [](std::string_view utf8) {
    return made(append_text_string, utf8);
  };
  EXPECT_EQ(text("ship (sh)"), "(ship \\(sh\\))");
  EXPECT_EQ(text("\u0103"), "<FEFF0103>");
  // U+1F41F as surrogates: D83D DC1F (Unicode Standard, table 3-5's rule).
  EXPECT_EQ(text("\U0001F41F"), "<FEFFD83DDC1F>");
  EXPECT_EQ(text("\xFF"), "<FEFFFFFD>");
  EXPECT_EQ(text("tab\t"), "<FEFF0074006100620009>");
}

std::string labels(const std::vector<const char*>& texts) {
  PageLabels labels;
  for (const char* text : texts) labels.add(text);
  return labels.entry();
}

TEST(PageLabels, CountOnInOneEntry) {
  EXPECT_EQ(labels({"", ""}), "");
  EXPECT_EQ(labels({"cards 1", "cards 2", "cards 3"}),
            "/PageLabels<</Nums[0<</P(cards )/S/D/St 1>>]>>");
  EXPECT_EQ(labels({"a 1", "a 2", "b 1", "a 3"}),
            "/PageLabels<</Nums[0<</P(a )/S/D/St 1>>2<</P(b )/S/D/St 1>>"
            "3<</P(a )/S/D/St 3>>]>>");
}

TEST(PageLabels, KeepWhatIsNoCount) {
  EXPECT_EQ(
      labels({"plan", "plan", "7", "007", "caf\u00E9 2"}),
      "/PageLabels<</Nums[0<</P(plan)>>1<</P(plan)>>2<</S/D/St 7>>"
      "3<</P(00)/S/D/St 7>>4<</P<FEFF00630061006600E90020>/S/D/St 2>>]>>");
  EXPECT_EQ(labels({"", "x", ""}),
            "/PageLabels<</Nums[0<</S/D/St 1>>1<</P(x)>>2<</S/D/St 3>>]>>");
  EXPECT_EQ(labels({"n 12345678901234567890"}),
            "/PageLabels<</Nums[0<</P(n 12345678901)/S/D/St 234567890>>]>>");
}

TEST(Metadata, BearsAnyTitle) {
  FileHead document;
  document.title = "a < b & \x01 \u201Cc\u201D";
  const std::string text = metadata(document, true);
  EXPECT_NE(text.find(">a &lt; b &amp;   \u201Cc\u201D</rdf:li>"),
            std::string::npos)
      << text;
  document.title = "  ";
  EXPECT_NE(metadata(document, true).find(">Worksheets</rdf:li>"),
            std::string::npos);
}

}  // namespace
}  // namespace sheaf
