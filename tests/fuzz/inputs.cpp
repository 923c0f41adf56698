// What fuzzing begins with, made from the project's own files, so that none of
// it goes stale:
//
//     fuzz_inputs dictionary KIND PROJECT          words of a target's texts
//     fuzz_inputs seeds KIND PROJECT FOLDER        inputs, a file each

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <set>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "sheets/sheet.h"

namespace {

namespace fs = std::filesystem;
using Words = std::set<std::string>;

// libFuzzer takes no longer ones.
constexpr std::size_t kLongestWord = 60;

std::string read(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  if (!stream) throw std::runtime_error("cannot read " + path.string());
  return {std::istreambuf_iterator<char>(stream), {}};
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

// Lines that are no remarks.
std::vector<std::string> rows_of(const fs::path& path) {
  std::vector<std::string> rows;
  for (std::string& line : lines_of(read(path))) {
    if (!line.empty() && line[0] != '#') rows.push_back(std::move(line));
  }
  return rows;
}

// ---- dictionaries

// Keys, choices and examples of a schema.
void add_schema(const nlohmann::json& node, Words& words) {
  if (node.is_array()) {
    for (const auto& item : node) add_schema(item, words);
    return;
  }
  if (!node.is_object()) return;
  for (const auto& [name, value] : node.items()) {
    if (name == "properties") {
      for (const auto& key : value.items()) words.insert(key.key() + ": ");
    }
    if (name == "enum" || name == "examples" || name == "const") {
      for (const auto& one : value.is_array() ? value : nlohmann::json{value}) {
        words.insert(one.is_string() ? one.get<std::string>() : one.dump());
      }
    }
    add_schema(value, words);
  }
}

void add_schema_file(const fs::path& project, std::string_view kind,
                     Words& words) {
  add_schema(nlohmann::json::parse(
                 read(project / "schemas" / fmt::format("{}.json", kind))),
             words);
}

// The first `columns` cells of each row.
void add_table(const fs::path& path, int columns, Words& words) {
  for (const std::string& row : rows_of(path)) {
    std::istringstream cells(row);
    std::string cell;
    for (int i = 0; i < columns && std::getline(cells, cell, '\t'); ++i) {
      words.insert(cell);
    }
  }
}

// Words with blanks between them.
void add_words(const fs::path& path, Words& words) {
  for (const std::string& row : rows_of(path)) {
    std::istringstream parts(row);
    for (std::string part; parts >> part;) words.insert(part);
  }
}

// Names in a notation of drawings: all that is no number.
void add_commands(const fs::path& path, Words& words) {
  for (const std::string& row : rows_of(path)) {
    std::istringstream parts(row);
    for (std::string part; parts >> part;) {
      if (part.find_first_of("0123456789,") == std::string::npos) {
        words.insert(part + " ");
      }
    }
  }
}

Words dictionary(const std::string& kind, const fs::path& project) {
  const fs::path data = project / "src" / "data";
  Words words;
  const auto is = [&](auto... kinds) { return ((kind == kinds) || ...); };
  if (is("lesson", "packet")) add_schema_file(project, "lesson", words);
  if (is("lesson", "packet", "layout")) {
    add_schema_file(project, "layout", words);
  }
  if (is("class", "sequence", "record")) add_schema_file(project, kind, words);
  if (is("progress")) {
    add_schema_file(project, "record", words);
    words.insert("\n%%\n");
  }
  if (is("lesson", "packet", "sequence", "record", "progress", "writing")) {
    add_table(data / "patterns.tsv", 2, words);
  }
  if (is("word", "marking", "writing", "lesson", "packet")) {
    add_table(data / "correspondences.tsv", 2, words);
  }
  if (is("marking", "writing")) add_words(data / "first_words.txt", words);
  if (is("drawing")) {
    add_commands(data / "picture_drawings.txt", words);
    add_commands(data / "letter_strokes.txt", words);
  }
  return words;
}

void print(const Words& words) {
  for (const std::string& word : words) {
    if (word.empty() || word.size() > kLongestWord) continue;
    std::string shown;
    for (const char c : word) {
      const auto byte = static_cast<unsigned char>(c);
      if (byte < ' ' || byte > '~' || c == '"' || c == '\\') {
        shown += fmt::format("\\x{:02X}", byte);
      } else {
        shown += c;
      }
    }
    fmt::print("\"{}\"\n", shown);
  }
}

// ---- seeds

struct Seed {
  std::string name, bytes;
};

bool has_key(const std::string& text, std::string_view key) {
  const std::string line = fmt::format("\n{}:", key);
  return text.find(line) != std::string::npos;
}

// Which of the kinds of file a YAML text is.
std::string_view kind_of(const std::string& text) {
  const std::string from_line = "\n" + text;
  for (const auto& [key, kind] : {std::pair{"learners", "class"},
                                  {"steps", "sequence"},
                                  {"records", "record"},
                                  {"written", "record"},
                                  {"wrong", "record"},
                                  {"marked", "record"},
                                  {"pattern", "lesson"},
                                  {"placement", "lesson"},
                                  {"words", "lesson"},
                                  {"sheets", "layout"}}) {
    if (has_key(from_line, key)) return kind;
  }
  return {};
}

// What stands behind a word of the line `# run:`.
std::string behind(const std::string& text, std::string_view word) {
  const std::size_t run = text.find("# run:");
  if (run == std::string::npos) return {};
  std::istringstream line(text.substr(run, text.find('\n', run) - run));
  for (std::string part; line >> part;) {
    if (part == word && line >> part) return part;
  }
  return {};
}

std::vector<fs::path> yaml_files(const fs::path& project) {
  std::vector<fs::path> files;
  for (const char* folder : {"tests/golden", "lessons", "lessons/year",
                             "lessons/demo-term", "lessons/demo-term/records",
                             "lessons/demo-term/probe-records", "layouts"}) {
    for (const auto& entry : fs::directory_iterator(project / folder)) {
      if (entry.path().extension() == ".yaml") files.push_back(entry.path());
    }
  }
  std::ranges::sort(files);
  return files;
}

// Whole files; `packet` and `progress` have two bytes before them.
std::vector<Seed> from_files(const std::string& kind, const fs::path& project) {
  std::string wanted = kind;
  if (kind == "packet") wanted = "lesson";
  if (kind == "progress") wanted = "record";
  constexpr std::string_view kPages = "tghem ";
  std::vector<Seed> seeds;
  for (const fs::path& path : yaml_files(project)) {
    const std::string text = read(path);
    const bool writing = behind(text, "run:") == "writing";
    if (kind == "writing" ? !writing : kind_of(text) != wanted) continue;
    if (kind == "writing") {  // a line each, as a text may have few words
      for (const std::string& line : lines_of(text)) {
        if (line.starts_with('#')) continue;
        seeds.push_back(
            {fmt::format("{}-{}", path.stem().string(), seeds.size()),
             "  " + line});
      }
      continue;
    }
    std::string head;
    if (kind == "packet") {
      // One sheet each, in turn where the golden prints them all, as they take
      // long: every eighth of those has all of them.
      const std::string sheet = behind(text, "--only");
      const auto kinds = sheaf::sheet_kinds();
      const auto named = std::ranges::find(
          kinds, sheet, [](const sheaf::SheetKind* one) { return one->name; });
      std::size_t index = static_cast<std::size_t>(named - kinds.begin());
      if (named == kinds.end()) index = seeds.size() % kinds.size();
      // A blank stands for all sheets.
      if (index == ' ') index += kinds.size();
      if (named == kinds.end() && seeds.size() % 8 == 0) index = ' ';
      head = {' ', static_cast<char>(index)};
    } else if (kind == "progress") {
      head = {' ', kPages[seeds.size() % kPages.size()]};
    }
    seeds.push_back({path.stem().string(), head + text});
  }
  return seeds;
}

// Every so many rows of a table: two cells with a tab between them, or one.
std::vector<Seed> from_rows(const fs::path& path, std::size_t every,
                            std::string_view head, bool two) {
  std::vector<Seed> seeds;
  const std::vector<std::string> rows = rows_of(path);
  for (std::size_t i = 1; i < rows.size(); i += every) {
    std::size_t end = rows[i].find('\t');
    if (two) end = rows[i].find('\t', end + 1);
    seeds.push_back(
        {fmt::format("row-{}", i), std::string(head) + rows[i].substr(0, end)});
  }
  return seeds;
}

// A file's parts, which begin with a word.
std::vector<Seed> from_parts(const fs::path& path, std::string_view head,
                             std::string_view begin, bool keep_begin) {
  std::vector<Seed> seeds;
  for (const std::string& row : rows_of(path)) {
    if (row.starts_with(begin)) {
      seeds.push_back({fmt::format("{}-{}", path.stem().string(), seeds.size()),
                       std::string(head)});
      if (!keep_begin) continue;
    }
    if (!seeds.empty()) seeds.back().bytes += row + "\n";
  }
  return seeds;
}

std::vector<Seed> seeds(const std::string& kind, const fs::path& project) {
  const fs::path data = project / "tests" / "data";
  if (kind == "marking") {
    return from_rows(data / "marking_attempts.tsv", 8, "  ", true);
  }
  if (kind == "word")
    return from_rows(data / "phonics_gold.tsv", 16, " ", false);
  if (kind == "drawing") {
    const fs::path ours = project / "src" / "data";
    auto all =
        from_parts(ours / "picture_drawings.txt", "  ", "drawing ", false);
    for (Seed& seed :
         from_parts(ours / "letter_strokes.txt", " l", "letter ", true)) {
      all.push_back(std::move(seed));
    }
    return all;
  }
  return from_files(kind, project);
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> given(argv + 1, argv + argc);
  try {
    if (given.size() == 3 && given[0] == "dictionary") {
      print(dictionary(given[1], given[2]));
      return 0;
    }
    if (given.size() == 4 && given[0] == "seeds") {
      fs::create_directories(given[3]);
      for (const Seed& seed : seeds(given[1], given[2])) {
        std::ofstream(fs::path(given[3]) / seed.name, std::ios::binary)
            << seed.bytes;
      }
      return 0;
    }
    std::cerr << "see the head of inputs.cpp\n";
  } catch (const std::exception& fault) {
    std::cerr << fault.what() << '\n';
  }
  return 2;
}
