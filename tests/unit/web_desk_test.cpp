// What a page in a browser asks and is told.

#include <gtest/gtest.h>

#include <regex>

#include "files/disk_files.h"
#include "json/json.h"
#include "web/utf16_text.h"
#include "web/web_desk.h"

namespace sheaf::test {
namespace {

class Web : public ::testing::Test {
 protected:
  Json ask(const Json& request) {
    answer_ = desk_.ask(dumped(request));
    return Json::parse(answer_.json);
  }
  void change(const std::string& text) {
    text_ = text;
    ask({{"do", "change"}, {"path", "/lesson.yaml"}, {"text", text}});
  }
  Json about(const std::string& what, Json more = Json::object()) {
    more["do"] = what;
    more["path"] = "/lesson.yaml";
    return ask(more);
  }
  // ASCII texts only: offsets are bytes.
  std::string with(const Json& edits) const {
    std::string text = text_;
    for (auto edit = edits.rbegin(); edit != edits.rend(); ++edit) {
      const std::size_t from = (*edit)["from"], to = (*edit)["to"];
      text.replace(from, to - from, (*edit)["insert"].get<std::string>());
    }
    return text;
  }
  // The text after somebody has typed in a form.
  std::string typed(const std::string& key, const std::string& value) {
    return with(about("form-edits", {{"key", key}, {"text", value}}));
  }
  Json field(const std::string& key) {
    for (Json& one : about("form")) {
      if (one["key"] == key) return one;
    }
    return nullptr;
  }

  MemoryFiles files_{&disk()};
  WebDesk desk_{files_, SHEAF_SHIPPED};
  WebAnswer answer_;
  std::string text_;
};

TEST_F(Web, CountsPlacesAsABrowserDoes) {
  // The first line has a character of two units and four bytes.
  change(
      "# \xF0\x9F\x90\x9F caf\xC3\xA9\npattern: sh\nwords: ship fihs dish "
      "shed\n");
  for (const Json& message : about("messages")) {
    if (message["name"] != "unknown-word") continue;
    EXPECT_EQ(message["range"]["from"], 34);
    EXPECT_EQ(message["range"]["to"], 38);
    EXPECT_EQ(message["line"], 3);
    EXPECT_EQ(message["column"], 13);
    EXPECT_EQ(message["fixes"][0]["files"][0]["edits"][0]["insert"], "fish");
    return;
  }
  FAIL() << "fihs is not reported";
}

TEST_F(Web, SaysItsVersion) {
  const Json version = Json::parse(desk_.ask(R"({"do": "version"})").json);
  EXPECT_TRUE(std::regex_match(version.get<std::string>(),
                               std::regex("sheaf [0-9]+\\.[0-9]+.*")));
}

TEST(Utf16, PlacesWithinCharactersAreWhereTheyBegin) {
  const Utf16Text text(
      "a\xF0\x9F\x90\x9F"
      "b");
  EXPECT_EQ(text.units(1), 1U);
  EXPECT_EQ(text.units(3), 1U);
  EXPECT_EQ(text.units(5), 3U);
  EXPECT_EQ(text.units(99), 4U);
  EXPECT_EQ(text.byte(2), 1U);
  EXPECT_EQ(text.byte(3), 5U);
  EXPECT_EQ(text.byte(99), 6U);
}

TEST_F(Web, DrawsPagesForAScreen) {
  change("pattern: sh\nwords: ship fish dish shed\n");
  const Json pages = about("pages");
  ASSERT_GT(pages["pages"].size(), 5U);
  EXPECT_FALSE(pages["stale"].get<bool>());
  const Json drawn = about("draw", {{"page", 0}, {"dpi", 40}});
  ASSERT_EQ(answer_.parts.size(), 1U);
  EXPECT_FALSE(drawn["colour"].get<bool>());
  EXPECT_EQ(answer_.parts[0].size(), drawn["width"].get<std::size_t>() *
                                         drawn["height"].get<std::size_t>());
  EXPECT_EQ(answer_.parts[0].front(), '\xFF');  // white paper
  EXPECT_NE(answer_.parts[0].find('\0'), std::string::npos);
}

TEST_F(Web, MakesWhatTheCommandMakes) {
  change("pattern: sh\nwords: ship fish dish shed\n");
  const Json made = about("packets");
  EXPECT_EQ(made["files"], Json({"packet.pdf", "teacher.pdf"}));
  ASSERT_EQ(answer_.parts.size(), 2U);
  EXPECT_TRUE(answer_.parts[1].starts_with("%PDF-"));
}

TEST_F(Web, TakesPaperAndFilesBeside) {
  change("pattern: sh\nwords: ship fish dish shed\n");
  const double letter = about("pages")["pages"][0]["height"];
  ask({{"do", "options"}, {"paper", "a4"}});
  EXPECT_GT(about("pages")["pages"][0]["height"].get<double>(), letter);
}

TEST_F(Web, SeesFilesBesideTheLesson) {
  change("pattern: sh\nwords: ship fish dish shed\nsequence: own.yaml\n");
  const auto errors = [&] {
    int count = 0;
    for (const Json& message : about("messages")) {
      count += message["severity"] == "error" ? 1 : 0;
    }
    return count;
  };
  EXPECT_EQ(errors(), 1);
  desk_.put("/own.yaml", "steps:\n  - patterns: sh\n");
  EXPECT_EQ(errors(), 0);
  desk_.remove("/own.yaml");
  EXPECT_EQ(errors(), 1);
}

TEST_F(Web, AnswersNonsenseWithAFault) {
  for (const std::string_view asked :
       {"", "[]", "{}", "{\"do\": 5}",
        "{\"do\": \"fly\", \"path\": \"/x\", "
        "\"from\": 0, \"to\": 0}",
        "{\"do\": \"hover\", \"path\": \"/x\"}",
        "{\"do\": \"draw\", \"path\": \"/x\", \"page\": 7, \"dpi\": 96}",
        "{\"do\": \"draw\", \"path\": \"/x\", \"page\": -1, \"dpi\": 1e99}"}) {
    const Json answer = Json::parse(desk_.ask(asked).json);
    EXPECT_TRUE(answer.is_object() && answer.contains("fault")) << asked;
    EXPECT_FALSE(answer.contains("spent")) << asked;
  }
}

// In a browser what was thrown may have cleared nothing up on its way.
TEST_F(Web, SaysThatItBrokeOff) {
  const Json answer = Json::parse(
      desk_.ask("{\"do\": \"packets\", \"path\": \"/not-there.yaml\"}").json);
  EXPECT_TRUE(answer.contains("fault"));
  EXPECT_EQ(answer.value("spent", false), true);
}

TEST_F(Web, AFormShowsWhatStandsThere) {
  change(
      "# mine\npattern: sh\nwords: [ship, fish]  # two\nsentences: |\n"
      "  The ship is in.\n  A fish!\npassage:\n  title: A Ship\n  text: It is "
      "in.\n");
  EXPECT_EQ(field("pattern")["text"], "sh");
  EXPECT_EQ(field("words")["text"], "ship fish");
  EXPECT_EQ(field("sentences")["text"], "The ship is in.\nA fish!");
  EXPECT_TRUE(field("sentences")["lines"].get<bool>());
  EXPECT_FALSE(field("title")["present"].get<bool>());
  // A title and a text have no place in one field.
  EXPECT_FALSE(field("passage")["editable"].get<bool>());
  EXPECT_TRUE(about("form-edits", {{"key", "passage"}, {"text", "x"}}).empty());
}

TEST_F(Web, TypingInAFormChangesTheTextAndNothingElse) {
  change(
      "# mine\npattern: sh\nwords: ship fish\n\n# kept\nsentences: |\n  A "
      "fish!\n");
  EXPECT_EQ(typed("words", "ship  fish\ndish"),
            "# mine\npattern: sh\nwords: ship fish dish\n\n# kept\n"
            "sentences: |\n  A fish!\n");
  EXPECT_EQ(typed("sentences", "A fish!\n\n  The ship is in."),
            "# mine\npattern: sh\nwords: ship fish\n\n# kept\nsentences: |\n"
            "  A fish!\n\n  The ship is in.\n");
  EXPECT_EQ(typed("dictate-words", "shed"),
            "# mine\npattern: sh\nwords: ship fish\n\n# kept\nsentences: |\n"
            "  A fish!\ndictate-words: shed\n");
  EXPECT_EQ(typed("title", "Ships: a week"),
            "# mine\ntitle: 'Ships: a week'\npattern: sh\nwords: ship fish\n\n"
            "# kept\nsentences: |\n  A fish!\n");
  EXPECT_EQ(typed("words", ""),
            "# mine\npattern: sh\n\n# kept\nsentences: |\n  A fish!\n");
  // What says the same changes nothing.
  EXPECT_EQ(typed("words", "ship fish "), text_);
}

TEST_F(Web, AFormBeginsAnEmptyLesson) {
  change("");
  EXPECT_EQ(typed("pattern", "oa"), "pattern: oa\n");
  change("pattern: oa");
  EXPECT_EQ(typed("words", "boat"), "pattern: oa\nwords: boat");
}

TEST_F(Web, PatternsAreFoundByOtherNames) {
  bool found = false;
  for (const Json& pattern : ask({{"do", "patterns"}})) {
    EXPECT_FALSE(pattern["name"].get<std::string>().empty());
    if (pattern["id"] != "a_e") continue;
    found = pattern["terms"].get<std::string>().find("silent e") !=
            std::string::npos;
  }
  EXPECT_TRUE(found);
  bool week = false;
  for (const Json& layout : ask({{"do", "layouts"}})) {
    week = week || layout["name"] == "week";
    EXPECT_FALSE(layout["about"].get<std::string>().starts_with("#"));
  }
  EXPECT_TRUE(week);
}

}  // namespace
}  // namespace sheaf::test
