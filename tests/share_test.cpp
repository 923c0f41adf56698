// `sheaf settle` and `sheaf watch`, run as a teacher would.

#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <thread>

#include "base/base64.h"
#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::file_bytes;
using testing_support::run_program;
using testing_support::TemporaryFolder;

// A board of black and white squares as a PNG file.
constexpr const char* kPicture =
    "iVBORw0KGgoAAAANSUhEUgAAAEAAAABACAAAAACPAi4CAAAAOUlEQVR42u3UIQ4AQAgD"
    "wf7/01xIsIizZHA1IxCbmsvc7w7gBOAXgN6eB9ADgB4A9ACgBwA9ACz7Adue+Grlh0xf"
    "AAAAAElFTkSuQmCC";

void expect_same_pages(const fs::path& lesson, const std::string& name) {
  const TemporaryFolder here, there;
  const std::string settled = here.path() + "/settled.yaml";
  const auto made = run_program(
      {SHEAF_PROGRAM, "settle", lesson.string(), "--file", settled});
  ASSERT_EQ(made.status, 0) << made.out;
  const std::string copy = there.write(name + ".yaml", file_bytes(settled));
  const auto own = run_program(
      {SHEAF_PROGRAM, "build", lesson.string(), "--out", here.path()});
  ASSERT_EQ(own.status, 0) << own.out;
  const auto other =
      run_program({SHEAF_PROGRAM, "build", copy, "--out", there.path()});
  ASSERT_EQ(other.status, 0) << other.out;
  for (const char* part : {"/packet.pdf", "/teacher.pdf"}) {
    const std::string pages =
        file_bytes(here.path() + "/" + lesson.stem().string() + part);
    EXPECT_FALSE(pages.empty());
    EXPECT_EQ(pages, file_bytes(there.path() + "/" + name + part))
        << lesson << part;
  }
}

TEST(Settle, MakesTheSamePagesElsewhere) {
  for (const char* lesson :
       {"ai-ay-rain", "year/04-short-i-short-o", "year/27-oa"}) {
    expect_same_pages(project() / "lessons" / (std::string(lesson) + ".yaml"),
                      "sent");
  }
}

TEST(Settle, HoldsWhatWasPickedAndPictures) {
  const TemporaryFolder folder;
  folder.write("board.png", *from_base64(kPicture));
  folder.write("small.yaml",
               "paper: a4\nsheets: [discovery, sound-boxes, picture-sort, "
               "answer-key]\n");
  const std::string lesson = folder.write(
      "oa.yaml",
      "# For Tuesday.\r\npattern: oa\r\npick: 9\r\nset: 2\r\nreview: 2\r\n"
      "layout: small.yaml\r\ncount: as-taught\r\naccent: british\r\n"
      "pictures: {boat: board.png}\r\nauthor: K. Moss\r\n"
      "sentences: |\r\n  The boat is afloat.\r\n");
  folder.write("sequence.yaml",
               "steps: [short_i, short_o, short_a, sh, oa, igh]\n");
  expect_same_pages(lesson, "sent");
  const std::string target = folder.path() + "/oa-settled.yaml";
  ASSERT_EQ(run_program({SHEAF_PROGRAM, "settle", lesson}).status, 0);
  const std::string text = file_bytes(target);
  EXPECT_TRUE(text.starts_with("# For Tuesday.\n")) << text.substr(0, 200);
  EXPECT_NE(text.find("author: K. Moss\n"), std::string::npos);
  EXPECT_NE(text.find("data:image/png;base64,"), std::string::npos);
  EXPECT_EQ(text.find("pick:"), std::string::npos);
  EXPECT_EQ(text.find('\r'), std::string::npos);
  // It never overwrites.
  folder.write("oa-settled.yaml", "mine");
  EXPECT_EQ(run_program({SHEAF_PROGRAM, "settle", lesson}).status, 3);
  EXPECT_EQ(file_bytes(target), "mine");
}

TEST(Settle, ASettledLessonSettlesToItself) {
  const TemporaryFolder folder;
  const std::string once = folder.path() + "/once.yaml";
  const std::string twice = folder.path() + "/twice.yaml";
  run_program({SHEAF_PROGRAM, "settle",
               (project() / "lessons/sh-ship.yaml").string(), "--file", once});
  run_program({SHEAF_PROGRAM, "settle", once, "--file", twice});
  expect_same_pages(twice, "sent");
}

bool wait_for(const std::function<bool()>& come) {
  for (int i = 0; i < 400; ++i) {
    if (come()) return true;
    std::this_thread::sleep_for(std::chrono::milliseconds(25));
  }
  return false;
}

TEST(Watch, BuildsOnSaveAndKeepsTheLastGoodPages) {
  const TemporaryFolder folder;
  const std::string lesson =
      folder.write("oa.yaml", "pattern: oa\nwords: boat road soap coat\n");
  const std::string packet = folder.path() + "/out/oa/packet.pdf";
  const std::string messages = folder.path() + "/messages";
  const pid_t watcher = ::fork();
  ASSERT_GE(watcher, 0);
  if (watcher == 0) {
    if (::freopen(messages.c_str(), "w", stdout) == nullptr) ::_exit(9);
    ::dup2(1, 2);
    const std::string out = folder.path() + "/out";
    ::execl(SHEAF_PROGRAM, "sheaf", "watch", lesson.c_str(), "--out",
            out.c_str(), nullptr);
    ::_exit(9);
  }
  const auto said = [&](const char* text, int times) {
    int count = 0;
    const std::string all = file_bytes(messages);
    for (std::size_t at = 0; (at = all.find(text, at)) != std::string::npos;
         ++at) {
      ++count;
    }
    return count >= times;
  };
  EXPECT_TRUE(wait_for([&] { return said("\nbuilt; waiting", 1); }));
  const std::string first = file_bytes(packet);
  EXPECT_FALSE(first.empty());
  // Saved as editors do: a new file in the place of the old.
  const std::string draft = folder.write(
      "oa.yaml.new", "pattern: oa\nwords: boat road soap coat toast\n");
  fs::rename(draft, lesson);
  EXPECT_TRUE(wait_for([&] { return said("\nbuilt; waiting", 2); }));
  const std::string second = file_bytes(packet);
  EXPECT_NE(second, first);
  folder.write("oa.yaml", "pattern: oa\nwords: boat sh1p\n");
  EXPECT_TRUE(wait_for([&] { return said("not built", 1); }));
  EXPECT_EQ(file_bytes(packet), second);
  ::kill(watcher, SIGINT);
  int status = 0;
  ::waitpid(watcher, &status, 0);
  EXPECT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 130);
}

// Examples of RFC 4648, section 10.
TEST(Base64, IsThatOfTheStandard) {
  EXPECT_EQ(to_base64(""), "");
  EXPECT_EQ(to_base64("f"), "Zg==");
  EXPECT_EQ(to_base64("fo"), "Zm8=");
  EXPECT_EQ(to_base64("foobar"), "Zm9vYmFy");
  EXPECT_EQ(from_base64("Zm9v\n  Yg=="), "foob");
  EXPECT_EQ(from_base64("Zm9vYmE="), "fooba");
  EXPECT_FALSE(from_base64("Zm9vY"));
  EXPECT_FALSE(from_base64("Zm9v*mFy"));
  EXPECT_FALSE(from_base64("Zg=a"));
}

}  // namespace
}  // namespace sheaf::test
