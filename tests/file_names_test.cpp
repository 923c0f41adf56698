// File names of any kind: a lesson may be called what the system allows, and
// nothing in the name is run, expanded or lost, whichever way the file is
// named.

#include <gtest/gtest.h>

#include <chrono>
#include <set>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

constexpr const char* kLesson = "pattern: sh\nwords: ship shed fish dish\n";

// Each would run `touch` somewhere if a shell or make read it as text.
const std::vector<std::string>& names() {
  static const std::vector<std::string> all = {
      "my lesson",
      " blank before",
      "blank after ",
      "it's",
      "say \"sh\"",
      "both '\" of them",
      "$(touch owned)",
      "${HOME}",
      "$HOME",
      "$(shell touch owned)",
      "$$",
      "`touch owned`",
      "a;touch owned",
      "; touch owned;",
      "a & touch owned",
      "a && touch owned #",
      "a | touch owned",
      "a > owned",
      "a [b] (c) {d,e}",
      "<angles>",
      "all*",
      "what?",
      "-rf",
      "--out",
      "-",
      "~",
      "#sh",
      "a=b",
      "50%",
      "c:\\temp\\",
      "!!",
      "new\nline",
      "\ntouch owned\n",
      "tab\there",
      "escape \x1B[31mred",
      "return\r",
      "schöne Übung",
      "日本語",
      "not utf-8 \xFF\xFE",
      "dots.and.more",
      "%s%n",
  };
  return all;
}

// No control character but the ends of lines.
void expect_printable(const std::string& text) {
  for (const char c : text) {
    EXPECT_TRUE(c == '\n' ||
                (static_cast<unsigned char>(c) >= 0x20 && c != '\x7F'))
        << "control character " << static_cast<int>(c) << " in\n"
        << text;
  }
}

class FileNames : public testing::Test {
 protected:
  FileNames() { fs::create_directory(at("lessons")); }

  std::string at(const std::string& name) const {
    return folder.path() + "/" + name;
  }
  void write_lessons(const std::string& text) const {
    for (const std::string& name : names()) {
      folder.write("lessons/" + name + ".yaml", text);
    }
  }
  // Sheaf in the folder of the lessons, as a teacher would call it.
  Outcome sheaf(const std::vector<std::string>& arguments) const {
    std::vector<std::string> call = {"sh", "-c", "cd \"$0\" && exec \"$@\"",
                                     folder.path(), SHEAF_PROGRAM};
    call.insert(call.end(), arguments.begin(), arguments.end());
    return run_program(call);
  }

  TemporaryFolder folder;
};

TEST_F(FileNames, AreAllBuilt) {
  write_lessons(kLesson);
  const Outcome built = sheaf({"build", "lessons"});
  EXPECT_EQ(built.status, 0) << built.out;
  expect_printable(built.out);
  // Which name it was can be told.
  for (const char* name : {"escape \\x1B[31mred", "return\\r", "schöne Übung",
                           "not utf-8 \\xFF\\xFE"}) {
    EXPECT_NE(built.out.find(name), std::string::npos) << name;
  }
  folder.write("plain.yaml", kLesson);
  ASSERT_EQ(sheaf({"build", "plain.yaml"}).status, 0);
  for (const std::string& name : names()) {
    for (const char* pages : {"/packet.pdf", "/teacher.pdf"}) {
      EXPECT_TRUE(read(at("out/" + name + pages)) ==
                  read(at("out/plain") + pages))
          << name << pages;
    }
  }
  const Outcome again = sheaf({"build", "lessons"});
  EXPECT_NE(again.out.find("0 built, 41 up to date"), std::string::npos)
      << again.out;
  EXPECT_FALSE(fs::exists(at("owned")));
}

TEST_F(FileNames, AreShownWithoutControlCharacters) {
  write_lessons("pattern: sh\nwords: ship sh1p\n");
  std::vector<std::string> build = {"build"}, check = {"check"},
                           missing = {"build"};
  for (const std::string& name : names()) {
    build.push_back("lessons/" + name + ".yaml");
    check.push_back("lessons/" + name + ".yaml");
    missing.push_back("lessons/" + name);
  }
  for (const auto& call : {build, check, {"build", "lessons"}}) {
    const Outcome outcome = sheaf(call);
    EXPECT_EQ(outcome.status, 1);
    expect_printable(outcome.out);
    // A message begins with the name, in one line.
    std::istringstream lines(outcome.out);
    std::size_t messages = 0;
    for (std::string line; std::getline(lines, line);) {
      if (line.find(".yaml:2:15: error: ") == std::string::npos) continue;
      EXPECT_TRUE(line.starts_with("lessons/")) << line;
      ++messages;
    }
    EXPECT_EQ(messages, names().size()) << outcome.out;
  }
  const Outcome not_there = sheaf(missing);
  EXPECT_EQ(not_there.status, 3);
  expect_printable(not_there.out);
  for (const std::string& name : names()) {
    const std::string file = "lessons/" + name;
    const Outcome settled = sheaf({"settle", file + ".yaml"});
    EXPECT_EQ(settled.status, 1) << settled.out;
    expect_printable(settled.out);
  }
}

// What one verb writes down of a name, another reads back.
TEST_F(FileNames, ComeBackFromWhatIsWritten) {
  write_lessons(kLesson);
  folder.write("class.yaml", "learners: [B7, C3]\n");
  std::vector<std::string> check = {"check"}, build = {"build"},
                           find = {"find", "sh"}, mark = {"mark"};
  for (const std::string& name : names()) {
    SCOPED_TRACE(name);
    const std::string file = "lessons/" + name + ".yaml";
    check.push_back(file);
    find.insert(find.end(), {"--transfer", file});
    const Outcome settled = sheaf({"settle", file});
    EXPECT_EQ(settled.status, 0) << settled.out;
    expect_printable(settled.out);
    build.push_back("lessons/" + name + "-settled.yaml");
    // A record names its lesson; not every name can stand in a file.
    const Outcome form = sheaf(
        {"record", file, "--class", "class.yaml", "--date", "2026-03-12"});
    expect_printable(form.out);
    const std::string record = "records/2026-03-12-" + name + ".yaml";
    if (name.find_first_of("\\:\n\r\t\x1B\xFF") == std::string::npos) {
      EXPECT_EQ(form.status, 0) << form.out;
      mark.push_back(record);
      continue;
    }
    EXPECT_EQ(form.status, 3) << form.out;
    EXPECT_NE(form.out.find("cannot be named in a record"), std::string::npos)
        << form.out;
    EXPECT_FALSE(fs::exists(at(record)));
  }
  EXPECT_GT(mark.size(), 30U);
  for (const auto& call : {check, build, find, mark}) {
    const Outcome outcome = sheaf(call);
    EXPECT_EQ(outcome.status, 0) << call[0] << outcome.out;
    expect_printable(outcome.out);
  }
  EXPECT_FALSE(fs::exists(at("owned")));
}

// `review` names the class file in a remark at the head of the plan: a line
// break there would begin a key.
TEST_F(FileNames, OfAClassDoNoHarmInAPlan) {
  folder.write("l.yaml", kLesson);
  fs::create_directory(at("records"));
  for (const std::string name :
       {"group", "gr\nlearners: {X9: }\noup", "a\x1B"}) {
    SCOPED_TRACE(name);
    folder.write(name + ".yaml", "lesson: l.yaml\nlearners: [B7, C3]\n");
    folder.write("records/one.yaml",
                 "date: 2026-03-12\nlesson: l.yaml\nmarked: all\n"
                 "wrong:\n  B7: {ship: sip}\n  C3: {}\n");
    const Outcome made =
        sheaf({"review", "--class", name + ".yaml", "--records", "records",
               "--week", "2026-03-16"});
    EXPECT_EQ(made.status, 0) << made.out;
    expect_printable(made.out);
    const Outcome checked = sheaf({"check", name + "-2026-03-16.yaml"});
    EXPECT_EQ(checked.status, 0) << checked.out;
    EXPECT_EQ(checked.out.find("\n  X9"), std::string::npos) << checked.out;
  }
}

// The Makefile in a folder of its own, with the program as it is built.
class MakeNames : public FileNames {
 protected:
  MakeNames() {
    for (const char* name :
         {"Makefile", "checks.mk", "web.mk", "web/page.mk", "tools/print.sh"}) {
      fs::create_directories(fs::path(at(name)).parent_path());
      fs::copy(project() / name, at(name));
    }
    fs::create_directory(at("src"));
    fs::create_directory(at("build"));
    fs::create_symlink(SHEAF_PROGRAM, at("build/sheaf"));
    folder.write("CMakeLists.txt", "");
    folder.write("build/.built", "");  // so that there is nothing to compile
    folder.write("tools/lp",
                 "#!/bin/sh\nfor last; do :; done; cp -- \"$last\" printed\n");
    folder.write("tools/lpstat", "#!/bin/sh\necho desk\n");
    for (const char* tool : {"tools/lp", "tools/lpstat"}) {
      fs::permissions(at(tool), fs::perms::owner_all);
    }
  }
  Outcome make(const std::vector<std::string>& arguments,
               const std::string& lesson = "") const {
    std::vector<std::string> call = {
        "sh", "-c",
        "unset MAKEFLAGS MFLAGS MAKELEVEL; cd \"$0\" && LESSON=$1; shift; "
        "export LESSON; PATH=$0/tools:$PATH exec make \"$@\"",
        folder.path(), lesson};
    call.insert(call.end(), arguments.begin(), arguments.end());
    return run_program(call);
  }
  std::set<std::string> entries() const {
    std::set<std::string> found;
    for (const auto& entry : fs::directory_iterator(folder.path())) {
      found.insert(entry.path().filename().string());
    }
    return found;
  }
};

TEST_F(MakeNames, RunNothingAndStopNothing) {
  write_lessons(kLesson);
  fs::create_directory(at("lessons/year"));
  folder.write("lessons/year/$(shell touch owned).yaml", kLesson);
  std::set<std::string> expected = entries();
  expected.insert("out");
  const Outcome made = make({"YEAR=1"});
  EXPECT_EQ(made.status, 0) << made.out;
  EXPECT_EQ(entries(), expected) << made.out;
  for (const std::string& name : names()) {
    EXPECT_TRUE(fs::exists(at("out/" + name + "/packet.pdf"))) << name;
  }
  EXPECT_TRUE(fs::exists(at("out/year/$(shell touch owned)/packet.pdf")));
  const Outcome again = make({});
  EXPECT_NE(again.out.find("0 built, 41 up to date"), std::string::npos)
      << again.out;
  // Other paper is another packet, and one lesson with errors stops no other.
  folder.write("lessons/a.yaml", "pattern: sh\nwords: sh1p\n");
  const Outcome a4 = make({"PAPER=a4"});
  EXPECT_NE(a4.status, 0);
  EXPECT_NE(a4.out.find("41 built, 0 up to date, 1 with errors"),
            std::string::npos)
      << a4.out;
  EXPECT_EQ(entries(), expected);
}

TEST_F(MakeNames, ArePrintedAsTheyAre) {
  // The pages differ, so that it shows which were printed.
  int words = 0;
  for (const std::string& name : names()) {
    static const std::vector<std::string> kWords = {
        "ship",  "shed", "fish", "dish",  "brush", "crash",
        "shelf", "shop", "wish", "flash", "shut",  "rush"};
    std::string text = "pattern: sh\nwords:";
    const int picked = ++words;
    for (int bit = 0; bit < 12; ++bit) {
      if (bit > 8 || (picked >> bit) % 2 == 0) {
        text += " " + kWords[static_cast<std::size_t>(bit)];
      }
    }
    folder.write("lessons/" + name + ".yaml", text + "\n");
  }
  std::set<std::string> expected = entries();
  expected.insert({"out", "printed"});
  for (const std::string& name : names()) {
    SCOPED_TRACE(name);
    // make takes blanks away from the beginning of a value, but not from what
    // stands in the environment.
    const bool blank = name.starts_with(' ') || name.starts_with('\n');
    const Outcome printed =
        make(blank ? std::vector<std::string>{"-s", "print"}
                   : std::vector<std::string>{"-s", "print", "LESSON=" + name},
             name);
    EXPECT_EQ(printed.status, 0) << printed.out;
    EXPECT_FALSE(read(at("printed")).empty());
    EXPECT_TRUE(read(at("printed")) == read(at("out/" + name + "/packet.pdf")));
    expect_printable(printed.out);
  }
  const Outcome none = make({"-s", "print", "LESSON=$(shell touch owned)2"});
  EXPECT_NE(none.status, 0);
  EXPECT_NE(none.out.find("There is no lessons/$(shell touch owned)2.yaml"),
            std::string::npos)
      << none.out;
  expect_printable(none.out);
  EXPECT_EQ(entries(), expected);
}

// A make file of somebody's own, which reads what `--deps` wrote.
TEST_F(FileNames, AreNamedToMakeOrRefused) {
  const std::set<std::string> refused = {
      "a;touch owned", "; touch owned;", "a=b",
      "c:\\temp\\",    "new\nline",      "\ntouch owned\n",
      "tab\there",     "return\r",       "escape \x1B[31mred"};
  write_lessons(kLesson);
  folder.write("own.mk", "include deps\nout/%/packet.pdf: ; @:\n");
  for (const std::string& name : names()) {
    SCOPED_TRACE(name);
    // Beside the make file too, where the name is all of the path.
    for (const std::string& place : {std::string("lessons/"), std::string()}) {
      const std::string file = place + name + ".yaml";
      if (place.empty()) folder.write(file, kLesson);
      fs::remove(at("deps"));
      const Outcome built = sheaf({"build", "--deps", "deps", "--", file});
      expect_printable(built.out);
      if (refused.contains(name)) {
        EXPECT_EQ(built.status, 3) << built.out;
        EXPECT_NE(built.out.find("--deps cannot name "), std::string::npos)
            << built.out;
        EXPECT_FALSE(fs::exists(at("deps")));
        // Pages that make does not know of would never be made again.
        EXPECT_FALSE(fs::exists(at("out/" + name + "/packet.pdf")));
        continue;
      }
      EXPECT_EQ(built.status, 0) << built.out;
      const auto is_up_to_date = [&] {
        return run_program({"sh", "-c",
                            "unset MAKEFLAGS MFLAGS MAKELEVEL; cd \"$0\" && "
                            "exec make -q -rR -f own.mk -- \"$1\"",
                            folder.path(), "out/" + name + "/packet.pdf"})
            .status;
      };
      EXPECT_EQ(is_up_to_date(), 0) << read(at("deps"));
      // An hour after the packet.
      fs::last_write_time(
          at(file), fs::file_time_type::clock::now() + std::chrono::hours(1));
      EXPECT_EQ(is_up_to_date(), 1) << read(at("deps"));
      // A file that is gone makes its packet old and stops nothing.
      fs::remove(at(file));
      EXPECT_EQ(is_up_to_date(), 1) << read(at("deps"));
    }
  }
  EXPECT_FALSE(fs::exists(at("owned")));
}

}  // namespace
}  // namespace sheaf::test
