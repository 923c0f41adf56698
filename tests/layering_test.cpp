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
    {"files", {"base"}},
    {"driver",
     {"base", "files", "phonics", "input", "analysis", "planning", "marking",
      "text", "pictures", "layout", "sheets", "packet", "pdf"}},
    {"cli",
     {"base", "files", "driver", "phonics", "input", "analysis", "planning", "marking", "text",
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

}  // namespace
}  // namespace sheaf::test
