// Every fix of every message that a golden brings about is put into a copy of
// the golden: its message is gone then. And a question "did you mean" always
// has the fixes that it names.

#include <gtest/gtest.h>

#include <map>

#include <nlohmann/json.hpp>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using testing_support::run_program;
using testing_support::TemporaryFolder;

// What stands in backticks.
std::vector<std::string> quotes_in(std::string_view text) {
  std::vector<std::string> quotes;
  for (;;) {
    const std::size_t begin = text.find('`');
    const std::size_t end = text.find('`', begin + 1);
    if (begin == std::string_view::npos || end == std::string_view::npos) break;
    quotes.emplace_back(text.substr(begin + 1, end - begin - 1));
    text.remove_prefix(end + 1);
  }
  return quotes;
}

std::string first_line_with(const std::string& text, const std::string& start) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with(start)) return line.substr(start.size());
  }
  return {};
}

class GoldenFixes : public testing::TestWithParam<fs::path> {
 protected:
  GoldenFixes() {
    // The other files that goldens name lie beside them.
    for (const auto& [from, to] : {std::pair{"tests/golden", "/golden"},
                                   std::pair{"tests/layouts", "/layouts"}}) {
      fs::copy(project() / from, folder_.path() + to,
               fs::copy_options::recursive);
    }
    name_ = GetParam().filename().string();
    call_ = first_line_with(read(GetParam()), "# run: ");
    call_.replace(call_.find("FILE"), 4, name_);
  }

  std::string copy() const { return folder_.path() + "/golden/" + name_; }

  json messages() const {
    const std::string command = "cd '" + folder_.path() + "/golden' && '" +
                                SHEAF_PROGRAM "' " + call_ +
                                " --json 2>/dev/null";
    return json::parse(run_program({"sh", "-c", command}).out)["messages"];
  }

  static std::size_t offset(const std::string& text, const json& position) {
    std::size_t at = 0;
    for (int line = position["line"]; line > 1; --line) {
      at = text.find_first_of("\r\n", at);
      at += text.substr(at, 2) == "\r\n" ? 2 : 1;
    }
    return at + position["utf8"].get<std::size_t>();
  }

  TemporaryFolder folder_;
  std::string name_, call_;
};

TEST_P(GoldenFixes, MendWhatTheirMessageSays) {
  const std::string text = read(copy());
  for (const json& message : messages()) {
    const std::string said = message["text"];
    const std::string help =
        message["help"].is_null() ? "" : message["help"].get<std::string>();
    if (help.starts_with("did you mean") && !message["place"].is_null()) {
      const auto names = quotes_in(help.substr(0, help.find('?')));
      ASSERT_EQ(message["fixes"].size(), names.size()) << message;
      for (std::size_t i = 0; i < names.size(); ++i) {
        EXPECT_EQ(message["fixes"][i]["replacement"], names[i]);
      }
    }
    for (const json& fix : message["fixes"]) {
      ASSERT_EQ(fix["place"]["file"], name_) << message;
      const std::size_t begin = offset(text, fix["place"]["begin"]);
      const std::size_t end = offset(text, fix["place"]["end"]);
      ASSERT_LE(begin, end);
      // Of a file about learners neither label nor text says what stood there.
      const bool hidden = fix["label"] == "what stood here is put right";
      if (help.starts_with("did you mean") && !hidden) {
        // The wrong name, and no more, is taken away.
        const auto wrong = quotes_in(said);
        EXPECT_NE(std::ranges::find(wrong, text.substr(begin, end - begin)),
                  wrong.end())
            << message;
      }
      // Of a message about several places all certain fixes belong together.
      std::map<std::size_t, std::pair<std::size_t, std::string>> together;
      for (const json& other : message["fixes"]) {
        if (other != fix && !(fix["certain"] && other["certain"])) continue;
        together[offset(text, other["place"]["begin"])] = {
            offset(text, other["place"]["end"]), other["replacement"]};
      }
      std::string mended = text;
      for (auto it = together.rbegin(); it != together.rend(); ++it) {
        mended.replace(it->first, it->second.first - it->first,
                       it->second.second);
      }
      std::ofstream(copy(), std::ios::binary) << mended;
      for (const json& left : messages()) {
        EXPECT_FALSE(left["name"] == message["name"] && left["text"] == said &&
                     left["place"] == message["place"])
            << fix << "\nleft: " << left;
      }
    }
  }
}

std::vector<fs::path> goldens_that_check() {
  std::vector<fs::path> paths;
  for (const fs::path& path :
       files_below(project() / "tests/golden", {".yaml", ".txt"})) {
    const std::string text = read(path);
    if (first_line_with(text, "# repeat: ").empty() &&
        first_line_with(text, "# run: ").starts_with("check ")) {
      paths.push_back(path);
    }
  }
  return paths;
}

INSTANTIATE_TEST_SUITE_P(All, GoldenFixes,
                         testing::ValuesIn(goldens_that_check()),
                         [](const auto& golden) {
                           std::string name = golden.param.stem().string();
                           std::ranges::replace(name, '-', '_');
                           return name;
                         });

}  // namespace
}  // namespace sheaf::test
