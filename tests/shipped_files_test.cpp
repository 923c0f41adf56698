// What comes with Sheaf is missing or damaged: one sentence, code 3, and
// nothing written.

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <functional>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

// A copy of the program with all that comes with it, and what it works on.
class ShippedFiles : public testing::Test {
 protected:
  ShippedFiles() {
    const fs::path built = fs::path(SHEAF_PROGRAM).parent_path();
    fs::create_directories(at("bin/share/sheaf"));
    fs::copy(SHEAF_PROGRAM, at("bin/sheaf"));
    fs::copy(built / "share/sheaf/phonics.bin", at("bin/share/sheaf"));
    for (const char* name : {"fonts", "layouts"}) {
      fs::copy(project() / name, at("bin/share/sheaf/") + name,
               fs::copy_options::recursive);
    }
    folder.write("sh.yaml", "pattern: sh\nwords: ship shed fish dish\n");
    folder.write("class.yaml", "lesson: sh.yaml\nlearners: [B7]\n");
    folder.write("record.yaml",
                 "date: 2026-03-12\nlesson: sh.yaml\nclass: class.yaml\n"
                 "marked: all\nwrong: {B7: {ship: sip}}\n");
  }

  TemporaryFolder folder;

  std::string at(const std::string& name) const {
    return folder.path() + "/" + name;
  }
  // Every verb that makes pages.
  const std::vector<std::vector<std::string>> calls = {
      {"build", at("sh.yaml"), "--out", at("out")},
      {"build", "--class", at("class.yaml"), "--out", at("out")},
      {"mark", at("record.yaml"), "--pdf", at("out.pdf")},
      {"progress", at("record.yaml"), "--pdf", at("out.pdf")},
      {"pictures", "--pdf", at("out.pdf")}};

  Outcome sheaf(const std::vector<std::string>& arguments) const {
    std::vector<std::string> call = {
        "sh", "-c", "ulimit -c 0; exec timeout 20 \"$0\" \"$@\" >/dev/null",
        at("bin/sheaf")};
    call.insert(call.end(), arguments.begin(), arguments.end());
    return run_program(call);
  }

  void expect_one_sentence(const std::string& part) const {
    for (const auto& arguments : calls) {
      const Outcome outcome = sheaf(arguments);
      SCOPED_TRACE(arguments.front() + ": " + outcome.out);
      EXPECT_EQ(outcome.status, 3);
      const std::size_t begin = outcome.out.find("sheaf: ");
      ASSERT_NE(begin, std::string::npos);
      const std::string sentence = outcome.out.substr(begin);
      EXPECT_EQ(sentence.find('\n'), sentence.size() - 1);
      EXPECT_NE(sentence.find(part), std::string::npos);
      EXPECT_LT(sentence.size(), 300U);
      EXPECT_EQ(outcome.out.find("error:"), std::string::npos);
      EXPECT_FALSE(fs::exists(at("out.pdf")));
      EXPECT_FALSE(fs::exists(at("out")));
    }
  }
};

TEST_F(ShippedFiles, AreThere) {
  for (const auto& arguments : calls) {
    const Outcome outcome = sheaf(arguments);
    EXPECT_EQ(outcome.status, 0) << arguments.front() << outcome.out;
  }
}

TEST_F(ShippedFiles, HaveAListOfFontsThatCanBeRead) {
  const std::string manifest = at("bin/share/sheaf/fonts/manifest.tsv");
  const std::string whole = read(manifest);
  const std::string head = whole.substr(0, whole.find('\n') + 1);
  const std::string picture = whole.substr(whole.find("Noto Emoji"));
  struct Case {
    std::string name, part;
    std::function<void()> prepare;
  };
  const auto holding = [&](std::string text) {
    return [&manifest, text = std::move(text)] {
      std::ofstream(manifest, std::ios::binary) << text;
    };
  };
  std::string other = whole;
  for (std::size_t at = 0;
       (at = other.find("Andika\t", at)) != std::string::npos;) {
    other.replace(at, 6, "Other!");
  }
  const std::vector<Case> cases = {
      {"empty", "names no typeface", holding("")},
      {"a head alone", "names no typeface", holding(head)},
      {"pictures alone", "names no typeface", holding(head + picture)},
      {"another family alone", "Sheaf's own typeface `Andika`", holding(other)},
      {"no font for pictures", "no font for pictures",
       holding(whole.substr(0, whole.find("Noto Emoji")))},
      {"bytes", "does not name a font", holding(read(at("bin/sheaf")))},
      {"a folder", "cannot read the list of fonts",
       [&] { fs::create_directory(manifest); }},
      {"a pipe", "cannot read the list of fonts",
       [&] { ASSERT_EQ(mkfifo(manifest.c_str(), 0600), 0); }},
      {"missing", "cannot read the list of fonts", [] {}},
      {"a link to itself", "cannot read the list of fonts",
       [&] { fs::create_symlink("manifest.tsv", manifest); }},
  };
  for (const Case& one : cases) {
    SCOPED_TRACE(one.name);
    fs::remove(manifest);
    one.prepare();
    const bool reports_need_it = one.name != "no font for pictures";
    if (reports_need_it) {
      expect_one_sentence(one.part);
    } else {
      const Outcome outcome = sheaf(calls.back());
      EXPECT_EQ(outcome.status, 3) << outcome.out;
      EXPECT_NE(outcome.out.find(one.part), std::string::npos) << outcome.out;
    }
  }
}

}  // namespace
}  // namespace sheaf::test
