// `sheaf mark`: what learners wrote, grapheme by grapheme, and what comes next.

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "base/error.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/json.h"
#include "cli/messages.h"
#include "cli/progress_table.h"
#include "cli/report_pages.h"
#include "cli/requests.h"
#include "cli/text_table.h"
#include "cli/verbs.h"
#include "driver/marking_desk.h"
#include "files/disk_files.h"
#include "files/surroundings.h"
#include "marking/advice.h"
#include "marking/error_cue.h"
#include "marking/pattern_chance.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

// Some 40,000 words.
constexpr std::size_t kLargestPairs = std::size_t{512} << 10U;

// Without the blanks that a table may have around its words.
std::string_view without_blanks(std::string_view cell) {
  const std::size_t begin = std::min(cell.find_first_not_of(' '), cell.size());
  cell.remove_prefix(begin);
  return cell.substr(0, cell.find_last_not_of(' ') + 1);
}

// A line is a target, a tab and what was written; nothing behind the tab is a
// blank. False, and said, where a line has no tab.
template <typename Take>
bool read_pairs(const std::string& text, const std::string& name,
                MarkingDesk& desk, Take take) {
  std::size_t begin = 0;
  bool good = true;
  for (int number = 1; begin < text.size(); ++number) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    std::string_view line(text.data() + begin, end - begin);
    begin = end + 1;
    if (line.ends_with('\r')) line.remove_suffix(1);
    if (line.empty()) continue;
    const std::size_t tab = line.find('\t');
    const std::string target = normalized(without_blanks(line.substr(0, tab)));
    if (tab == std::string_view::npos || target.empty() ||
        find_bad_utf8(line)) {
      fmt::print(stderr,
                 "sheaf: {}:{}: this line is not a word, a tab and what was "
                 "written for it\n",
                 printable(name), number);
      good = false;
      continue;
    }
    const DictatedItem item = dictated_item(target, desk.phonics());
    const auto written = line.substr(tab + 1);
    if (item.words.empty()) {
      fmt::print(stderr, "sheaf: {}:{}: there is no word before the tab\n",
                 printable(name), number);
      good = false;
    } else if (item.sentence) {
      for (const MarkedWord& word :
           mark_sentence(desk.spellings(), item.words, written, desk.options())
               .words) {
        take(AttemptRow{{}, {}, {}, {}, word.attempt, {}});
      }
    } else {
      take(AttemptRow{
          {},
          {},
          {},
          {},
          mark_attempt(
              desk.spellings(),
              desk.phonics().read(
                  target, conventions_for(desk.options().speech.accent)),
              written, desk.options()),
          {}});
    }
  }
  return good;
}

// The patterns of the record that the word is a chance for; a word that is
// known by sight shows none.
std::vector<AttemptRow::Chance> chances_of(const MarkedRecord& marked,
                                           const SessionWord& word,
                                           const PatternCatalogue& catalogue) {
  std::vector<AttemptRow::Chance> chances;
  const Reading& reading = marked.session.reading(word);
  if (marked.session.sight_words.contains(lower_case(reading.word))) {
    return chances;
  }
  for (const PatternId id : marked.patterns) {
    const PatternPlace* place = reading.find(id);
    if (place == nullptr) continue;
    const Cause missed = missed_cause(word.attempt, *place, catalogue);
    chances.push_back({std::string(catalogue[id].id), missed == Cause::none});
  }
  return chances;
}

template <typename Take>
void take_rows(const MarkedRecord& marked, const PatternCatalogue& catalogue,
               Take take) {
  for (const LearnerResult& learner : marked.session.learners) {
    for (const SessionWord& word : learner.words) {
      take(AttemptRow{date_text(marked.session.date), marked.session.lesson,
                      std::string(kind_name(marked.session.kind)),
                      learner.code.text(), word.attempt,
                      chances_of(marked, word, catalogue)});
    }
  }
}

std::string graphemes_cell(const MarkedAttempt& attempt) {
  std::string cell;
  for (const MarkedGrapheme& g : attempt.graphemes) {
    if (!cell.empty()) cell += ' ';
    cell += fmt::format("{}={}", g.grapheme, result_name(g.result));
    if (g.cause != Cause::none)
      cell += fmt::format("({})", cause_name(g.cause));
  }
  return cell;
}

void print_csv_row(const AttemptRow& row) {
  const MarkedAttempt& a = row.attempt;
  std::string patterns, right;
  for (const AttemptRow::Chance& chance : row.patterns) {
    patterns += (patterns.empty() ? "" : " ") + chance.pattern;
    right +=
        fmt::format("{}{}", right.empty() ? "" : " ", chance.right ? 1 : 0);
  }
  fmt::print("{},{},{},{},{},{},{},{},{},{},{},{},{}\r\n", row.date,
             csv_field(row.lesson), row.kind, csv_field(row.learner),
             csv_field(a.target), csv_field(a.written), a.right ? 1 : 0,
             csv_field(graphemes_cell(a)), a.extra_letters(),
             a.sequences.correct, a.sequences.possible, patterns, right);
}

// Attempts for other programs, each printed as it comes.
class RowPrinter {
 public:
  explicit RowPrinter(bool as_json) : as_json_(as_json) {
    if (as_json) return;
    fmt::print(
        "date,lesson,kind,learner,target,written,right,graphemes,extra,"
        "letter_sequences,letter_sequences_possible,pattern,pattern_right\r\n");
  }
  void print(const AttemptRow& row) {
    if (as_json_) {
      fmt::print("{}", json_.add(row));
    } else {
      print_csv_row(row);
    }
  }
  void finish() const {
    if (as_json_) fmt::print("{}\n", json_.end());
  }

 private:
  bool as_json_;
  AttemptsJson json_;
};

std::vector<std::string> pair_row(const AttemptRow& row) {
  const MarkedAttempt& a = row.attempt;
  std::string graphemes;
  for (const MarkedGrapheme& g : a.graphemes) {
    graphemes += (graphemes.empty() ? "" : " ") + g.grapheme;
  }
  return {printable(a.target), a.blank ? "." : printable(a.written),
          printable(graphemes),
          fmt::format("{}/{}", a.sequences.correct, a.sequences.possible),
          a.right ? "right" : printable(faults_text(a))};
}

std::vector<std::string> score_row(std::string name, const Score& score) {
  std::vector<std::string> row = {std::move(name)};
  if (score.absent) {
    row.emplace_back("absent");
    return row;
  }
  const auto shown = [](const Share& share) {
    return share.of == 0 ? std::string("-") : share.text();
  };
  row.push_back(shown(score.words));
  row.push_back(score.sequences.possible == 0
                    ? "-"
                    : fmt::format("{} of {}", score.sequences.correct,
                                  score.sequences.possible));
  for (const PatternScore& pattern : score.patterns) {
    row.push_back(shown(pattern.share));
  }
  row.push_back(causes_text(score.causes));
  return row;
}

void print_scores(const MarkedRecord& marked, const SessionScores& scores,
                  const PatternCatalogue& catalogue) {
  std::vector<std::string> heads = {"learner", "words", "letter sequences"};
  for (const PatternId pattern : marked.patterns) {
    heads.push_back(column_title(catalogue[pattern]));
  }
  heads.emplace_back("causes");
  TextTable table(heads);
  for (const Score& score : scores.learners) {
    table.add(score_row(score.code.text(), score));
  }
  if (scores.learners.size() > 1) table.add(score_row("group", scores.group));
  fmt::print("{}", table.text());
}

void print_misses(const MarkedRecord& marked) {
  TextTable table({"learner", "word", "written", "what"});
  for (const LearnerResult& learner : marked.session.learners) {
    for (const SessionWord& word : learner.words) {
      if (word.right()) continue;
      const MarkedAttempt& a = word.attempt;
      table.add({learner.code.text(), printable(a.target),
                 a.blank ? "." : printable(a.written),
                 printable(faults_text(word.kind, a))});
    }
    for (const ExtraWord& extra : learner.extra_words) {
      table.add({learner.code.text(), "-", printable(extra.written),
                 std::string(kNotDictatedWord)});
    }
  }
  if (!table.empty()) fmt::print("\n{}", table.text());
}

// The ear is no help where an error follows how the learner speaks, so what to
// say about it stands here, each thing once.
void print_speech_cues(const MarkedRecord& marked) {
  std::vector<std::string> said;
  for (const LearnerResult& learner : marked.session.learners) {
    for (const SessionWord& word : learner.words) {
      const MarkedAttempt& a = word.attempt;
      for (std::size_t unit = 0; unit < a.graphemes.size(); ++unit) {
        const MarkedGrapheme& g = a.graphemes[unit];
        if (g.cause != Cause::own_speech) continue;
        const WordError error{.unit = unit,
                              .cause = g.cause,
                              .written = g.written,
                              .other_word = a.other_word};
        std::string line = fmt::format(
            "  {}: {}\n", printable(a.target),
            error_cue(marked.session.reading(word), error, nullptr, {}).text);
        if (std::ranges::find(said, line) == said.end()) {
          said.push_back(std::move(line));
        }
      }
    }
  }
  if (said.empty()) return;
  fmt::print("\nWhere it follows how they speak, say:\n{}",
             fmt::join(said, ""));
}

// What attempts without a word of their own were taken for.
void print_found(const MarkedRecord& marked) {
  std::string text;
  for (const LearnerResult& learner : marked.session.learners) {
    std::string own;
    for (const FoundTarget& found : marked.targets.found) {
      if (found.learner != learner.code) continue;
      own +=
          fmt::format("{}{} for {}", own.empty() ? " " : ", ",
                      printable(found.written.text()), printable(found.word));
    }
    if (!own.empty()) {
      text += fmt::format("{} {}{}", text.empty() ? "" : ";",
                          learner.code.text(), own);
    }
  }
  if (text.empty()) return;
  fmt::print(
      "\nTaken by closeness:{}.\nWhere one was meant for another word, "
      "write it as word=attempt in the record.\n",
      text);
}

void print_advice(const SessionScores& scores,
                  const PatternCatalogue& catalogue) {
  fmt::print("\n");
  for (const Advice& advice : advise(scores)) {
    fmt::print("  {}: {}. {}\n", catalogue[advice.pattern].name,
               step_name(advice.step), advice.why);
    const std::string codes = not_yet_text(advice, scores);
    if (!codes.empty()) fmt::print("    not there yet: {}\n", codes);
  }
}

void print_record(const MarkedRecord& marked,
                  const PatternCatalogue& catalogue) {
  const SessionScores scores =
      score_session(marked.session, marked.patterns, catalogue);
  fmt::print("{} {}{}{}\n\n", date_text(marked.session.date),
             printable(marked.session.lesson),
             marked.session.lesson.empty() ? "" : ", ",
             kind_words(marked.session.kind));
  print_scores(marked, scores, catalogue);
  print_misses(marked);
  print_speech_cues(marked);
  print_found(marked);
  if (marked.session.placement) {
    fmt::print("\n  where to begin: `sheaf place` tells\n");
  } else {
    print_advice(scores, catalogue);
  }
  fmt::print("\n");
}

void print_caution() { fmt::print("{}\n", kScoreCaution); }

int mark_pairs(const CommandLine& line, MarkingDesk& desk) {
  const std::string& name = line.marking.pairs;
  const std::string text = name == "-" ? read_standard_input(kLargestPairs)
                                       : disk().read(name, kLargestPairs);
  const std::string shown = name == "-" ? "standard input" : name;
  if (text.size() > kLargestPairs) {
    throw MachineError(fmt::format("{} is longer than 512 KiB", shown));
  }
  bool good = true;
  if (line.json || line.marking.csv) {
    RowPrinter rows(line.json);
    good = read_pairs(text, shown, desk,
                      [&](const AttemptRow& row) { rows.print(row); });
    rows.finish();
  } else {
    TextTable table({"word", "written", "graphemes", "sequences", "what"});
    good = read_pairs(text, shown, desk,
                      [&](const AttemptRow& row) { table.add(pair_row(row)); });
    fmt::print("{}", table.text());
    print_caution();
  }
  return good ? kDone : kFaultsInFiles;
}

// What cannot be asked for together, or is missing.
std::string wrong_request(const CommandLine& line) {
  const bool pairs = !line.marking.pairs.empty();
  if (pairs != line.arguments.empty()) {
    return pairs ? "give records or --pairs, not both"
                 : "this needs RECORD, or --pairs with a file";
  }
  if (line.json && line.marking.csv) return "give --csv or --json, not both";
  if (pairs && !line.marking.pdf.empty()) {
    return "--pdf is for records, not for --pairs";
  }
  return {};
}

}  // namespace

int run_mark(const CommandLine& line) {
  const std::string wrong = wrong_request(line);
  if (!wrong.empty()) {
    fmt::print(stderr,
               "sheaf mark: {}\n`sheaf mark --help` shows how to use it\n",
               wrong);
    return kWrongCommandLine;
  }
  Workspace workspace(disk(), shipped_folder());
  std::vector<std::string> faults;
  MarkingDesk desk(workspace, marking_request(line), faults);
  if (!print_faults(faults)) return kWrongCommandLine;
  if (!line.marking.pairs.empty()) return mark_pairs(line, desk);

  if (!line.marking.pdf.empty()) check_report_file(line);
  Diagnostics diagnostics;
  std::vector<MarkedRecord> records = desk.mark(line.arguments, diagnostics);
  print(diagnostics);
  if (diagnostics.has_errors()) return kFaultsInFiles;
  const std::vector<LearnerCode> asked = codes_given(line.marking.learners);
  if (!know_learners(records, asked, line.verb)) return kWrongCommandLine;
  keep_learners(records, asked);
  const bool any = keep_marked(records);
  if (!any) print_nobody_marked();
  if (any && !line.marking.pdf.empty()) {
    write_mark_pages(workspace, line, records);
  }
  const PatternCatalogue& catalogue = workspace.phonics().patterns();
  if (line.json || line.marking.csv) {
    RowPrinter rows(line.json);
    for (MarkedRecord& marked : records) {
      take_rows(marked, catalogue,
                [&](const AttemptRow& row) { rows.print(row); });
      marked.session = {};
    }
    rows.finish();
  } else if (any) {
    for (const MarkedRecord& marked : records) {
      print_record(marked, catalogue);
    }
    print_caution();
  }
  return kDone;
}

}  // namespace sheaf
