// Each type of src/ has a name of its own. Two of one name are one to the
// linker: it keeps one of their destructors and drops the other, whatever they
// hold, and no compiler sees both.

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "project_files.h"

namespace sheaf::test {
namespace {

using Places = std::map<std::string, std::set<std::string>>;

bool is_letter(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
}

// Where what begins at `at` ends that may hold anything: a remark, a text, a
// letter. `at` itself: it is none of them.
std::size_t end_of_said(const std::string& code, std::size_t at) {
  const auto behind = [&](std::string_view end, std::size_t from) {
    const std::size_t found = code.find(end, from);
    return found == std::string::npos ? code.size() : found + end.size();
  };
  if (code.compare(at, 2, "//") == 0) return behind("\n", at);
  if (code.compare(at, 2, "/*") == 0) return behind("*/", at);
  if (code.compare(at, 2, "R\"") == 0) {
    const std::size_t open = code.find('(', at);
    return behind(")" + code.substr(at + 2, open - at - 2) + "\"", open);
  }
  // Not 1'000'000.
  const char quote = code[at];
  const bool opens =
      quote == '"' || (quote == '\'' && !is_letter(code[at - 1]));
  if (!opens) return at;
  std::size_t end = at + 1;
  while (end < code.size() && code[end] != quote) {
    end += code[end] == '\\' ? 2 : 1;
  }
  return end + 1;
}

// Names (a::b is one) and signs.
std::vector<std::string> tokens_of(const std::string& code) {
  std::vector<std::string> tokens;
  for (std::size_t at = 1; at < code.size();) {
    const std::size_t end = end_of_said(code, at);
    if (end != at) {
      at = end;
    } else if (is_letter(code[at])) {
      const std::size_t begin = at;
      while (at < code.size() &&
             (is_letter(code[at]) || code.compare(at, 2, "::") == 0)) {
        at += code[at] == ':' ? 2 : 1;
      }
      tokens.push_back(code.substr(begin, at - begin));
    } else {
      if (code[at] != ' ' && code[at] != '\n') tokens.emplace_back(1, code[at]);
      ++at;
    }
  }
  return tokens;
}

// The name of the type that begins at `at` with struct, class, union or enum,
// and `at` behind its bracket; empty where none is made there.
std::string type_at(const std::vector<std::string>& tokens, std::size_t& at) {
  std::size_t next = at + 1;
  if (next < tokens.size() && tokens[next] == "class") ++next;
  if (next >= tokens.size() || !is_letter(tokens[next].front())) return "";
  const std::string name = tokens[next++];
  if (next < tokens.size() && tokens[next] == "final") ++next;
  if (next < tokens.size() && tokens[next] == ":") {
    while (next < tokens.size() &&
           std::string_view("{;)").find(tokens[next].front()) ==
               std::string_view::npos) {
      ++next;
    }
  }
  if (next >= tokens.size() || tokens[next] != "{") return "";
  at = next;
  return name;
}

// Adds the types that stand in namespaces or in other types, by their whole
// names. What is in a namespace without a name, or in a function, is a file's
// own.
void add_types(const std::string& code, const std::string& file,
               Places& places) {
  static const std::set<std::string> kinds = {"struct", "class", "union",
                                              "enum"};
  const auto tokens = tokens_of("\n" + code);
  std::vector<std::string> within;  // empty: what is a file's own, or a block
  for (std::size_t at = 0; at < tokens.size(); ++at) {
    const std::string& token = tokens[at];
    if (token == "}") {
      if (!within.empty()) within.pop_back();
    } else if (token == "{") {
      within.emplace_back();
    } else if (token == "namespace" && at + 1 < tokens.size()) {
      const bool named = tokens[at + 1] != "{";
      if (at + 1 + named < tokens.size() && tokens[at + 1 + named] == "{") {
        within.push_back(named ? tokens[at + 1] : "");
        at += 1 + named;
      }
    } else if (kinds.contains(token)) {
      const std::string name = type_at(tokens, at);
      if (name.empty()) continue;
      if (std::ranges::find(within, "") == within.end()) {
        std::string whole;
        for (const std::string& outer : within) whole += outer + "::";
        places[whole + name].insert(file);
      }
      within.push_back(name);
    }
  }
}

TEST(OneName, FindsWhatIsThere) {
  Places places;
  add_types(
      "namespace a { struct B { struct C final : D { int x; }; };\n"
      "// struct No {\n"
      "namespace { class No { }; }  const char* s = \"struct No {\";\n"
      "void f() { struct No { }; }\n"
      "template <class T> enum class E : int { one };\n"
      "struct Later; int n = 1'000; char c = '{'; }",
      "file", places);
  std::vector<std::string> names;
  for (const auto& [name, files] : places) names.push_back(name);
  EXPECT_EQ(names, (std::vector<std::string>{"a::B", "a::B::C", "a::E"}));
}

TEST(OneName, NoTwoTypesHaveOne) {
  Places places;
  for (const auto& file : files_below(project() / "src", {".h", ".cpp"})) {
    add_types(read(file), file.string(), places);
  }
  EXPECT_GT(places.size(), 700U);
  for (const auto& [name, files] : places) {
    EXPECT_EQ(files.size(), 1U)
        << name << " in " << *files.begin() << " and " << *files.rbegin();
  }
}

}  // namespace
}  // namespace sheaf::test
