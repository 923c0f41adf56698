#include "program_output.h"

#include <gtest/gtest.h>

#include <cctype>
#include <sstream>

#include "support/run_program.h"

namespace sheaf::term {

namespace {

std::string without_end(std::string text) {
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

// "36/45 (80%)".
Count count_in(const std::string& text) {
  const std::size_t slash = text.find('/');
  if (slash == std::string::npos) return {};
  return {std::stoi(text.substr(0, slash)), std::stoi(text.substr(slash + 1))};
}

// "36 of 45".
Count count_of(const std::string& text) {
  std::istringstream in(text);
  std::string of;
  Count count;
  in >> count.right >> of >> count.of;
  return count;
}

// The columns of a head: two blanks or more part them. Each with its place.
std::vector<std::pair<std::string, std::size_t>> heads_in(
    const std::string& line) {
  std::vector<std::pair<std::string, std::size_t>> heads;
  for (std::size_t at = line.find_first_not_of(' '); at != std::string::npos;) {
    const std::size_t end = std::min(line.find("  ", at), line.size());
    heads.emplace_back(line.substr(at, end - at), at);
    at = line.find_first_not_of(' ', end);
  }
  return heads;
}

void add_count(Count& sum, const Count& more) {
  sum.right += more.right;
  sum.of += more.of;
}

// A row of such a table.
DayScore score_in(
    const std::string& line,
    const std::vector<std::pair<std::string, std::size_t>>& heads) {
  DayScore score;
  for (std::size_t i = 1; i < heads.size(); ++i) {
    const auto& [name, at] = heads[i];
    if (at >= line.size() || name == "causes") continue;
    const std::size_t end =
        i + 1 < heads.size() ? heads[i + 1].second : line.size();
    const std::string cell = without_end(line.substr(at, end - at));
    if (name == "words") {
      score.words = count_in(cell);
    } else if (name == "letter sequences") {
      score.sequences = count_of(cell);
    } else if (cell != "-") {
      score.patterns[name] = count_in(cell);
    }
  }
  return score;
}

// Its tables, read by where the heads of the columns stand.
class ProgressReader {
 public:
  Printed read(const std::string& folder, const std::set<std::string>& codes) {
    Printed all;
    std::string code;
    for (const std::string& line :
         lines_of_run({"progress", folder + "/records"})) {
      if (codes.contains(line)) {
        code = line;
        columns_.clear();
      } else if (code.empty()) {
        continue;
      } else if (line.starts_with("  pattern ")) {
        read_heads(line);
      } else if (line.starts_with("  letter sequences: ")) {
        read_sequences(line.substr(20), all[code]);
      } else if (!columns_.empty() &&
                 cell(line, "taught").starts_with("2026-")) {
        all[code].patterns[cell(line, "pattern")] = {
            cell(line, "taught"), cell(line, "status"),
            count_in(cell(line, "all since taught")),
            count_in(cell(line, "new words")),
            count_in(cell(line, "based on"))};
      }
    }
    return all;
  }

 private:
  void read_heads(const std::string& line) {
    begins_.clear();
    for (const char* head : {"pattern", "taught", "status", "all since taught",
                             "new words", "writing", "based on"}) {
      // "taught" stands in "all since taught" as well.
      columns_[head] = line.find(std::string("  ") + head) + 2;
      EXPECT_LT(columns_[head], line.size()) << head;
      begins_.insert(columns_[head]);
    }
  }

  static void read_sequences(const std::string& text, PrintedLearner& learner) {
    for (const std::string& day : parted(text, ',')) {
      std::istringstream in(day);
      std::string date, of;
      Count count;
      in >> date >> count.right >> of >> count.of;
      learner.sequences[date] = count;
    }
  }

  std::string cell(const std::string& line, const std::string& head) const {
    const std::size_t at = columns_.at(head);
    if (at >= line.size()) return {};
    const auto next = begins_.upper_bound(at);
    const std::size_t end = next == begins_.end() ? line.size() : *next;
    return without_end(line.substr(at, end - at));
  }

  std::map<std::string, std::size_t> columns_;
  std::set<std::size_t> begins_;
};

}  // namespace

std::vector<std::string> parted(const std::string& line, char at) {
  std::vector<std::string> parts(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"' && at == ',') {
      quoted = !quoted;
    } else if (c == at && !quoted) {
      parts.emplace_back();
    } else if (c != '\r') {  // lines of CSV end as RFC 4180 has it
      parts.back() += c;
    }
  }
  return parts;
}

std::string letters(const std::string& text) {
  std::string plain;
  for (const char c : text) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0) plain += c;
  }
  return plain;
}

std::vector<std::string> lines_of_run(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), SHEAF_PROGRAM);
  const auto outcome = testing_support::run_program(arguments);
  EXPECT_EQ(outcome.status, 0) << outcome.out;
  return parted(outcome.out, '\n');
}

std::vector<CsvRow> csv_rows(const std::vector<std::string>& lines,
                             const std::string& first_column) {
  std::vector<CsvRow> rows;
  std::vector<std::string> names;
  for (const std::string& line : lines) {
    const std::vector<std::string> cells = parted(line, ',');
    if (line.starts_with(first_column + ",")) {
      names = cells;
    } else if (!names.empty() && cells.size() == names.size()) {
      CsvRow row;
      for (std::size_t i = 0; i < cells.size(); ++i) row[names[i]] = cells[i];
      rows.push_back(std::move(row));
    }
  }
  return rows;
}

CsvRows marked_rows(const std::string& folder) {
  CsvRows rows;
  for (CsvRow& row :
       csv_rows(lines_of_run({"mark", folder + "/records", "--csv"}), "date")) {
    if (!row["date"].starts_with("2026-")) continue;
    rows[row["learner"]][row["date"]].push_back(std::move(row));
  }
  return rows;
}

PrintedScores printed_scores(const std::string& folder) {
  PrintedScores printed;
  std::string date;
  std::vector<std::pair<std::string, std::size_t>> heads;
  DayScore sum;
  for (const std::string& line : lines_of_run({"mark", folder + "/records"})) {
    if (line.starts_with("2026-")) {
      date = line.substr(0, 10);
      heads.clear();
    } else if (line.starts_with("  learner") &&
               line.find("letter sequences") != std::string::npos) {
      heads = heads_in(line);
      sum = {};
    } else if (heads.empty() || !line.starts_with("  ")) {
      heads.clear();
    } else {
      const std::string code = line.substr(2, line.find(' ', 2) - 2);
      if (line.find("absent") != std::string::npos) continue;
      const DayScore score = score_in(line, heads);
      if (code != "group") {
        printed.learners[date][code] = score;
        add_count(sum.words, score.words);
        add_count(sum.sequences, score.sequences);
        for (const auto& [name, count] : score.patterns) {
          add_count(sum.patterns[name], count);
        }
        continue;
      }
      ++printed.groups;
      EXPECT_EQ(score.words, sum.words) << line;
      EXPECT_EQ(score.sequences, sum.sequences) << line;
      EXPECT_EQ(score.patterns, sum.patterns) << line;
    }
  }
  return printed;
}

Printed printed_progress(const std::string& folder,
                         const std::set<std::string>& codes) {
  return ProgressReader().read(folder, codes);
}

}  // namespace sheaf::term
