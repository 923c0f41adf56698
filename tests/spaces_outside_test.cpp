// No two words run together, for readers of other makers: in the order of the
// tags, and by their places on the page; every sheet and both reports.

#include <gtest/gtest.h>

#include <set>
#include <sstream>

#include "project_files.h"
#include "support/pattern.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::file_bytes;
using testing_support::Pattern;
using testing_support::run_program;
using testing_support::TemporaryFolder;

using Words = std::set<std::string>;

void add_words(Words& words, const std::string& text) {
  // A space at which no line breaks is a space.
  std::istringstream parts(Pattern("\u00A0").replace(text, " "));
  for (std::string word; parts >> word;) words.insert(word);
}

// XML as poppler writes it.
std::string plain(std::string text) {
  for (const auto& [written, meant] : {std::pair{"&lt;", "<"},
                                       {"&gt;", ">"},
                                       {"&quot;", "\""},
                                       {"&apos;", "'"},
                                       {"&amp;", "&"}}) {
    text = Pattern(written).replace(text, meant);
  }
  return text;
}

// The words that poppler finds by the places of their letters.
Words words_by_place(const std::string& file) {
  Words words;
  const Pattern word("<word [^>]*>([^<]*)</word>");
  const std::string boxes = run_program({"pdftotext", "-bbox", file, "-"}).out;
  for (const Pattern::Match& found : word.all_in(boxes)) {
    add_words(words, plain(found[1]));
  }
  return words;
}

// What is heard by the tags: nothing is put between two pieces that is not in
// the file.
std::string heard(const std::string& file) {
  std::string all;
  const Pattern text("\n *\"([^\n]*)\"");
  const std::string tags = run_program({"pdfinfo", "-struct-text", file}).out;
  for (const Pattern::Match& found : text.all_in(tags)) all += found[1];
  return all;
}

void expect_words(const Words& known, const std::string& text,
                  const std::string& file) {
  Words told;
  add_words(told, text);
  for (const std::string& word : told) {
    EXPECT_TRUE(known.contains(word)) << file << ": \"" << word << '"';
  }
}

// Words whose letters stand apart are told letter by letter by a reader that
// heeds only places; none of its pieces may be more than one word.
void expect_pieces(const Words& known, const std::string& text,
                   const std::string& file) {
  Words told;
  add_words(told, text);
  for (const std::string& piece : told) {
    const bool is_part =
        std::any_of(known.begin(), known.end(), [&](const std::string& word) {
          return word.find(piece) != std::string::npos;
        });
    EXPECT_TRUE(is_part) << file << ": \"" << piece << '"';
  }
}

std::size_t expect_no_joined_words(const fs::path& folder) {
  const std::vector<fs::path> files = files_below(folder, {".pdf"});
  for (const fs::path& path : files) {
    const std::string file = path.string();
    const Words known = words_by_place(file);
    EXPECT_FALSE(known.empty()) << file;
    expect_words(known, run_program({"pdftotext", "-raw", file, "-"}).out,
                 file);
    // The other two do not heed what is said in place of signs: each is held
    // against what one of them finds by places, and one by tags.
    const std::string text = folder.string() + "/text.txt";
    run_program({"mutool", "draw", "-q", "-F", "txt", "-o", text, file});
    const std::string by_tags = heard(file), by_place = file_bytes(text);
    Words also_shown = known;
    add_words(also_shown, by_place);
    expect_words(also_shown, by_tags, file);
    also_shown = known;
    add_words(also_shown, by_tags);
    expect_pieces(also_shown, by_place, file);
  }
  return files.size();
}

TEST(Spaces, StandBetweenTheWordsOfEverySheet) {
  TemporaryFolder folder;
  std::vector<std::string> build = {
      SHEAF_PROGRAM, "build",
      "--separate",  "--out",
      folder.path(), (project() / "lessons" / "i-e-kite.yaml").string(),
      "--only"};
  const Pattern name("\n  ([a-z-]+): ");
  const std::string kinds = run_program({SHEAF_PROGRAM, "sheets"}).out;
  for (const Pattern::Match& found : name.all_in(kinds)) {
    build.push_back(found[1]);
  }
  const auto built = run_program(build);
  ASSERT_EQ(built.status, 0) << built.out;
  EXPECT_GE(expect_no_joined_words(folder.path()), 20U);
}

TEST(Spaces, StandBetweenTheWordsOfReports) {
  TemporaryFolder folder;
  const std::string records =
      (project() / "lessons" / "demo-term" / "records").string();
  for (const char* verb : {"mark", "progress"}) {
    const auto made = run_program({SHEAF_PROGRAM, verb, records, "--pdf",
                                   folder.path() + "/" + verb + ".pdf"});
    ASSERT_EQ(made.status, 0) << made.out;
  }
  EXPECT_EQ(expect_no_joined_words(folder.path()), 2U);
}

}  // namespace
}  // namespace sheaf::test
