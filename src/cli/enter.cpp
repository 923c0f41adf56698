// `sheaf record --enter`: Friday's errors, a line a learner, each marked as it
// is typed.

#include "cli/enter.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <deque>
#include <optional>

#include "base/error.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/new_file.h"
#include "driver/record_targets.h"
#include "files/disk_files.h"
#include "files/interrupt.h"
#include "files/surroundings.h"
#include "input/record_attempts.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

constexpr std::string_view kHow =
    "Type what is wrong, with commas between: fis, rus. Enter alone: "
    "everything "
    "is right.\nword=attempt says which word, word=. a blank. CODE: goes to "
    "another learner.\n/absent, /skip (comes again at the end), /undo, /stop "
    "(writes what there is), /help\n";

constexpr std::string_view kAtEnd =
    "Enter writes the record; /undo takes the last back, CODE: goes to a "
    "learner:";

// What is known of one learner.
struct Entered {
  enum class State { not_yet, wrote, absent };
  State state = State::not_yet;
  std::vector<Attempt> attempts;  ///< each with its word
  int skips = 0;                  ///< whoever is skipped twice is left out
};

// The commands may be cut short.
std::string_view command_of(std::string_view line) {
  for (const std::string_view name :
       {"/absent", "/skip", "/undo", "/stop", "/help"}) {
    if (line.size() > 1 && name.starts_with(line)) return name;
  }
  return {};
}

class Entering {
 public:
  explicit Entering(const EnterRequest& request)
      : request_(request),
        items_(request.lesson.items),
        options_(request.desk.options_of(&request.pupils)),
        learners_(request.codes.size()) {}

  // Until all are done, the input ends or an interrupt comes.
  void run() {
    fmt::print("{}", kHow);
    if (request_.others_there) {
      fmt::print("The others are in a record already. Left: {}\n",
                 codes_text(request_.codes));
    }
    for (;;) {
      const auto learner = next_learner();
      at_end_ = !learner;
      if (learner) {
        at_ = *learner;
        fmt::print("{} ({} of {}): ", request_.codes[at_].text(), done() + 1,
                   learners_.size());
      } else {
        fmt::print("{} ", kAtEnd);
      }
      std::fflush(stdout);
      const auto line = lines_.next();
      if (!line) break;
      const std::string typed(trimmed(*line));
      if ((at_end_ && typed.empty()) || !take(typed)) break;
    }
    fmt::print("\n");
  }

  std::size_t done() const { return count(Entered::State::not_yet, false); }
  bool all_done() const { return done() == learners_.size(); }
  std::size_t count(Entered::State state, bool same = true) const {
    std::size_t number = 0;
    for (const Entered& one : learners_) {
      if ((one.state == state) == same) ++number;
    }
    return number;
  }

  std::string record_text() const {
    std::string marked, absent, wrong;
    for (std::size_t i = 0; i < learners_.size(); ++i) {
      const std::string& code = request_.codes[i].text();
      if (learners_[i].state == Entered::State::absent) {
        absent += (absent.empty() ? "" : ", ") + code;
      } else if (learners_[i].state == Entered::State::wrote) {
        marked += (marked.empty() ? "" : ", ") + code;
        wrong += wrong_line(request_.codes[i], learners_[i].attempts);
      }
    }
    std::string text = fmt::format(
        "# What was written: errors only, each with its word. Everything else "
        "counts as\n# right for those who are marked.\n# Dictated:\n{}{}",
        dictated_lines(request_.lesson), head_text(request_.head));
    if (!marked.empty()) {
      const bool all = all_done() && !request_.others_there;
      text += fmt::format("marked: {}\n", all ? "all" : marked);
    }
    if (!absent.empty()) text += fmt::format("absent: {}\n", absent);
    if (!wrong.empty()) text += "wrong:\n" + wrong;
    return text;
  }

  // Those whom nothing was typed for.
  std::string left_out() const {
    std::vector<LearnerCode> codes;
    for (std::size_t i = 0; i < learners_.size(); ++i) {
      if (learners_[i].state == Entered::State::not_yet) {
        codes.push_back(request_.codes[i]);
      }
    }
    return codes_text(codes);
  }

 private:
  static bool is_control(char c) {
    return (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7F;
  }

  static std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t") + 1 - first);
  }

  // The one who was asked for by code, else the next in the order of the class,
  // those who were skipped last.
  std::optional<std::size_t> next_learner() {
    if (asked_for_) {
      const auto asked = asked_for_;
      asked_for_.reset();
      return asked;
    }
    for (const int skips : {0, 1}) {
      for (std::size_t i = 0; i < learners_.size(); ++i) {
        const Entered& one = learners_[i];
        if (one.state == Entered::State::not_yet && one.skips == skips) {
          return i;
        }
      }
    }
    return std::nullopt;
  }

  // False where it is time to stop.
  bool take(std::string line) {
    if (find_bad_utf8(line) || std::ranges::any_of(line, is_control)) {
      say("there are signs in this line that cannot stand in a record, such as "
          "an arrow key leaves. The line again:");
      asked_for_ = at_;
      return true;
    }
    if (line.starts_with('/')) {
      const std::string_view command = command_of(line);
      if (command == "/stop") return false;
      obey(command, line);
      return true;
    }
    if (const std::size_t colon = line.find(':'); colon != std::string::npos) {
      const auto code = LearnerCode::read(line.substr(0, colon));
      const auto known = code ? std::ranges::find(request_.codes, *code)
                              : request_.codes.end();
      if (known != request_.codes.end()) {
        at_ = static_cast<std::size_t>(known - request_.codes.begin());
        at_end_ = false;
        line = std::string(trimmed(std::string_view(line).substr(colon + 1)));
        if (line.empty()) {
          asked_for_ = at_;
          return true;
        }
      } else if (code) {
        say(fmt::format("{} is nobody on this list; it has {}",
                        printable(code->text()), codes_text(request_.codes)));
        return true;
      }
    }
    // At the end nobody is asked for, so whose errors are these?
    if (!at_end_) read_attempts(line);
    return true;
  }

  void obey(std::string_view command, const std::string& line) {
    if (at_end_ && command != "/undo" && command != "/help") return;
    if (command == "/absent") {
      set({Entered::State::absent, {}});
      say("absent");
    } else if (command == "/skip") {
      ++learners_[at_].skips;
      say("skipped for now");
    } else if (command == "/undo") {
      undo();
    } else if (command == "/help") {
      fmt::print("{}", kHow);
    } else {
      say(fmt::format("there is no {}; /help says what there is",
                      sheaf::quoted(line)));
    }
  }

  void undo() {
    if (before_.empty()) {
      say("there is nothing to undo");
      return;
    }
    const auto [learner, state] = std::move(before_.back());
    before_.pop_back();
    learners_[learner] = state;
    asked_for_ = learner;
    say(fmt::format("what was typed for {} is taken back",
                    request_.codes[learner].text()));
  }

  void set(Entered entered) {
    before_.emplace_back(at_, learners_[at_]);
    entered.skips = learners_[at_].skips;
    learners_[at_] = std::move(entered);
  }

  static void say(std::string_view text) { fmt::print("  {}\n", text); }

  // Words for what is typed; what is unclear is asked, and the whole line comes
  // again where the answer is none.
  void read_attempts(const std::string& line) {
    asked_for_ = at_;
    Diagnostics faults;
    const SourceFile& file = files_.emplace_back("what was typed", line);
    const PlacedText text(
        line, {&file, 0, static_cast<std::uint32_t>(line.size())}, {{0, 0}});
    OfLearner<Attempt> wrong{{request_.codes[at_], {}},
                             read_attempt_list(text, "the line", faults)};
    if (faults.has_errors()) {
      for (const Diagnostic* d : faults.sorted()) {
        say(fmt::format("{}; {}", d->text, d->help));
      }
      return;
    }
    RecordTargets targets = find(wrong);
    while (!targets.unclear.empty()) {
      if (!ask(targets.unclear.front(), wrong)) return;
      targets = find(wrong);
    }
    const SessionResult session =
        mark_session(targets.record, {}, items_, request_.desk.spellings(),
                     request_.desk.phonics(), options_);
    if (!is_dictated(session)) return;
    asked_for_.reset();
    for (Attempt& attempt : wrong.entries) name_word(targets, attempt);
    set({Entered::State::wrote, wrong.entries});
    show(session);
  }

  // A check may be about words of no lesson.
  bool is_dictated(const SessionResult& session) const {
    if (request_.head.kind != "dictation" || session.not_dictated.empty()) {
      return true;
    }
    std::vector<std::string_view> words;
    for (const DictatedItem& item : items_) {
      for (const Reading& reading : item.words) words.push_back(reading.word);
    }
    const std::string& other = session.not_dictated[0].text();
    const std::string help = did_you_mean(other, words).text;
    say(fmt::format("the lesson does not dictate {}{}{}. The line again:",
                    sheaf::quoted(other), help.empty() ? "" : "; ", help));
    return false;
  }

  RecordTargets find(const OfLearner<Attempt>& wrong) const {
    return find_targets(wrong, items_, request_.desk.spellings(), options_);
  }

  static void name_word(const RecordTargets& targets, Attempt& attempt) {
    for (const FoundTarget& found : targets.found) {
      if (!attempt.names_target() &&
          found.written.span() == attempt.written.span()) {
        attempt.target = PlacedText::chosen(found.word, attempt.written.span());
      }
    }
  }

  // Asks which word an attempt was meant for and puts it into `wrong`. False
  // where there is no answer.
  bool ask(const UnclearTarget& unclear, OfLearner<Attempt>& wrong) {
    const auto meant =
        std::ranges::find_if(wrong.entries, [&](const Attempt& attempt) {
          return attempt.written.span() == unclear.written.span() ||
                 attempt.target.span() == unclear.written.span();
        });
    const UnclearText said = unclear_text(unclear);
    if (meant == wrong.entries.end() || meant->names_target() ||
        unclear.words.empty() || unclear.why == UnclearTarget::Why::taken ||
        unclear.why == UnclearTarget::Why::in_sentence) {
      say(fmt::format("{}; {}. The line again:", said.text, said.help));
      return false;
    }
    if (unclear.why == UnclearTarget::Why::right) say(said.text);
    std::string choices;
    for (std::size_t i = 0; i < unclear.words.size(); ++i) {
      choices += fmt::format("{}{} {}", i == 0 ? "" : ", ", i + 1,
                             printable(unclear.words[i]));
    }
    fmt::print("  {}: {}? (a number, a word, or Enter for the line again) ",
               sheaf::quoted(unclear.written.text()), choices);
    std::fflush(stdout);
    const auto line = lines_.next();
    if (!line) {
      fmt::print("\n");
      say(fmt::format("there is no answer, so this line of {} is left out: {}",
                      request_.codes[at_].text(),
                      sheaf::quoted(files_.back().text())));
      return false;
    }
    const std::string answer(trimmed(*line));
    if (answer.empty()) return false;
    std::string word = answer;
    if (answer.size() == 1 && answer[0] >= '1' && answer[0] <= '9') {
      const auto number = static_cast<std::size_t>(answer[0] - '1');
      if (number >= unclear.words.size()) {
        say("there is no such number. The line again:");
        return false;
      }
      word = unclear.words[number];
    }
    meant->target = PlacedText::chosen(word, meant->written.span());
    return true;
  }

  // How the line is marked.
  static void show(const SessionResult& session) {
    Share words;
    LetterSequences sequences;
    for (const LearnerResult& learner : session.learners) {
      for (const SessionWord& word : learner.words) {
        const MarkedAttempt& a = word.attempt;
        words += {word.right() ? 1 : 0, 1};
        sequences += a.sequences;
        if (word.right()) continue;
        const DictatedItem& item = session.items[word.item];
        say(fmt::format("{} for {}{}: {}", a.blank ? "." : printable(a.written),
                        printable(a.target),
                        item.sentence
                            ? fmt::format(" in {}", sheaf::quoted(item.text))
                            : std::string(),
                        printable(faults_text(word.kind, a))));
      }
      for (const ExtraWord& extra : learner.extra_words) {
        say(fmt::format("{}: {}", printable(extra.written), kNotDictatedWord));
      }
    }
    say(fmt::format("{}words {}, letter sequences {} of {}",
                    words.right == words.of ? "everything is right: " : "",
                    words.text(), sequences.correct, sequences.possible));
  }

  const EnterRequest& request_;
  std::vector<DictatedItem> items_;
  MarkingOptions options_;
  std::vector<Entered> learners_;
  std::deque<SourceFile> files_;  ///< the lines that were typed
  std::vector<std::pair<std::size_t, Entered>> before_;
  std::optional<std::size_t> asked_for_;
  std::size_t at_ = 0;
  bool at_end_ = false;
  InputLines lines_;
};

// The name that was meant, or the next free one beside it.
FilePath write_beside(const FilePath& target, const std::string& text) {
  FilePath name = target;
  for (int number = 2; !write_new_file(disk(), name, text); ++number) {
    name = name_beside(target, number);
  }
  return name;
}

}  // namespace

int enter_record(const EnterRequest& request, const FilePath& target) {
  const CatchInterrupts caught;
  Entering entering(request);
  entering.run();
  const bool interrupted = CatchInterrupts::came();
  const int code = interrupted ? kInterrupted : kDone;
  if (interrupted) fmt::print(stderr, "sheaf: interrupted\n");
  if (entering.done() == 0) {
    fmt::print("nothing was typed, so no record is written\n");
    return code;
  }
  const std::string text = entering.record_text();
  FilePath written;
  try {
    written = write_beside(target, text);
  } catch (const MachineError&) {
    // What someone has typed is not to be lost with the disk.
    fmt::print("{}\n", text);
    throw;
  }
  fmt::print("{}: {} marked, {} absent\n", printable(written.string()),
             entering.count(Entered::State::wrote),
             entering.count(Entered::State::absent));
  if (written != target && !request.others_there) {
    fmt::print("{} was there by then and is left as it is\n",
               printable(target.string()));
  }
  if (!entering.all_done()) {
    fmt::print("nothing is said of {}; the same command asks for them\n",
               entering.left_out());
  }
  return code;
}

}  // namespace sheaf
