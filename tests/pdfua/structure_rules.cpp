#include <algorithm>
#include <cctype>
#include <set>

#include "pdfua/structure.h"
#include "support/pattern.h"

namespace pdfua {

bool is_language_tag(const std::string& text) {
  static const sheaf::testing_support::Pattern tag(
      "[a-zA-Z]{1,8}(-[a-zA-Z0-9]{1,8})*");
  return !tag.of(text).empty();
}

namespace {

using Types = std::vector<std::string>;

// Whether all kids are of the types named.
bool only(const Types& kids, const std::set<std::string>& allowed) {
  return std::all_of(kids.begin(), kids.end(), [&](const std::string& kid) {
    return allowed.count(kid) > 0;
  });
}

long count(const Types& kids, const std::string& type) {
  return std::count(kids.begin(), kids.end(), type);
}

// Which parents and kids a type may have, and the rules that say so.
struct Nesting {
  const char* type;
  int parent_test;  // 0: no rule
  std::set<std::string> parents;
  int kids_test;
  std::set<std::string> kids;
};

const std::vector<Nesting>& nestings() {
  static const std::vector<Nesting> all = {
      {"Table", 0, {}, 3, {"TR", "THead", "TBody", "TFoot", "Caption"}},
      {"TR", 4, {"Table", "THead", "TBody", "TFoot"}, 10, {"TH", "TD"}},
      {"THead", 5, {"Table"}, 36, {"TR"}},
      {"TBody", 6, {"Table"}, 37, {"TR"}},
      {"TFoot", 7, {"Table"}, 38, {"TR"}},
      {"TH", 8, {"TR"}, 0, {}},
      {"TD", 9, {"TR"}, 0, {}},
      {"LI", 17, {"L"}, 20, {"Lbl", "LBody"}},
      {"LBody", 18, {"LI"}, 0, {}},
      {"L", 0, {}, 19, {"L", "LI", "Caption"}}};
  return all;
}

void check_nesting(const StructureElement& element, Report& report) {
  const std::string parent = element.parent ? element.parent->type : "";
  for (const Nesting& rule : nestings()) {
    if (element.type != rule.type) continue;
    if (rule.parent_test != 0) {
      report.require(rule.parents.count(parent) > 0, "7.2", rule.parent_test,
                     element.type + " stands in " +
                         (parent.empty() ? "the root" : parent));
    }
    if (rule.kids_test != 0) {
      report.require(only(element.kid_types(), rule.kids), "7.2",
                     rule.kids_test, element.type + " holds what it may not");
    }
  }
}

void check_parts(const StructureElement& element, Report& report) {
  const Types kids = element.kid_types();
  if (element.type == "Table") {
    const bool has_body = count(kids, "TBody") > 0;
    report.require(count(kids, "THead") <= 1, "7.2", 11, "two THead");
    report.require(count(kids, "TFoot") <= 1, "7.2", 12, "two TFoot");
    report.require(count(kids, "TFoot") == 0 || has_body, "7.2", 13,
                   "TFoot without TBody");
    report.require(count(kids, "THead") == 0 || has_body, "7.2", 14,
                   "THead without TBody");
    report.require(count(kids, "Caption") < 2, "7.2", 39, "two captions");
    for (std::size_t i = 1; i + 1 < kids.size(); ++i) {
      report.require(kids[i] != "Caption", "7.2", 16,
                     "a caption amid the rows of a table");
    }
  }
  if (element.type == "L") {
    for (std::size_t i = 1; i < kids.size(); ++i) {
      report.require(kids[i] != "Caption", "7.2", 40,
                     "a caption after the first item of a list");
    }
  }
}

// Whether an alternative text holds more than such words as "a picture to
// sort". What follows a colon is a name.
bool says_something(const std::string& text) {
  static const std::set<std::string> empty_words = {
      "a",     "about", "already", "an",   "crossed", "drawing", "figure",
      "image", "in",    "is",      "key",  "laid",    "name",    "of",
      "out",   "photo", "picture", "sort", "swap",    "tell",    "that",
      "the",   "this",  "to",      "word"};
  bool is_name = false;
  std::string word;
  for (const char c : text + ' ') {
    if (std::isalnum(static_cast<unsigned char>(c)) ||
        static_cast<unsigned char>(c) >= 0x80) {
      word += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
      continue;
    }
    if (!word.empty() && (is_name || empty_words.count(word) == 0)) return true;
    word.clear();
    is_name |= c == ':';
  }
  return false;
}

void check_texts(const StructureElement& element, bool document_has_language,
                 Report& report) {
  QPDFObjectHandle object = element.object;
  const bool has_language = element.has_language || document_has_language;
  const auto needs_language = [&](const char* key, int test) {
    report.require(
        !object.hasKey(key) || has_language, "7.2", test,
        std::string(key) + " of " + element.own_type + " has no language");
  };
  needs_language("/ActualText", 21);
  needs_language("/Alt", 22);
  needs_language("/E", 23);
  QPDFObjectHandle language = object.getKey("/Lang");
  if (!language.isNull()) {
    report.require(
        language.isString() && is_language_tag(language.getUTF8Value()), "7.2",
        29, "a language that is no language tag");
  }
  if (element.type == "Figure") {
    QPDFObjectHandle alternative = object.getKey("/Alt");
    const bool described =
        alternative.isString() && !alternative.getStringValue().empty();
    report.require(described || object.hasKey("/ActualText"), "7.3", 1,
                   "a figure without alternative text");
    report.require(!described || says_something(alternative.getUTF8Value()),
                   "own", 22,
                   "a figure that says only what kind of thing it is: " +
                       alternative.getUTF8Value());
  }
}

}  // namespace

void check_structure(const StructureTree& tree, bool document_has_language,
                     Report& report) {
  for (const StructureElement& element : tree.elements()) {
    check_nesting(element, report);
    check_parts(element, report);
    check_texts(element, document_has_language, report);
  }
}

void check_headings(const StructureTree& tree, Report& report) {
  int level = 0;
  bool uses_h = false, uses_numbered = false;
  for (const StructureElement& element : tree.elements()) {
    const std::string& type = element.type;
    report.require(count(element.kid_types(), "H") <= 1, "7.4.4", 1,
                   "two H in one element");
    if (type == "H") uses_h = true;
    const bool is_numbered =
        type.size() == 2 && type[0] == 'H' && type[1] >= '1' && type[1] <= '6';
    if (!is_numbered) continue;
    uses_numbered = true;
    const int next = type[1] - '0';
    report.require(next <= level + 1, "7.4.2", 1,
                   type + " follows level " + std::to_string(level));
    level = next;
  }
  // Two rules for one fault, seen from either kind of heading.
  report.require(!(uses_h && uses_numbered), "7.4.4", 2, "H beside H1 to H6");
  report.require(!(uses_h && uses_numbered), "7.4.4", 3, "H1 to H6 beside H");
}

}  // namespace pdfua
