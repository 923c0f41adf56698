#include "base/options.h"

#include <gtest/gtest.h>

namespace sheaf {
namespace {

using Kind = OptionSpec::Kind;
constexpr OptionSpec kTable[] = {
    {"size", Kind::length, "36 pt", "size of the type", "10 pt", "20 mm"},
    {"columns", Kind::count, "2", "columns", "1", "4"},
    {"marks", Kind::choice, "dots", "what stands under", {}, {}, "dots lines"},
    {"names", Kind::flag, "yes", "print the name line"},
    {"letters", Kind::letters, "", "letters to write"},
};

TEST(Options, ReadsLengthsInFourUnits) {
  EXPECT_EQ(read_length("25.4 mm"), Length::from_pt(72));
  EXPECT_EQ(read_length("2.54cm"), Length::from_pt(72));
  EXPECT_EQ(read_length("1 in"), Length::from_pt(72));
  EXPECT_EQ(read_length("72pt"), Length::from_pt(72));
  for (const char* bad : {"", "mm", "12", "12 px", "1,5 mm", "1e3 mm", "nan mm",
                          "inf mm", "9999999 mm", "12 mm x"}) {
    EXPECT_FALSE(read_length(bad)) << bad;
  }
}

TEST(Options, FillsWhatIsLeftOut) {
  Diagnostics d;
  const OptionValues v = read_options(kTable, nullptr, "the sheet", d);
  EXPECT_EQ(v.length("size"), Length::from_pt(36));
  EXPECT_EQ(v.count("columns"), 2);
  EXPECT_EQ(v.choice("marks"), "dots");
  EXPECT_TRUE(v.flag("names"));
}

// One key with a bare text after it, placed as it would stand in a file.
Value keys(const SourceFile& file, std::string key, std::string value) {
  const auto size = static_cast<std::uint32_t>(key.size());
  const auto whole = static_cast<std::uint32_t>(file.text().size());
  Value text;
  text.kind = Value::Kind::text;
  text.span = {&file, size + 2, whole};
  text.text = PlacedText(std::move(value), text.span, {{0, size + 2}});
  Value map;
  map.kind = Value::Kind::keys;
  map.entries.push_back({{std::move(key), {&file, 0, size}}, text});
  return map;
}

std::string complaint(std::string key, std::string value) {
  const SourceFile file("l.yaml", key + ": " + value);
  const Value map = keys(file, std::move(key), std::move(value));
  Diagnostics d;
  read_options(kTable, &map, "the sheet `x`", d);
  return to_text(d);
}

TEST(Options, LettersAreLettersAndBlanks) {
  EXPECT_EQ(complaint("letters", "b D sh a_e"), "");
  for (const char* wrong : {"b 5", "b, d", "é"}) {
    EXPECT_NE(complaint("letters", wrong).find("letters from a to z"),
              std::string::npos)
        << wrong;
  }
}

TEST(Options, SaysWhatDoesNotFit) {
  EXPECT_NE(complaint("size", "36").find("mm, cm, in or pt"),
            std::string::npos);
  EXPECT_NE(complaint("size", "1 pt").find("choose from 10 pt to 20 mm"),
            std::string::npos);
  EXPECT_NE(complaint("colums", "2").find("did you mean `columns`?"),
            std::string::npos);
  EXPECT_NE(complaint("marks", "stars").find("`dots` `lines`"),
            std::string::npos);
  EXPECT_EQ(complaint("columns", "4"), "");
}

}  // namespace
}  // namespace sheaf
