// Class files, sequences, records and learners' texts from strangers: each
// means harm or is broken. The program ends with code 1 and a message that
// names the file and the place, within a small memory and a short time, shows
// no learner's name, and writes nothing.

#include <sys/stat.h>

#include "hostile_cases.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::TemporaryFolder;

constexpr const char* kLesson = "pattern: sh\nwords: ship shed fish\n";
constexpr const char* kClass = "lesson: lesson.yaml\nlearners: [B7, C3]\n";
constexpr const char* kSequence = "steps: [short i, sh]\n";
constexpr const char* kRecord =
    "date: 2026-03-12\nlesson: lesson.yaml\nclass: class.yaml\nmarked: all\n";
constexpr const char* kName = "Marguerite Oxley";  // invented

/// A kind of file and the commands that read it.
struct Kind {
  std::string file;
  std::vector<std::vector<std::string>> commands;
};

const Kind kClassKind = {
    "class.yaml",
    {{"build", "--class", "class.yaml", "--out", "pages"},
     {"review", "--class", "class.yaml", "--records", "record.yaml", "--week",
      "2026-04-06", "--out", "plan"}}};
const Kind kSequenceKind = {"sequence.yaml",
                            {{"check", "sequence.yaml"},
                             {"find", "sh", "--sequence", "sequence.yaml"}}};
const Kind kRecordKind = {
    "record.yaml",
    {{"mark", "record.yaml", "--pdf", "marks.pdf"},
     {"progress", "record.yaml", "--pdf", "progress.pdf"}}};
const Kind kTextKind = {"journal.txt",
                        {{"writing", "journal.txt", "--taught", "sh"}}};

// Where all commands read the file in the same way, one is enough.
Kind first_alone(const Kind& kind) {
  return {kind.file, {kind.commands.front()}};
}

struct Case {
  std::string name;
  std::string text;
  std::function<void(const TemporaryFolder&)> prepare = {};
};

void expect_refused(const Kind& kind, const Case& hostile) {
  SCOPED_TRACE(kind.file + ": " + hostile.name);
  const TemporaryFolder folder;
  folder.write("lesson.yaml", kLesson);
  folder.write("class.yaml", kClass);
  folder.write("record.yaml", kRecord);
  folder.write(kind.file, hostile.text);
  if (hostile.prepare) hostile.prepare(folder);
  for (const auto& command : kind.commands) {
    SCOPED_TRACE(command.front());
    const auto outcome = run_within_limits(folder, command);
    expect_refusal(folder, outcome, kind.file + ":");
    EXPECT_EQ(outcome.out.find("Marguerite"), std::string::npos) << outcome.out;
    EXPECT_FALSE(fs::exists(folder.path() + "/pages"));
    EXPECT_FALSE(fs::exists(folder.path() + "/plan"));
  }
}

void expect_refused(const Kind& kind, const std::vector<Case>& cases) {
  for (const Case& hostile : cases) expect_refused(kind, hostile);
}

// What is wrong with any file of keys; `key` takes a text.
std::vector<Case> byte_cases(const std::string& good, const std::string& key) {
  using namespace std::string_literals;
  return {
      {"empty", ""},
      {"deep lists", good + key + ": " + repeated("[", 20000)},
      {"deep maps", good + key + ": " + repeated("{a: ", 20000)},
      {"lists 200 deep", good + key + ": " + repeated("[", 200) + "x" +
                             repeated("]", 200) + "\n"},
      {"alias bomb", alias_bomb(good)},
      {"one scalar of a megabyte",
       good + key + ": " + repeated("x", 1 << 20) + "\n"},
      {"half a megabyte in quotes",
       good + key + ": \"" + repeated("x", 1 << 19) + "\"\n"},
      {"a larger file than any", good + repeated("# x\n", 3 << 20)},
      {"a hundred thousand keys", good + numbered("k", 100000, ": x\n")},
      {"a NUL", good + key + ": a\0b\n"s},
      {"broken UTF-8", good + key + ": a\xC3 b\xFF\n"},
      {"UTF-16", "\xFF\xFEl\0e\0a\0r\0n\0e\0r\0s\0:\0"s},
      {"bidi controls", good + key +
                            ": a \xE2\x80\xAE"
                            "b\n"},
      {"bidi controls by a backslash", good + key + ": \"a \\u202e b\"\n"},
      {"a flood of combining marks",
       good + key + ": a" + repeated("\xCC\x81", 5000) + "\n"},
      {"a tag that makes objects", good + key + ": !!python/object:os x\n"},
      {"two documents", good + "---\n" + good},
      {"the same key twice", good + key + ": x\n" + key + ": y\n"},
      {"a key that is none", good + "$(touch owned): x\n"},
      {"a version that nobody knows", good + "sheaf: 99999999999999999999\n"},
  };
}

std::vector<Case> class_cases() {
  const std::string lesson = "lesson: lesson.yaml\n";
  const auto learner = [&](const std::string& settings) {
    return lesson + "learners:\n  B7: {" + settings + "}\n";
  };
  return {
      {"100,000 learners",
       lesson + "learners: [" + numbered("L", 100000, ", ") + "B7]\n"},
      {"4,000 learners with settings",
       lesson + "learners:\n" + numbered("  L", 4000, ": {amount: 3}\n")},
      {"5,000 groups that nobody is in, asked for wrongly",
       lesson + "groups:\n" + numbered("  group ", 4900, ": {amount: 3}\n") +
           "learners:\n" + numbered("  L", 100, ": {group: gruop}\n")},
      {"100,000 words to review",
       learner("review-words: " + many_words(100000, "sh"))},
      {"1,000 words to review for each learner",
       lesson + "review-words: " + many_words(1000, "sh") + "\nlearners: [" +
           numbered("L", 100, ", ") + "B7]\n"},
      {"no learners", lesson + "learners: []\n"},
      {"an emoji as code", lesson + "learners: [\xF0\x9F\x90\x9F]\n"},
      {"a path as code", lesson + "learners: [../B7]\n"},
      {"a command as code", lesson + "learners: [$(touch owned)]\n"},
      {"a code of marks", lesson + "learners: [\"\xCC\x81\"]\n"},
      {"codes that differ in capitals alone", lesson + "learners: [b7, B7]\n"},
      {"a negative amount", learner("amount: -6")},
      {"no amount", learner("amount: 0")},
      {"an amount out of range", learner("amount: 99999999999999999999")},
      {"a negative size", learner("line-size: -8 mm")},
      {"no size", learner("line-size: 0 mm")},
      {"a size out of range", learner("line-size: 1e30 mm")},
      {"not a number", learner("line-size: nan mm")},
      {"a sheet that is none", learner("extra: [../../etc/passwd]")},
      {"weeks out of range", lesson + "review-weeks: 0, -1\nlearners: [B7]\n"},
      {"a week without end",
       lesson + "review-weeks: 99999999999\nlearners: [B7]\n"},
      {"days that are none",
       lesson + "no-school: " + repeated("2026-02-31, ", 1000) +
           "\nlearners: [B7]\n"},
  };
}

// Files that a learner's settings name; the other verbs do not look for them.
std::vector<Case> path_cases(const std::string& before,
                             const std::string& after) {
  const auto named = [&](const std::string& file) {
    return before + file + after;
  };
  const auto link = [](const std::string& to) {
    return [to](const TemporaryFolder& folder) {
      fs::create_symlink(to, folder.path() + "/other.yaml");
    };
  };
  return {
      {"a path that climbs out", named("../other.yaml")},
      {"a path that climbs out by a folder", named("a/../../other.yaml")},
      {"an absolute path", named("/etc/passwd")},
      {"a device", named("/dev/zero")},
      {"a file that is not there", named("none.yaml")},
      {"a link out of the folder", named("other.yaml"), link("/etc/passwd")},
      {"a link to a device", named("other.yaml"), link("/dev/zero")},
      {"a link to itself", named("other.yaml"), link("other.yaml")},
      {"a pipe", named("other.yaml"),
       [](const TemporaryFolder& folder) {
         ASSERT_EQ(mkfifo((folder.path() + "/other.yaml").c_str(), 0600), 0);
       }},
      {"a folder", named("other.yaml"),
       [](const TemporaryFolder& folder) {
         fs::create_directory(folder.path() + "/other.yaml");
       }},
      {"an address", named("http://lessons.example/a.yaml")},
      {"a command", named("$(touch owned).yaml")},
  };
}

// Wherever a name stands, and whatever else is wrong with its line.
std::vector<Case> class_names() {
  const std::string name = kName;
  const std::string lesson = "lesson: lesson.yaml\n";
  return {
      {"a name as code", lesson + "learners:\n  " + name + ":\n"},
      {"a name in a list", lesson + "learners: [B7, " + name + "]\n"},
      {"a name in lines", lesson + "learners:\n  - B7\n  - " + name + "\n"},
      {"a name with settings",
       lesson + "learners:\n  " + name + ": {amount: -3, layuot: x}\n"},
      {"a name beside other faults",
       lesson + "learners: {" + name + ": {}, B7: {amount: -3, grp: x}}\n"},
      {"two names in two lines",
       lesson + "learners: [" + name + ",\n  Tom " + name + "]\n"},
      {"the same name twice", lesson + "learners: [" + name + ", B7, b7]\n"},
      {"every learner by name",
       lesson + "learners:\n" + numbered("  " + name + " ", 1000, ":\n")},
  };
}

std::vector<Case> sequence_cases() {
  const auto steps = [](const std::string& text) {
    return "steps:\n  - {patterns: sh, " + text + "}\n";
  };
  return {
      {"100,000 steps", "steps: [" + repeated("sh, ", 100000) + "ch]\n"},
      {"4,000 steps", "steps:\n" + repeated("  - {patterns: sh}\n", 4000)},
      {"100,000 patterns",
       "steps:\n  - \"" + repeated("sh, ", 100000) + "\"\n"},
      {"100,000 sight words", steps("sight-words: " + many_words(100000, "x"))},
      {"no steps", "steps: []\n"},
      {"a negative step", steps("number: -1")},
      {"step zero", steps("number: 0")},
      {"a step out of range", steps("number: 99999999999999999999")},
      {"steps that run backwards",
       "steps:\n  - {number: 9, patterns: sh}\n  - {number: 2}\n"},
      {"a number as name", steps("name: 7")},
      {"a pattern that is none", "steps: [" + repeated("q", 3000) + "]\n"},
      {"emoji as sight words", steps("sight-words: \xF0\x9F\x90\x9F")},
      {"weeks out of range",
       "review-weeks: 4, 2, 999999999999\n" + std::string(kSequence)},
      {"a step inside a step", "steps: [[sh]]\n"},
  };
}

std::vector<Case> record_cases() {
  const std::string head = kRecord;
  const std::string open = "date: 2026-03-12\nlesson: lesson.yaml\nwritten:\n";
  std::string attempts = open, sentences = open;
  for (int learner = 0; learner < 10; ++learner) {
    const std::string code = "  L" + std::to_string(learner) + ":\n";
    attempts += code;
    sentences += code;
    for (int i = 0; i < 4000; ++i) {
      attempts +=
          "    sh" + std::to_string(i) + "x" + code.substr(2, 2) + ": x\n";
    }
    for (int i = 0; i < 100; ++i) {
      sentences += "    ship" + many_words(1, std::string(i + 1, 'x')) +
                   repeated(" ship", 75) + ": " + repeated("a b ", 120) + "\n";
    }
  }
  return {
      {"100,000 records",
       head + "records:\n" + repeated("  - {date: 2026-03-12}\n", 100000)},
      {"600 records", head.substr(head.find("lesson")) + "records:\n" +
                          repeated("  - {date: 2026-03-12}\n", 600)},
      {"a class of 100 marked 480 times over",
       "lesson: lesson.yaml\nmarked: [" + numbered("L", 99, ", ") +
           "B7]\nrecords:\n" + repeated("  - {date: 2026-03-12}\n", 480),
       [](const TemporaryFolder& folder) {
         folder.write("lesson.yaml",
                      "pattern: sh\ndictate-words: ship shed fish shop wish "
                      "rush cash mesh dish shut shin shelf\n");
       }},
      {"100,000 learners",
       head + "wrong:\n" + numbered("  L", 100000, ": {ship: x}\n")},
      {"4,000 learners",
       head + "wrong:\n" + numbered("  L", 4000, ": {ship: x}\n")},
      {"40,000 attempts", attempts},
      {"1,000 long sentences", sentences},
      {"an attempt of half a megabyte",
       head + "wrong: {B7: {ship: " + repeated("sh", 1 << 18) + "}}\n"},
      {"a day that is none", "date: 2026-02-30\n" + head.substr(17)},
      {"a day before all days", "date: 0000-00-00\n" + head.substr(17)},
      {"a day of arithmetic", "date: 9999999999\n" + head.substr(17)},
      {"more right than there were", head + "writing: {B7: {sh: 9/3}}\n"},
      {"a negative count", head + "writing: {B7: {sh: -1/3}}\n"},
      {"a count out of range",
       head + "writing: {B7: {sh: 1/99999999999999999999}}\n"},
      {"a kind that is none", head + "kind: $(touch owned)\n"},
      {"an emoji as code", head + "absent: [\xF0\x9F\x90\x9F]\n"},
      {"a path as code", head + "wrong: {../B7: {ship: x}}\n"},
  };
}

std::vector<Case> record_names() {
  const std::string head = kRecord, name = kName;
  return {
      {"a name under wrong", head + "wrong:\n  " + name + ": {ship: x}\n"},
      {"a name beside other faults",
       head + "written: {" + name + ": {ship: x}, B7: [ship]}\n"},
      {"a name among the absent", head + "absent: B7, " + name + "\n"},
      {"a name among the marked",
       head.substr(0, head.find("marked")) + "marked: [" + name + "]\n"},
      {"a name with a count", head + "writing: {" + name + ": {sh: 9/3}}\n"},
      {"a name in a list of records",
       head.substr(head.find("lesson")) +
           "records:\n  - {date: 2026-03-12, wrong: {" + name +
           ": {ship: x}, B7: {ship: [x]}}}\n"},
  };
}

std::vector<Case> text_cases() {
  using namespace std::string_literals;
  return {
      {"a larger text than any", repeated("the ship ", 1 << 18)},
      {"100,000 words that nobody knows", many_words(100000, "zq")},
      {"a NUL", "the sh\0ip\n"s},
      {"broken UTF-8", "the sh\xC3 ip\xFF\n"},
      {"overlong UTF-8", "the sh\xC0\xAFip\n"},
      {"UTF-16", "\xFF\xFEs\0h\0i\0p\0"s},
      {"bidi controls", "the \xE2\x80\xAEship\n"},
      {"a flood of combining marks",
       "the s" + repeated("\xCC\x81", 5000) + "hip\n"},
      {"signs for a terminal", "the shep{=ship\x1B[2J}\n"},
  };
}

TEST(Hostile, ClassesAreRefused) {
  expect_refused(kClassKind, class_names());
  const Kind build = first_alone(kClassKind);
  expect_refused(build, byte_cases(kClass, "title"));
  expect_refused(build, class_cases());
  for (const char* key : {"lesson", "layout", "sequence"}) {
    const std::string lesson =
        key == std::string("lesson") ? "" : "lesson: lesson.yaml\n";
    expect_refused(
        build,
        path_cases(lesson + "learners:\n  B7:\n    " + key + ": ", "\n"));
  }
}

TEST(Hostile, SequencesAreRefused) {
  expect_refused(first_alone(kSequenceKind), byte_cases(kSequence, "note"));
  expect_refused(kSequenceKind, sequence_cases());
  expect_refused(
      first_alone(kSequenceKind),
      {{"an accent that is none", "accent: ../x\n" + std::string(kSequence)},
       {"a convention that is none",
        "conventions: {qu: -1}\n" + std::string(kSequence)}});
}

TEST(Hostile, RecordsAreRefused) {
  expect_refused(kRecordKind, record_names());
  const Kind mark = first_alone(kRecordKind);
  expect_refused(mark, byte_cases(kRecord, "note"));
  expect_refused(mark, record_cases());
  expect_refused(mark,
                 path_cases("date: 2026-03-12\nmarked: B7\nlesson: ", "\n"));
}

// What cannot be read may have the learner, so `forget` does nothing then. Only
// a file that is empty has nobody.
TEST(Hostile, ForgetDoesNothingWhereOneIsRefused) {
  const auto expect_nothing_done = [](const std::string& file,
                                      std::vector<Case> cases) {
    std::erase_if(cases, [](const Case& one) { return one.text.empty(); });
    expect_refused({file,
                    {{"forget", "B7", "--records", "record.yaml", "--class",
                      "class.yaml", "--yes"}}},
                   cases);
  };
  expect_nothing_done("class.yaml", byte_cases(kClass, "title"));
  expect_nothing_done("class.yaml", class_cases());
  expect_nothing_done("class.yaml", class_names());
  expect_nothing_done("record.yaml", byte_cases(kRecord, "note"));
  expect_nothing_done("record.yaml", record_names());
}

TEST(Hostile, TextsAreRefused) { expect_refused(kTextKind, text_cases()); }

// What the command line names is not looked for in a folder, but it must be a
// file: nothing waits for a pipe or reads a device to its end.
TEST(Hostile, NoPipeHoldsSheafUp) {
  const TemporaryFolder folder;
  ASSERT_EQ(mkfifo((folder.path() + "/pipe.yaml").c_str(), 0600), 0);
  fs::create_symlink("/dev/zero", folder.path() + "/zero.yaml");
  for (const char* file : {"pipe.yaml", "zero.yaml", "."}) {
    for (const std::vector<std::string>& command :
         std::vector<std::vector<std::string>>{
             {"build", "--class", file, "--out", "pages"},
             {"check", file},
             {"find", "sh", "--sequence", file},
             {"mark", "--pairs", file},
             {"writing", file, "--taught", "sh"}}) {
      const auto outcome = run_within_limits(folder, command);
      EXPECT_EQ(outcome.status, 3) << command.front() << ": " << outcome.out;
      EXPECT_NE(outcome.out.find("it is not a file"), std::string::npos)
          << outcome.out;
    }
  }
}

// The limits are far above what is in use: a term of a class, and a text as
// long as a story, pass.
TEST(Hostile, LargeWorkOfATeacherPasses) {
  const TemporaryFolder folder;
  folder.write("lesson.yaml",
               "pattern: sh\nwords: ship shed fish shop wish rush cash mesh\n");
  folder.write("class.yaml", "lesson: lesson.yaml\nlearners: [" +
                                 numbered("L", 29, ", ") + "B7]\n");
  std::string record = "lesson: lesson.yaml\nclass: class.yaml\nmarked: [" +
                       numbered("L", 29, ", ") + "B7]\nrecords:\n";
  for (int day = 10; day < 22; ++day) {
    record += "  - date: 2026-03-" + std::to_string(day) +
              "\n    wrong: {B7: {ship: sip, shed: sed}, L3: {fish: fis}}\n";
  }
  folder.write("record.yaml", record);
  folder.write("story.txt", repeated("A ship is on the sea. I wish I had a "
                                     "fisch and a shep.\n",
                                     20));
  for (const std::vector<std::string>& command :
       std::vector<std::vector<std::string>>{
           {"mark", "record.yaml"},
           {"progress", "record.yaml"},
           {"writing", "story.txt", "--taught", "sh"}}) {
    const auto outcome = run_within_limits(folder, command);
    EXPECT_EQ(outcome.status, 0) << outcome.out.substr(0, 600);
  }
}

}  // namespace
}  // namespace sheaf::test
