// What is heard, said by a speech program: each text gives sounds, and no sign
// is called by its name. tests/heard/aloud.sh shows how each line is said.

#include <gtest/gtest.h>

#include <map>
#include <set>
#include <sstream>

#include "heard/documents.h"
#include "heard/heard.h"

namespace sheaf::test {
namespace {

// Voice by voice, how each text is said, without stress.
using Said = std::map<std::string, std::string>;

std::string without(std::string text, const std::string& what) {
  for (std::size_t at = 0; (at = text.find(what, at)) != text.npos;) {
    text.erase(at, what.size());
  }
  return text;
}

Said said(const std::string& voice, const std::set<std::string>& texts) {
  const testing_support::TemporaryFolder folder;
  std::string lines;
  for (const std::string& text : texts) lines += text + "\n";
  const auto outcome = testing_support::run_program(
      {"sh", (heard_folder() / "aloud.sh").string(), "-v", voice,
       folder.write("texts", lines)});
  EXPECT_EQ(outcome.status, 0) << outcome.out;
  Said result;
  std::istringstream rows(outcome.out);
  for (std::string row; std::getline(rows, row);) {
    const std::size_t tab = row.find('\t');
    if (tab == row.npos) continue;
    std::string sounds = row.substr(tab + 1);
    for (const char* stress : {"ˈ", "ˌ"}) sounds = without(sounds, stress);
    result[row.substr(0, tab)] = sounds;
  }
  EXPECT_EQ(result.size(), texts.size());
  return result;
}

// Names that a speech program gives to signs; hyphens in dates are "dash", as
// everyone says them.
const std::set<std::string>& names_of_signs() {
  static const std::set<std::string> names = {
      "slash", "backslash", "underscore", "vertical bar", "asterisk",
      "tilde", "hash",      "arrow",      "bullet"};
  return names;
}

// The name that a text is said with and does not have; "" if none.
std::string sign_named(const std::string& text, const std::string& sounds,
                       const Said& names) {
  for (const auto& [name, sound] : names) {
    if (text.find(name) == text.npos && sounds.find(sound) != sounds.npos) {
      return name;
    }
  }
  return {};
}

std::string voice_of(const std::string& language) {
  return language.starts_with("en-") && language != "en-US" ? "en-gb" : "en-us";
}

TEST(Aloud, FindsNamesOfSigns) {
  const Said names = said("en-us", names_of_signs());
  const Said texts = said("en-us", {"It says /sh/.", "ship * fish", "a → b",
                                    "a ship in full sail", "a slash /"});
  const auto named = [&](const std::string& text) {
    return sign_named(text, texts.at(text), names);
  };
  EXPECT_EQ(named("It says /sh/."), "slash");
  EXPECT_EQ(named("ship * fish"), "asterisk");
  EXPECT_EQ(named("a → b"), "arrow");
  EXPECT_EQ(named("a ship in full sail"), "");
  EXPECT_EQ(said("en-us", {"·"}).at("·"), "") << "dropped";
}

TEST(Aloud, GivesSoundsAndNamesNoSigns) {
  std::map<std::string, std::set<std::string>> texts;  // by voice
  std::map<std::string, std::string> document;
  for (const HeardCase& one : heard_cases()) {
    for (const auto& [file, bytes] : files_of(one)) {
      const heard::Document read = heard::read(bytes);
      for (const heard::Line& line : heard::lines_of(read)) {
        if (line.text.empty()) continue;
        texts[voice_of(read.language)].insert(line.text);
        document.emplace(line.text, one.name);
      }
    }
  }
  const KnownFaults known = known_faults();
  KnownFaults known_seen;
  std::map<std::string, std::set<std::string>> faults;  // by what is said
  for (const auto& [voice, lines] : texts) {
    const Said names = said(voice, names_of_signs());
    for (const auto& [text, sounds] : said(voice, lines)) {
      const std::string name = sign_named(text, sounds, names);
      if (!sounds.empty() && name.empty()) continue;
      const std::vector<std::string> row = {kSaidRule, document.at(text), text};
      if (known.contains(row)) {
        known_seen.insert(row);
        continue;
      }
      const std::string what = sounds.empty() ? "nothing" : "\"" + name + "\"";
      faults[what].insert(document.at(text) + ": " + text);
    }
  }
  for (const auto& [what, places] : faults) {
    std::string list;
    for (const std::string& place : places) list += "  " + place + "\n";
    ADD_FAILURE() << places.size() << " texts are said with " << what << ":\n"
                  << list;
  }
  for (const auto& row : known) {
    if (row[0] != kSaidRule) continue;
    EXPECT_TRUE(known_seen.contains(row)) << "nothing needs: " << row[2];
  }
}

}  // namespace
}  // namespace sheaf::test
