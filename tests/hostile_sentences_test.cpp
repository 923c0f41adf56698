// Lists of sentences from strangers, beside a lesson that takes sentences from
// them: what is no list is refused with its place, and what is one costs
// little, however odd.

#include "hostile_cases.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::TemporaryFolder;

struct List {
  std::string name, text;
};

std::vector<List> refused_lists() {
  using namespace std::string_literals;
  return {
      {"a line of a megabyte", repeated("oa", 1 << 19)},
      {"a larger file than any list", repeated("A boat.\n", 140000)},
      {"16 MB", repeated("A boat.\n", 2 << 20)},
      {"a hundred thousand lines", repeated("\n", 100000)},
      {"NULs", "A b\0at.\n"s},
      {"a NUL at the start", "\0A boat.\n"s},
      {"broken UTF-8", "A boat.\nA c\xC3 oat.\n"},
      {"overlong UTF-8", "A b\xC0\xAFoat.\n"},
      {"UTF-16", "\xFF\xFE"s + "A\0 \0b\0o\0a\0t\0"s},
      {"bidi controls", "A \xE2\x80\xAEtaob.\n"},
      {"an unseen space", "A bo\xE2\x80\x8B"s + "at.\n"},
      {"a flood of combining marks",
       "A boa" + repeated("\xCC\x81", 5000) + "t.\n"},
      {"escape sequences", "A \x1B[31mboat.\n"},
      {"bullets on each line", repeated("- A boat.\n", 9000)},
      {"a lesson", "pattern: oa\nwords: boat\n"},
  };
}

std::vector<List> odd_lists() {
  return {
      {"nothing", ""},
      {"only line ends", repeated("\r\n", 9000)},
      {"only signs", repeated("~ ! ~\n", 9000)},
      {"only comments", repeated("# A boat.\n", 9000)},
      {"brackets", repeated("[", 20) + " A boat.\n"},
      {"the same sentence", repeated("A boat is on the road.\n", 9999)},
      {"words that nobody knows",
       [] {
         std::string text;
         for (int i = 0; i < 9000; ++i) {
           text += "A boat";
           for (int k = 0; k < 14; ++k) {
             text += " oa";
             for (int n = i * 14 + k; n > 0; n /= 26) {
               text += static_cast<char>('a' + n % 26);
             }
           }
           text += ".\n";
         }
         return text;
       }()},
      {"ten thousand sentences about boats",
       [] {
         std::string text;
         for (int i = 0; i < 9999; ++i) {
           text += "The boat";
           for (int n = i; n > 0; n /= 10) {
             constexpr const char* kWords[] = {
                 " goat", " coat", " road", " soap", " toast",
                 " load", " foam", " moat", " loaf", " oak"};
             text += kWords[n % 10];
           }
           text += ".\n";
         }
         return text;
       }()},
      {"a word of 300 letters", repeated("oa", 149) + ".\n"},
      {"signs for making text", "The %s {0} {} \\n `boat` $(owned).\n"},
  };
}

void put(const TemporaryFolder& folder, const List& list) {
  folder.write("lesson.yaml", "pattern: oa\n");
  folder.write("sentences.txt", list.text);
}

TEST(HostileSentences, AreRefused) {
  for (const List& list : refused_lists()) {
    SCOPED_TRACE(list.name);
    const TemporaryFolder folder;
    put(folder, list);
    const auto refused = [&](const std::vector<std::string>& call) {
      expect_refusal(folder, run_within_limits(folder, call), "sentences.txt:");
    };
    refused({"build", "lesson.yaml", "--out", "pages"});
    refused({"find", "oa", "--sentences"});
    refused({"draft", "oa", "--file", "owned"});
    folder.write("whole.yaml",
                 "pattern: oa\nwords: boat\nsentences: |\n  A boat zips by.\n");
    refused({"keep", "whole.yaml"});
    EXPECT_TRUE(read(folder.path() + "/sentences.txt") == list.text);
  }
}

TEST(HostileSentences, CostLittle) {
  for (const List& list : odd_lists()) {
    SCOPED_TRACE(list.name);
    const TemporaryFolder folder;
    put(folder, list);
    for (const std::vector<std::string>& call :
         {std::vector<std::string>{"check", "lesson.yaml"},
          {"find", "oa", "--sentences", "--count", "200"},
          {"check", "sentences.txt"}}) {
      const Outcome outcome = run_within_limits(folder, call);
      EXPECT_EQ(outcome.status, 0) << call[0] << outcome.out.substr(0, 600);
      EXPECT_LE(outcome.out.size(), 64U << 10) << "a flood of messages";
    }
  }
}

}  // namespace
}  // namespace sheaf::test
