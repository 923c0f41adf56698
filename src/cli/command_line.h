#pragma once

#include <optional>
#include <string>
#include <vector>

namespace sheaf {

/// What the user asked for. Read once, then read-only.
struct CommandLine {
  std::string verb;
  /// How the program was called, for commands that it prints to be copied.
  std::string program = "sheaf";
  /// Lesson files, words, names: whatever the verb takes.
  std::vector<std::string> arguments;

  std::string out = "out";
  std::string layout;  ///< a layout's name or file; empty: the lesson's own
  std::string paper;   ///< empty: the layout's own
  std::vector<std::string> only;
  std::string class_file;
  std::vector<std::string> learners;  ///< codes; empty: all of the class
  std::vector<std::string> allowed_folders;
  std::string dependency_file;
  std::string pdf_file;  ///< where a contact sheet goes

  /// Of `preview`.
  struct Preview {
    std::string file;                ///< empty: beside the packet
    std::vector<std::string> pages;  ///< their numbers; empty: all
    int dpi = 0;                     ///< 0: as a screen has room
    bool teacher = false;
    bool strip = false;
  } preview;
  bool separate = false;
  bool page = false;       ///< of watch: pages in a browser
  bool if_needed = false;  ///< leave what is up to date
  int jobs = 0;            ///< lessons worked on at once; 0: a core each
  int workers() const;     ///< the same, 1 or more
  bool json = false;
  bool fix = false;         ///< put right what is certain
  bool no_sandbox = false;  ///< keep rights that the verb does not need
  /// How sounds are said, counted and written; empty: the default.
  std::string accent, count, notation;

  /// Of the verbs that work with records of what learners wrote.
  struct Marking {
    std::string class_file;
    std::string records;  ///< a folder of records
    std::string pairs;    ///< a file of targets and attempts, - for stdin
    std::string pdf;      ///< the PDF file to write
    bool csv = false;
    bool enter = false;  ///< a record is typed in, learner by learner
    std::vector<std::string> confusions;  ///< sounds not told apart, "th/f"
    std::vector<std::string> speech;      ///< ways of speaking, "th-f"
    std::vector<std::string> learners;    ///< these only
    std::string date, kind, group;
    std::string sequence, step;
    std::vector<std::string> taught;
    std::vector<std::string> rules;      ///< "secure-days=4"
    std::string rate = "1.0";            ///< of the goal line, a week
    std::string goal_date;               ///< empty: as the class file says
    int goal = 0;                        ///< letter sequences; 0: by the rate
    std::string reader;                  ///< "teacher", "home" or "meeting"
    std::string out;                     ///< the folder for a week's files
    std::vector<std::string> decisions;  ///< of `week`: "Red=stay"
    bool yes = false;
  } marking;

  /// Of the verbs that look for words or write lesson files.
  struct Planning {
    std::string sequence;  ///< a sequence file; empty: the one that lies there
    std::string step;      ///< a step's number or name
    std::string contrast;  ///< another pattern
    std::string file;      ///< the file to write, or the list of blocked words
    int count = 0;         ///< 0: what the verb usually gives
    std::string own;       ///< the teacher's sentences; empty: those here
    std::string syllables, letters;  ///< "2" or "1-3"
    bool pictures = false;
    bool pseudo = false;
    bool sentences = false;
    bool passages = false;
    std::string readers;
    bool later_set = false;
    bool older = false;
    bool rude = false;
    std::vector<std::string> lessons;  ///< whose words are left out
    int forms = 0;                     ///< of a probe; 0: the usual number
    std::string seed = "1";            ///< of a probe
    std::string folder;                ///< where its forms go
  } planning;
};

/// What the command line offers, for the manual page and completions.
struct OptionNote {
  std::string name;   ///< "--out"
  std::string value;  ///< "TEXT"; empty for a flag
  std::string about;
};
struct VerbNote {
  std::string name, about;
  std::string arguments;  ///< "LESSON"; empty where it takes none
  std::vector<OptionNote> options;
  std::string more;  ///< whole lines that stand below the options
};
std::vector<VerbNote> verb_notes();

/// Reads the command line. Where it asks for help or the version, or is wrong,
/// prints that and gives the exit code instead: 0, or 2.
std::optional<CommandLine> read_command_line(int argc, char** argv,
                                             int& exit_code);

}  // namespace sheaf
