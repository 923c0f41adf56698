// A class's errors, typed in: in the form, as little as can be, and line by
// line from the terminal. However they are typed, they are marked the same.

#include <gtest/gtest.h>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::file_bytes;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

constexpr const char* kLesson =
    "pattern: [ai, ay]\n"
    "words: rain day train play pain may wait bay\n"
    "dictate-words: rain day train play pain may\n"
    "dictate-sentences: |\n"
    "  It may rain on the bay.\n"
    "  The train will wait a day.\n"
    "sight-words: the a of my for we from\n";
constexpr const char* kBay = "It may rain on the bay.";
constexpr const char* kWait = "The train will wait a day.";

// An error with its word, and the sentence that the word stands in, if any.
struct Slip {
  std::string written, word, sentence;
  bool unclear = false;  ///< its word has to be said
};
struct Pupil {
  std::string code;
  std::vector<Slip> slips;
};

// A Friday of eighteen learners; invented.
const std::vector<Pupil>& friday() {
  static const std::vector<Pupil> pupils = {
      {"A1", {{"rane", "rain", ""}, {"trane", "train", ""}}},
      {"A2", {{"plai", "play", ""}}},
      {"A3", {{"wate", "wait", kWait}}},
      {"A4", {}},
      {"A5", {{"tran", "train", ""}, {"pane", "pain", ""}}},
      {"A6", {{"rayn", "rain", ""}, {"dai", "day", ""}}},
      {"A7", {{"trian", "train", ""}, {"bae", "bay", kBay}}},
      {"A8", {}},
      {"A9", {{"plae", "play", ""}, {"mai", "may", ""}}},
      {"B1", {{"rian", "rain", ""}, {"pian", "pain", ""}}},
      {"B2", {{"chrain", "train", "", true}, {"wayt", "wait", kWait}}},
      {"B3", {{"wil", "will", kWait}}},
      {"B4", {{"payn", "pain", ""}}},
      {"B5", {}},
      {"B6", {{"trayn", "train", ""}, {"playe", "play", ""}}},
      {"B7", {{"plya", "play", ""}, {"paine", "pain", ""}}},
      {"B8", {{"bai", "bay", kBay}}},
      {"B9", {{"pley", "play", ""}, {"dey", "day", ""}}},
  };
  return pupils;
}

class Entering : public testing::Test {
 protected:
  Entering() {
    folder_.write("rain.yaml", kLesson);
    std::string codes;
    for (const Pupil& pupil : friday()) {
      codes += (codes.empty() ? "" : ", ") + pupil.code;
    }
    folder_.write("class.yaml", "lesson: rain.yaml\nlearners: " + codes + "\n");
  }

  // What `input` and the arguments lead to; the shell keeps the program's code.
  Outcome run(const std::string& arguments, const std::string& input = "") {
    folder_.write("typed.txt", input);
    return run_program({"bash", "-c",
                        "cd " + folder_.path() + " && " + SHEAF_PROGRAM + " " +
                            arguments + " <typed.txt"});
  }
  Outcome enter(const std::string& input, const std::string& more = "") {
    return run(
        "record rain.yaml --class class.yaml --date 2026-03-13 --enter" + more,
        input);
  }
  std::string record() const {
    return file_bytes(folder_.path() + "/records/2026-03-13-rain.yaml");
  }
  std::string marks(const std::string& name) {
    const Outcome marked = run("mark --csv " + name);
    EXPECT_EQ(marked.status, 0) << marked.out;
    return marked.out;
  }

  TemporaryFolder folder_;
};

// The sentence with one word as it was written.
std::string with_slip(const Slip& slip) {
  std::string text = slip.sentence;
  text.replace(text.find(slip.word), slip.word.size(), slip.written);
  return text;
}

// As it had to be typed before words were found: each with its word, and a
// sentence whole.
std::string named(const Pupil& pupil) {
  std::string text;
  for (const Slip& slip : pupil.slips) {
    text += text.empty() ? "" : ", ";
    text += slip.sentence.empty()
                ? slip.word + ": " + slip.written
                : "\"" + slip.sentence + "\": \"" + with_slip(slip) + "\"";
  }
  return text;
}

std::string alone(const Pupil& pupil) {
  std::string text;
  for (const Slip& slip : pupil.slips) {
    text += (text.empty() ? "" : ", ") +
            (slip.unclear ? slip.word + "=" : std::string()) + slip.written;
  }
  return text;
}

TEST_F(Entering, TakesAtMostThreeHundredSignsForEighteenLearners) {
  ASSERT_EQ(run("record rain.yaml --class class.yaml --date 2026-03-13").status,
            0);
  const std::string form = record();
  std::string old_form = form, filled = form, lines;
  const auto fill = [](std::string& text, const std::string& after,
                       const std::string& put) {
    const std::size_t at = text.find(after);
    ASSERT_NE(at, std::string::npos) << after;
    text.insert(at + after.size(), put);
  };
  std::size_t old_signs = 3, signs = 3;  // `all` after `marked:`
  for (const Pupil& pupil : friday()) {
    lines += alone(pupil) + "\n";
    const std::string in_old = " {" + named(pupil) + "}";
    fill(old_form, "\n  " + pupil.code + ":", in_old);
    old_signs += in_old.size() - 3;  // the form had the braces
    if (pupil.slips.empty()) continue;
    const std::string put = " " + alone(pupil);
    fill(filled, "\n  " + pupil.code + ":", put);
    signs += put.size();
  }
  for (std::string* text : {&old_form, &filled}) {
    text->replace(text->find("marked: not yet"), 15, "marked: all");
  }
  folder_.write("named.yaml", old_form);
  folder_.write("alone.yaml", filled);
  RecordProperty("named", static_cast<int>(old_signs));
  RecordProperty("alone", static_cast<int>(signs));
  RecordProperty("entered", static_cast<int>(lines.size()));
  EXPECT_GE(old_signs, 480U);
  EXPECT_LE(signs, 300U);
  EXPECT_LE(lines.size(), 300U);
  // All three are marked the same.
  const std::string marked = marks("named.yaml");
  EXPECT_TRUE(marks("alone.yaml") == marked);
  fs::remove(folder_.path() + "/records/2026-03-13-rain.yaml");
  const Outcome typed = enter(lines);
  EXPECT_EQ(typed.status, 0) << typed.out;
  EXPECT_TRUE(marks("records/2026-03-13-rain.yaml") == marked) << record();
  EXPECT_NE(record().find("\nmarked: all\n"), std::string::npos) << record();
}

TEST_F(Entering, ShowsEachLineMarkedAndAsksWhatIsUnclear) {
  const Outcome typed = enter("rane\npay\n3\n/stop\n");
  EXPECT_EQ(typed.status, 0);
  EXPECT_NE(typed.out.find("rane for rain: ai written a_e"), std::string::npos)
      << typed.out;
  EXPECT_NE(typed.out.find("`pay`: 1 "), std::string::npos) << typed.out;
  EXPECT_NE(record().find("A1: rain=rane\n"), std::string::npos) << record();
  EXPECT_NE(record().find("marked: A1, A2\n"), std::string::npos) << record();
}

TEST_F(Entering, TakesBackSkipsAndLeavesOutTheAbsent) {
  const Outcome typed =
      enter("rane\n/undo\ntrane\n/absent\n/skip\nA9: plae\nB1:\npian\n/stop\n");
  EXPECT_EQ(typed.status, 0) << typed.out;
  const std::string text = record();
  EXPECT_NE(text.find("A1: train=trane\n"), std::string::npos) << text;
  EXPECT_EQ(text.find("rane,"), std::string::npos) << text;
  EXPECT_NE(text.find("absent: A2\n"), std::string::npos) << text;
  EXPECT_NE(text.find("A9: play=plae\n"), std::string::npos) << text;
  EXPECT_NE(text.find("B1: pain=pian\n"), std::string::npos) << text;
  EXPECT_EQ(text.find("  A3:"), std::string::npos) << text;
  EXPECT_NE(typed.out.find("nothing is said of A3"), std::string::npos)
      << typed.out;
}

// The last line can be taken back too, and anyone's changed, before the record
// is written.
TEST_F(Entering, AsksBeforeItWrites) {
  std::string lines;
  for (std::size_t i = 1; i < friday().size(); ++i) lines += "\n";
  const Outcome typed =
      enter(lines + "rane\n/undo\nplai\ndai\n/absent\nA1: trane\n\n");
  EXPECT_EQ(typed.status, 0) << typed.out;
  EXPECT_NE(record().find("B9: play=plai\n"), std::string::npos) << record();
  EXPECT_NE(record().find("A1: train=trane\n"), std::string::npos) << record();
  EXPECT_EQ(record().find("absent:"), std::string::npos) << record();
}

// Whoever stopped goes on with the same command: the rest stands beside it.
TEST_F(Entering, GoesOnWhereItStopped) {
  EXPECT_EQ(enter("rane\n/absent\n/stop\n").status, 0);
  const std::string first = record();
  EXPECT_EQ(enter("trane\n/stop\n").status, 0);
  std::string lines = "plai\n";
  for (std::size_t i = 4; i < friday().size(); ++i) lines += "\n";
  const Outcome rest = enter(lines);
  EXPECT_EQ(rest.status, 0) << rest.out;
  EXPECT_EQ(record(), first);
  const std::string second =
      file_bytes(folder_.path() + "/records/2026-03-13-rain-2.yaml");
  EXPECT_NE(second.find("A3: train=trane\n"), std::string::npos) << second;
  EXPECT_EQ(second.find("A1"), std::string::npos) << second;
  const std::string third =
      file_bytes(folder_.path() + "/records/2026-03-13-rain-3.yaml");
  EXPECT_NE(third.find("A4: play=plai\n"), std::string::npos) << third;
  // All are there now.
  EXPECT_EQ(enter("rane\n").status, 3);
  const Outcome marked = run("mark records --csv");
  EXPECT_EQ(marked.status, 0) << marked.out;
  EXPECT_NE(marked.out.find("A1,rain,rane,0,"), std::string::npos);
  EXPECT_NE(marked.out.find("A3,train,trane,0,"), std::string::npos);
}

// Whoever was skipped comes again after the others, and only once.
TEST_F(Entering, AsksForTheSkippedAtTheEnd) {
  std::string lines = "/skip\n";
  for (std::size_t i = 1; i < friday().size(); ++i) lines += "\n";
  const Outcome typed = enter(lines + "rane\n");
  EXPECT_EQ(typed.status, 0) << typed.out;
  EXPECT_NE(record().find("marked: all\n"), std::string::npos) << typed.out;
  EXPECT_NE(record().find("A1: rain=rane\n"), std::string::npos) << record();
}

TEST_F(Entering, LosesNothingAtTheEndOfTheInput) {
  const Outcome typed = enter("rane\nplai");
  EXPECT_EQ(typed.status, 0);
  EXPECT_NE(record().find("A2: play=plai\n"), std::string::npos) << typed.out;
  fs::remove(folder_.path() + "/records/2026-03-13-rain.yaml");
  const Outcome unclear = enter("rane\npay");
  EXPECT_NE(unclear.out.find("this line of A2 is left out: `pay`"),
            std::string::npos)
      << unclear.out;
  EXPECT_NE(unclear.out.find("the same command asks for them"),
            std::string::npos);
  fs::remove(folder_.path() + "/records/2026-03-13-rain.yaml");
  const Outcome nothing = enter("");
  EXPECT_EQ(nothing.status, 0);
  EXPECT_FALSE(fs::exists(folder_.path() + "/records/2026-03-13-rain.yaml"));
  EXPECT_NE(nothing.out.find("nothing was typed"), std::string::npos);
}

// Ctrl-C while it waits for the next line.
TEST_F(Entering, LosesNothingAtAnInterrupt) {
  // A shell shields what runs behind it from Ctrl-C, so it is told to end in
  // the other way. The pipe is closed then, so that nothing waits for ever.
  const std::string script =
      "cd " + folder_.path() + "; mkfifo pipe; " + SHEAF_PROGRAM +
      " record rain.yaml --class class.yaml --date 2026-03-13 --enter <pipe "
      ">said.txt 2>&1 & exec 3>" +
      folder_.path() + "/pipe; cd " + folder_.path() +
      "; echo rane >&3; for i in $(seq 100); do "
      "grep -q 'A2 (2' said.txt && break; sleep 0.1; done; kill -TERM $!; "
      "sleep 0.5; exec 3>&-; wait $!; echo code $?; cat said.txt";
  const Outcome stopped = run_program({"bash", "-c", script});
  EXPECT_NE(stopped.out.find("code 130"), std::string::npos) << stopped.out;
  EXPECT_NE(stopped.out.find("1 marked, 0 absent"), std::string::npos)
      << stopped.out;
  EXPECT_NE(record().find("A1: rain=rane\n"), std::string::npos) << record();
}

TEST_F(Entering, NeverTakesThePlaceOfAnotherFile) {
  fs::create_directory(folder_.path() + "/records");
  folder_.write("records/2026-03-13-rain.yaml", "mine\n");
  const Outcome refused = enter("rane\n");
  EXPECT_EQ(refused.status, 3) << refused.out;
  EXPECT_EQ(record(), "mine\n");
  // Before anything was typed, not after.
  EXPECT_EQ(refused.out.find("A1"), std::string::npos) << refused.out;
}

// A disk that takes nothing: what was typed stands on the screen.
TEST_F(Entering, ShowsWhatItCannotWrite) {
  folder_.write("typed.txt", "rane\n/stop\n");
  const Outcome full = run_program(
      {"bash", "-c",
       "cd " + folder_.path() + " && ulimit -f 0 && " + SHEAF_PROGRAM +
           " record rain.yaml --class class.yaml --date 2026-03-13 --enter "
           "<typed.txt"});
  EXPECT_EQ(full.status, 3) << full.out;
  EXPECT_NE(full.out.find("  A1: rain=rane\n"), std::string::npos) << full.out;
  EXPECT_FALSE(fs::exists(folder_.path() + "/records/2026-03-13-rain.yaml"));
}

// A learner goes, whatever form the errors have.
TEST_F(Entering, IsForgottenInEveryForm) {
  fs::create_directory(folder_.path() + "/records");
  folder_.write("records/one.yaml",
                "date: 2026-03-13\nlesson: rain.yaml\nclass: class.yaml\n"
                "marked: A1, A2\nwrong:\n  A1: rane, play=.\n  A2:\n"
                "  A3: [plai, {rain: rane}]\n  A4:\n    - dai\n    - pane\n"
                "  A5: plae\n");
  for (const char* code : {"A1", "A3", "A4"}) {
    const Outcome forgotten =
        run(std::string("forget ") + code + " --records records --yes");
    EXPECT_EQ(forgotten.status, 0) << forgotten.out;
  }
  EXPECT_EQ(file_bytes(folder_.path() + "/records/one.yaml"),
            "date: 2026-03-13\nlesson: rain.yaml\nclass: class.yaml\n"
            "marked: A2\nwrong:\n  A2:\n  A5: plae\n");
}

TEST_F(Entering, SaysWhatCannotBe) {
  EXPECT_EQ(run("record rain.yaml --class class.yaml --enter").status, 2);
  const Outcome typed =
      enter("rane, .\nr\x1b[Axne\nr\xff\nZ9: rane\nxqzzk\nrsuh=rus\n/blah\n");
  EXPECT_NE(typed.out.find("does not say which word was left blank"),
            std::string::npos)
      << typed.out;
  EXPECT_NE(typed.out.find("such as an arrow key leaves"), std::string::npos);
  EXPECT_NE(typed.out.find("Z9 is nobody on this list"), std::string::npos);
  EXPECT_NE(typed.out.find("no word that was dictated is near"),
            std::string::npos);
  EXPECT_NE(typed.out.find("the lesson does not dictate `rsuh`"),
            std::string::npos);
  EXPECT_NE(typed.out.find("there is no `/blah`"), std::string::npos);
}

// Several words of one sentence, a word that was left blank in it, and one that
// stands on the list and in a sentence.
TEST_F(Entering, PutsWordsIntoTheirSentences) {
  folder_.write("record.yaml",
                "date: 2026-03-13\nlesson: rain.yaml\nclass: class.yaml\n"
                "marked: A1, A2\nwrong:\n  A1: wate, will=., dey, dai\n"
                "  A2: {rain: rane}\n");
  const std::string marked = marks("record.yaml");
  for (const char* row :
       {"A1,wait,wate,0,", "A1,will,,0,", "A1,day,dey,0,", "A1,day,dai.,0,",
        "A1,The,The,1,", "A2,rain,rane,0,"}) {
    EXPECT_NE(marked.find(row), std::string::npos) << row << "\n" << marked;
  }
}

}  // namespace
}  // namespace sheaf::test
