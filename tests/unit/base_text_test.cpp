#include <gtest/gtest.h>

#include "base/nearest.h"
#include "base/shuffle.h"
#include "base/utf8.h"
#include "base/value.h"

namespace sheaf {
namespace {

TEST(Utf8, FindsTheFirstBadByte) {
  EXPECT_FALSE(find_bad_utf8("caf\xC3\xA9"));
  EXPECT_EQ(find_bad_utf8("ab\xFFx"), 2U);
  EXPECT_EQ(find_bad_utf8("ab\xC3"), 2U);
  EXPECT_EQ(find_bad_utf8("\xED\xA0\x80"), 0U);  // a lone surrogate
}

TEST(Utf8, SeesCharactersAsPeopleDo) {
  EXPECT_EQ(count_characters("e\xCC\x81t"), 2);
  EXPECT_EQ(normalized("e\xCC\x81"), "\xC3\xA9");
  EXPECT_EQ(lower_case("ÉCOLE Monday"), "école monday");
  EXPECT_EQ(display_width("a\xF0\x9F\x90\x9F"), 3);
}

TEST(Nearest, ForgivesSlipsOfTheHand) {
  const std::string_view names[] = {"words", "pattern", "sentences", "key-word",
                                    "days"};
  EXPECT_EQ(nearest_names("wrods", names).front(), "words");
  EXPECT_EQ(nearest_names("Key Word", names).front(), "key-word");
  EXPECT_EQ(nearest_names("sentence", names).front(), "sentences");
  EXPECT_TRUE(nearest_names("zzz", names).empty());
  EXPECT_EQ(did_you_mean("patern", names).text, "did you mean `pattern`?");
}

TEST(Nearest, TakesAWordOfTheSameStemForWhatIsMeant) {
  const std::string_view names[] = {"notation", "dictate-words",
                                    "dictate-sentences", "pictures"};
  EXPECT_EQ(did_you_mean("dictation", names).text,
            "did you mean `dictate-words` or `dictate-sentences`?");
  EXPECT_EQ(did_you_mean("notatoin", names).text, "did you mean `notation`?");
  EXPECT_EQ(did_you_mean("nictation", names).text, "did you mean `notation`?");
}

TEST(Nearest, CountsASwapAsOneStep) {
  EXPECT_EQ(edit_distance("gril", "girl", 3), 1);
  EXPECT_EQ(edit_distance("ship", "shop", 3), 1);
  EXPECT_EQ(edit_distance("ship", "elephant", 3), 4);
}

TEST(Shuffle, DependsOnTheSeedOnly) {
  std::vector<int> a = {1, 2, 3, 4, 5, 6}, b = a, c = a;
  Random one(7), two(7), three(8);
  shuffle(a, one);
  shuffle(b, two);
  shuffle(c, three);
  EXPECT_EQ(a, b);
  EXPECT_NE(a, c);
}

TEST(Shuffle, HashIsTheKnownOne) {
  // FNV-1a, 64 bits, of "a": value from memory of its published test vectors.
  EXPECT_EQ(text_hash("a"), 0xAF63DC4C8601EC8CU);
}

TEST(PlacedText, FindsPartsThatTheFileWroteOverLines) {
  const SourceFile file("a.yaml", "k: |\n  one\n  two\n");
  const PlacedText text("one\ntwo\n", {&file, 3, 17}, {{0, 7}, {4, 13}});
  EXPECT_EQ(text.part(0, 3).span.text(), "one");
  EXPECT_EQ(text.part(4, 7).span.text(), "two");
}

TEST(PlacedText, KeepsPlacesWhenSlicedAndSqueezed) {
  const SourceFile file("a.yaml", "k: |\n  one\n  two  six\n");
  const PlacedText text("one\ntwo  six\n", {&file, 7, 22}, {{0, 7}, {4, 13}});
  const PlacedText slice = text.slice(2, 9);
  EXPECT_EQ(slice.text(), "e\ntwo  ");
  EXPECT_EQ(slice.part(2, 5).span.text(), "two");
  const PlacedText squeezed = text.squeezed();
  EXPECT_EQ(squeezed.text(), "one two six");
  EXPECT_EQ(squeezed.part(4, 7).span.text(), "two");
  EXPECT_EQ(squeezed.part(8, 11).span.text(), "six");
  EXPECT_EQ(squeezed.span().text(), "one\n  two  six");
  EXPECT_EQ(text.slice(3, 4).squeezed().text(), "");
}

TEST(PlacedText, ChosenBySheafHasOnePlaceThroughout) {
  const SourceFile file("a.yaml", "pattern: oa\n");
  const auto chosen = [&](std::string text) {
    return PlacedText::chosen(std::move(text), {&file, 9, 11});
  };
  const PlacedText text = chosen("The  \uFB01rst boat");
  for (const PlacedText& other :
       {text, text.squeezed(), text.with_end('.'), text.slice(5, 12),
        text.without_ligatures(), chosen("Ros\u0065\u0301").composed()}) {
    EXPECT_EQ(other.span().text(), "oa") << other.text();
    EXPECT_EQ(other.part(1, 4).span.text(), "oa") << other.text();
  }
  EXPECT_EQ(text.squeezed().with_end('.').without_ligatures().text(),
            "The first boat.");
}

TEST(Utf8, NamesInMessagesWhatATerminalObeys) {
  EXPECT_EQ(printable("schöne Übung 日本語 🐟"), "schöne Übung 日本語 🐟");
  EXPECT_EQ(printable("a\nb\rc\td"), "a\\nb\\rc\\td");
  EXPECT_EQ(printable(std::string_view("\0\x1B[31m\x7F", 7)),
            "\\x00\\x1B[31m\\x7F");
  // C1, an override, an isolate, a mark of direction, a line separator, a tag.
  EXPECT_EQ(printable("\xC2\x9B\u202E\u2066\u200F\u2028\U000E0041"),
            "\\u009B\\u202E\\u2066\\u200F\\u2028\\uE0041");
  EXPECT_EQ(printable("caf\xE9 \xED\xA0\x80"), "caf\\xE9 \\xED\\xA0\\x80");
  EXPECT_EQ(printable("a\u00A0b\u3000c"), "a b c");
}

TEST(Utf8, KnowsLettersMarksAndSpaces) {
  for (const char32_t c :
       {U'a', U'Z', U'\u00E9', U'\u00DF', U'\u0153', U'\u1E9E'}) {
    EXPECT_TRUE(is_latin_letter(c)) << static_cast<int>(c);
  }
  for (const char32_t c :
       {U'1', U'\'', U'\u00D7', U'\u00AA', U'\u0430', U'\u0259', U'\uFF41'}) {
    EXPECT_FALSE(is_latin_letter(c)) << static_cast<int>(c);
  }
  EXPECT_TRUE(is_mark(0x301));
  EXPECT_FALSE(is_mark(U'e'));
  EXPECT_TRUE(is_space(0xA0));
  EXPECT_TRUE(is_space(U'\t'));
  EXPECT_FALSE(is_space(U'\n'));
}

}  // namespace
}  // namespace sheaf
