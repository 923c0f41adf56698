// The include lines of src/ against the table of stages: a folder includes
// only what its row names, outside libraries are used only in the folders that
// name them, and the two heavy headers in one file each.

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "project_files.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;

struct Layer {
  std::string folder;
  std::set<std::string> may_include;
  std::vector<std::string> libraries;  // as their include lines begin
};

std::vector<std::string> words_in(const std::string& cell) {
  std::istringstream text(cell);
  std::vector<std::string> words;
  for (std::string word; text >> word;) {
    if (word != "-") words.push_back(word);
  }
  return words;
}

const std::vector<Layer>& layers() {
  static const std::vector<Layer> all = [] {
    std::vector<Layer> rows;
    std::istringstream text(read(project() / "src/layers.tsv"));
    for (std::string row; std::getline(text, row);) {
      if (row.empty() || row.starts_with('#')) continue;
      const std::size_t first = row.find('\t');
      const std::size_t second = row.find('\t', first + 1);
      const auto uses = words_in(row.substr(first + 1, second - first - 1));
      rows.push_back({row.substr(0, first),
                      {uses.begin(), uses.end()},
                      words_in(row.substr(second + 1))});
    }
    return rows;
  }();
  return all;
}

const Layer* layer_of(const std::string& folder) {
  const auto found = std::ranges::find(layers(), folder, &Layer::folder);
  return found == layers().end() ? nullptr : &*found;
}

std::vector<std::string> includes_of(const fs::path& file) {
  std::vector<std::string> found;
  std::istringstream text(read(file));
  for (std::string row; std::getline(text, row);) {
    const std::size_t start = row.find_first_not_of(' ');
    if (start == std::string::npos || row.find("#include", start) != start) {
      continue;
    }
    const std::size_t open = row.find_first_of("<\"", start);
    if (open == std::string::npos) continue;
    const std::size_t close = row.find_first_of(">\"", open + 1);
    if (close == std::string::npos) continue;
    found.push_back(row.substr(open + 1, close - open - 1));
  }
  return found;
}

std::vector<fs::path> sources() {
  return files_below(project() / "src", {".h", ".cpp"});
}

std::string stage_of(const fs::path& file) {
  return fs::relative(file, project() / "src").begin()->string();
}

TEST(Layering, FoldersIncludeOnlyWhatTheirRowNames) {
  for (const fs::path& file : sources()) {
    const Layer* layer = layer_of(stage_of(file));
    ASSERT_NE(layer, nullptr) << "no row for " << stage_of(file);
    for (const std::string& include : includes_of(file)) {
      const std::string other = include.substr(0, include.find('/'));
      if (layer_of(other) == nullptr || other == layer->folder) continue;
      EXPECT_TRUE(layer->may_include.contains(other))
          << file << " includes " << include;
    }
  }
}

TEST(Layering, RowsNameOnlyThoseAboveThem) {
  std::set<std::string> above;
  for (const Layer& layer : layers()) {
    for (const std::string& other : layer.may_include) {
      EXPECT_TRUE(above.contains(other)) << layer.folder << " uses " << other;
    }
    above.insert(layer.folder);
  }
  EXPECT_GE(above.size(), 17U);
}

TEST(Layering, LibrariesAreUsedWhereTheTableHasThem) {
  std::set<std::string> used;
  for (const fs::path& file : sources()) {
    for (const std::string& include : includes_of(file)) {
      for (const Layer& owner : layers()) {
        for (const std::string& library : owner.libraries) {
          if (!include.starts_with(library)) continue;
          used.insert(library);
          const auto& own = layer_of(stage_of(file))->libraries;
          EXPECT_NE(std::ranges::find(own, library), own.end())
              << file << " includes " << include;
        }
      }
    }
  }
  EXPECT_TRUE(used.contains("hpdf") && used.contains("utf8proc"));
}

// The table that people read says the same.
TEST(Layering, DevelopersAreShownTheTable) {
  std::map<std::string, std::set<std::string>> shown;
  std::istringstream text(read(project() / "DEVELOPERS.md"));
  for (std::string row; std::getline(text, row);) {
    if (!row.starts_with("| ")) continue;
    std::vector<std::string> cells(1);
    for (const char c : row.substr(2)) {
      if (c == '|') {
        cells.emplace_back();
      } else {
        cells.back() += c;
      }
    }
    if (cells.size() < 4) continue;
    std::string uses = cells[2];
    std::erase(uses, ',');
    const auto words = words_in(uses);
    shown[words_in(cells[0]).front()] = {words.begin(), words.end()};
  }
  for (const Layer& layer : layers()) {
    EXPECT_EQ(shown[layer.folder], layer.may_include) << layer.folder;
  }
}

// Nothing but `files` touches the machine: a fault there is met in one place,
// and the same program runs over texts in memory.
TEST(Layering, OnlyFilesTouchesTheDiskAndTheEnvironment) {
  const std::set<std::string> system = {"filesystem", "fstream",  "fcntl.h",
                                        "unistd.h",   "dirent.h", "sys/"};
  for (const fs::path& file : sources()) {
    if (stage_of(file) == "files") continue;
    for (const std::string& include : includes_of(file)) {
      for (const std::string& header : system) {
        EXPECT_FALSE(include.starts_with(header))
            << file << " includes " << include;
      }
    }
    const std::string text = read(file);
    for (const char* call : {"std::filesystem", "fs::", "fstream", "fopen",
                             "freopen", "mmap(", "getenv", "create_from_file",
                             "::unlink(", "std::remove(", "rename("}) {
      EXPECT_EQ(text.find(call), std::string::npos) << file << " has " << call;
    }
  }
}

// The disk itself is named where a program begins; all below is handed it.
TEST(Layering, TheDiskIsHandedDown) {
  int users = 0;
  for (const fs::path& file : sources()) {
    const std::string stage = stage_of(file);
    for (const std::string& include : includes_of(file)) {
      if (include != "files/disk_files.h") continue;
      const bool begins = stage == "cli" || file.filename() == "main.cpp";
      EXPECT_TRUE(begins || stage == "files") << file;
      ++users;
    }
  }
  EXPECT_GT(users, 2);
}

TEST(Layering, HeavyHeadersAreInOneFileEach) {
  std::map<std::string, std::set<fs::path>> users;
  for (const fs::path& file : sources()) {
    for (const std::string& include : includes_of(file)) {
      if (include.starts_with("CLI/")) users["CLI11"].insert(file);
      if (include.starts_with("nlohmann/")) users["JSON"].insert(file);
    }
  }
  for (const auto& [library, files] : users) {
    EXPECT_EQ(files.size(), 1U) << library;
  }
}

TEST(Layering, SheetsDoNotIncludeOneAnother) {
  const std::string table = read(project() / "src/sheets/sheet.h");
  ASSERT_FALSE(table.empty());
  for (const fs::path& file : sources()) {
    if (stage_of(file) != "sheets") continue;
    if (read(file).find("SheetRegistration kRegistration") ==
        std::string::npos) {
      continue;
    }
    for (const std::string& include : includes_of(file)) {
      EXPECT_FALSE(
          fs::exists(project() / "src" / include) &&
          read(project() / "src" / fs::path(include).replace_extension(".cpp"))
                  .find("SheetRegistration kRegistration") != std::string::npos)
          << file << " includes " << include;
    }
  }
}

TEST(Layering, FilesAreOfReadableLength) {
  for (const fs::path& file : sources()) {
    const std::string text = read(file);
    const auto lines = std::count(text.begin(), text.end(), '\n');
    EXPECT_LE(lines, 500) << file;
  }
}

// What a file of data holds, and where it is from, is said in one place, with
// the names of its columns.
TEST(Data, EveryFileStandsInItsTable) {
  const fs::path folder = project() / "src/data";
  const std::string about = read(folder / "README.md");
  const auto files = files_below(folder, {".tsv", ".txt"});
  EXPECT_GT(files.size(), 15U);
  for (const fs::path& file : files) {
    const std::size_t at =
        about.find("\n| `" + file.filename().string() + "` |");
    ASSERT_NE(at, std::string::npos) << file;
    const std::string row = about.substr(at, about.find('\n', at + 1) - at);
    if (file.extension() != ".tsv") continue;
    std::istringstream lines(read(file));
    std::string heads;
    while (std::getline(lines, heads) && heads.starts_with('#')) {
    }
    std::istringstream names(heads);
    for (std::string name; std::getline(names, name, '\t');) {
      EXPECT_NE(row.find(name), std::string::npos) << file << ": " << name;
    }
  }
  // And nothing that is not there.
  for (std::size_t at = 0;
       (at = about.find("\n| `", at)) != std::string::npos;) {
    at += 4;
    const std::string name = about.substr(at, about.find('`', at) - at);
    const bool is_there = std::ranges::any_of(
        files, [&](const fs::path& file) { return file.filename() == name; });
    EXPECT_TRUE(is_there || fs::exists(folder / name)) << name;
  }
}

// What the documents for developers name is there. NAME stands for a name to
// be chosen, and paths may be those below src/.
TEST(Documents, NameFilesThatExist) {
  int named = 0;
  for (const char* document :
       {"DEVELOPERS.md", "docs/decisions.md", "src/data/README.md"}) {
    std::istringstream text(read(project() / document));
    std::string word;
    for (bool quoted = false; std::getline(text, word, '`'); quoted = !quoted) {
      const bool is_path =
          quoted && word.find('/') != std::string::npos &&
          word.find_first_of(" \n") == std::string::npos &&
          !fs::path(word).extension().empty() &&
          word.find("NAME") == std::string::npos && !word.starts_with("out/") &&
          !word.starts_with("build/") && !word.starts_with("build-web/");
      if (!is_path) continue;
      ++named;
      EXPECT_TRUE(fs::exists(project() / word) ||
                  fs::exists(project() / "src" / word))
          << document << " names " << word;
    }
  }
  EXPECT_GT(named, 40);
}

}  // namespace
}  // namespace sheaf::test
