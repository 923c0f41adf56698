#include <gtest/gtest.h>

#include "input/lesson.h"
#include "input/yaml_value.h"

namespace sheaf {
namespace {

using Kind = Value::Kind;
using Style = Value::Style;

struct ReadValue {
  std::unique_ptr<SourceFile> file;
  Diagnostics diagnostics;
  Value value;

  const Value& at(std::string_view key) const { return *value.find(key); }
};

ReadValue value_from(std::string text) {
  ReadValue read;
  read.file = std::make_unique<SourceFile>("a.yaml", std::move(text));
  read.value = read_yaml(*read.file, read.diagnostics);
  return read;
}

TEST(Yaml, KnowsKindStyleAndPlaceOfEveryValue) {
  const ReadValue read = value_from(
      "bare: one  # note\n"
      "quoted: \"two\"\n"
      "single: 'it''s'\n"
      "lines: |\n"
      "  three\n"
      "  four\n"
      "\n"
      "folded: >-\n"
      "  five\n"
      "  six\n"
      "nothing:\n"
      "list: [a, \"b\" , {c: d}, ]\n"
      "dashes:\n"
      "  - e\n"
      "  -\n"
      "  - - f\n"
      "    - g\n"
      "keys: {h: i, 'j': {}}\n"
      "after: x\n");
  EXPECT_EQ(to_text(read.diagnostics), "");
  EXPECT_EQ(read.value.entries.size(), 10U);
  EXPECT_EQ(read.at("bare").style, Style::bare);
  EXPECT_EQ(read.at("bare").span.text(), "one");
  EXPECT_EQ(read.at("quoted").style, Style::quoted);
  EXPECT_EQ(read.at("quoted").span.text(), "\"two\"");
  EXPECT_EQ(read.at("single").text.text(), "it's");
  EXPECT_EQ(read.at("lines").style, Style::lines);
  EXPECT_EQ(read.at("lines").text.text(), "three\nfour\n");
  EXPECT_EQ(read.at("lines").span.text(), "three\n  four");
  EXPECT_EQ(read.at("folded").text.text(), "five six");
  EXPECT_EQ(read.at("folded").text.part(5, 8).span.text(), "six");
  EXPECT_EQ(read.at("nothing").kind, Kind::nothing);
  EXPECT_EQ(read.at("nothing").span.text(), "nothing:");
  const Value& list = read.at("list");
  EXPECT_EQ(list.span.text(), "[a, \"b\" , {c: d}, ]");
  ASSERT_EQ(list.items.size(), 3U);
  EXPECT_EQ(list.items[2].span.text(), "{c: d}");
  const Value& dashes = read.at("dashes");
  ASSERT_EQ(dashes.items.size(), 3U);
  EXPECT_EQ(dashes.items[1].kind, Kind::nothing);
  EXPECT_EQ(dashes.items[1].span.text(), "-");
  EXPECT_EQ(read.file->place_of(dashes.items[1].span.begin).line, 15);
  EXPECT_EQ(dashes.items[2].items[1].span.text(), "g");
  const Value& keys = read.at("keys");
  EXPECT_EQ(keys.span.text(), "{h: i, 'j': {}}");
  EXPECT_EQ(keys.entries[1].key.span.text(), "'j'");
  EXPECT_EQ(keys.entries[1].value.kind, Kind::keys);
}

TEST(Yaml, TakesNullWordsForText) {
  const ReadValue read = value_from(
      "- null\n"
      "- ~\n"
      "- {null: ~, a: NULL, b: }\n"
      "-\n"
      "- a:\n"
      "  null: Null\n"
      "  b:\n"
      "    null\n");
  EXPECT_EQ(to_text(read.diagnostics), "");
  ASSERT_EQ(read.value.items.size(), 5U);
  EXPECT_EQ(read.value.items[0].text.text(), "null");
  EXPECT_EQ(read.value.items[1].text.text(), "~");
  const Value& flow = read.value.items[2];
  ASSERT_EQ(flow.entries.size(), 3U);
  EXPECT_EQ(flow.entries[0].key.value, "null");
  EXPECT_EQ(flow.entries[0].value.text.text(), "~");
  EXPECT_EQ(flow.entries[1].value.text.text(), "NULL");
  EXPECT_EQ(flow.entries[2].value.kind, Kind::nothing);
  EXPECT_EQ(read.value.items[3].kind, Kind::nothing);
  const Value& block = read.value.items[4];
  ASSERT_EQ(block.entries.size(), 3U);
  EXPECT_EQ(block.entries[0].value.kind, Kind::nothing);
  EXPECT_EQ(block.entries[1].key.value, "null");
  EXPECT_EQ(block.entries[1].value.text.text(), "Null");
  EXPECT_EQ(block.entries[2].value.text.text(), "null");
}

TEST(Yaml, SeesWhatTheTeacherSees) {
  // A tab and a no-break space between words, lone carriage returns.
  const ReadValue read = value_from("a:\tone\xC2\xA0two\rb: three\r");
  EXPECT_EQ(to_text(read.diagnostics), "");
  EXPECT_EQ(read.at("a").text.squeezed().text(), "one two");
  EXPECT_EQ(read.at("b").span.text(), "three");
}

TEST(Yaml, AllowsMarksAroundOneDocument) {
  const ReadValue read = value_from("---\na: b\n...\n");
  EXPECT_EQ(to_text(read.diagnostics), "");
  EXPECT_EQ(read.at("a").text.text(), "b");
}

TEST(Yaml, RefusesAFileAboveItsLimit) {
  const SourceFile file("a.yaml", "a: " + std::string(3000, 'b') + "\n");
  Diagnostics small, large;
  read_yaml(file, large, 4000);
  EXPECT_FALSE(large.has_errors());
  read_yaml(file, small, 2048);
  const std::string text = to_text(small);
  EXPECT_EQ(text.substr(0, text.find('\n')),
            "a.yaml:1:1: error: the file is 3 kB; Sheaf reads files of up to 2 "
            "kB [file-too-large]");
}

std::string repeated(std::string_view part, int count) {
  std::string all;
  for (int i = 0; i < count; ++i) all += part;
  return all;
}

// Files that no teacher writes. They must be refused with a message, and the
// messages themselves must stay few.
TEST(Yaml, RefusesHostileFiles) {
  const std::string start = "pattern: sh\nwords: ship\ntitle: ";
  const std::string files[] = {
      repeated("[", 200'000),
      start + repeated("{a: ", 50'000),
      repeated("- ", 100'000),
      repeated("? ", 100'000),
      repeated("a: b\n", 20'000),
      "words:\n" + repeated("- \n", 60'000),
      "words: [" + repeated("[],", 60'000),
      "a: &a [x]\nb: &b [*a, *a]\nc: &c [*b, *b]\nd: [*c, *c]\n",
      start + std::string(200'000, 'x'),
      "pattern: sh\nwords: " + repeated("a ", 100'000),
      "pattern: sh\nwords: " + repeated("\xF0\x9F\x90\x9F ", 40'000),
      start + "e" + repeated("\xCC\x81", 100'000),
      start + repeated("\xE2\x80\xAE", 50'000),
      repeated(std::string_view("a: \0", 4), 20'000),
      start + repeated("]", 100'000),
      start + "'" + repeated("''", 100'000),
      start + "\"" + repeated("\\x41", 50'000),
      repeated("%", 100'000),
      repeated("\n", 100'000),
  };
  for (const std::string& text : files) {
    const SourceFile file("hostile.yaml", text);
    Diagnostics diagnostics;
    read_lesson(file, diagnostics);
    EXPECT_TRUE(diagnostics.has_errors()) << text.substr(0, 40);
    EXPECT_LT(to_text(diagnostics).size(), 40'000U) << text.substr(0, 40);
  }
}

}  // namespace
}  // namespace sheaf
