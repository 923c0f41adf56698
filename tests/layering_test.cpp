// The include lines of src/ against the table of stages: a folder includes
// only what its row names, each outside library is used in one folder, and the
// two heavy headers in one file each.

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "project_files.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;

const std::map<std::string, std::set<std::string>> kMayInclude = {
    {"base", {}},
    {"phonics", {"base"}},
    {"lexicon", {"base", "phonics"}},
    {"input", {"base"}},
    {"analysis", {"base", "phonics", "input"}},
    {"text", {"base"}},
    {"pictures", {"base", "text"}},
    {"planning", {"base", "phonics", "input", "analysis", "pictures"}},
    {"marking", {"base", "phonics", "input", "analysis", "planning"}},
    {"layout", {"base", "text", "pictures"}},
    {"sheets",
     {"base", "phonics", "input", "analysis", "marking", "text", "pictures",
      "layout"}},
    {"packet",
     {"base", "phonics", "input", "analysis", "planning", "marking", "text",
      "pictures", "layout", "sheets"}},
    {"reports",
     {"base", "phonics", "input", "marking", "text", "pictures", "layout"}},
    {"pdf", {"base", "text", "pictures", "layout"}},
    {"cli",
     {"base", "phonics", "input", "analysis", "planning", "marking", "text",
      "pictures", "layout", "sheets", "packet", "reports", "pdf"}},
};

// Where each outside library may be used; fmt may be anywhere.
const std::map<std::string, std::set<std::string>> kLibraries = {
    {"utf8proc", {"base"}},   {"yaml-cpp", {"input"}},
    {"hb.h", {"text", "pdf"}}, {"hb-", {"text", "pdf"}},
    {"ft2build", {"text"}},   {"freetype", {"text"}},
    {"png", {"pictures"}},    {"jpeglib", {"pictures"}},
    {"hpdf", {"pdf"}},        {"libdeflate", {"pdf"}},
    {"CLI/", {"cli"}},        {"nlohmann/", {"cli"}},
};

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
    const std::string stage = stage_of(file);
    ASSERT_TRUE(kMayInclude.contains(stage)) << "no row for " << stage;
    for (const std::string& include : includes_of(file)) {
      const std::string other = include.substr(0, include.find('/'));
      if (!kMayInclude.contains(other) || other == stage) continue;
      EXPECT_TRUE(kMayInclude.at(stage).contains(other))
          << file << " includes " << include;
    }
  }
}

TEST(Layering, LibrariesAreUsedInOneFolder) {
  for (const fs::path& file : sources()) {
    for (const std::string& include : includes_of(file)) {
      for (const auto& [library, folders] : kLibraries) {
        if (!include.starts_with(library)) continue;
        EXPECT_TRUE(folders.contains(stage_of(file)))
            << file << " includes " << include;
      }
    }
  }
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
      EXPECT_FALSE(fs::exists(project() / "src" / include) &&
                   read(project() / "src" /
                        fs::path(include).replace_extension(".cpp"))
                           .find("SheetRegistration kRegistration") !=
                       std::string::npos)
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
    EXPECT_TRUE(fs::exists(folder / name)) << name;
  }
}

}  // namespace
}  // namespace sheaf::test
