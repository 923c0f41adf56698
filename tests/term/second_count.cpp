#include "second_count.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>

#include "second_files.h"

namespace sheaf::term {

namespace {

// How many neighbours of the target stand side by side in what was written, the
// blanks at both ends counted: letters are laid against letters in order, so
// that there are as many as can be.
int sequences_of(const std::string& target, const std::string& written) {
  if (written.empty()) return 0;
  const std::string a = "^" + target + "$", b = "^" + written + "$";
  constexpr int kNone = -1000;
  // The most with a[i] on b[j].
  std::vector<std::vector<int>> most(a.size(),
                                     std::vector<int>(b.size(), kNone));
  for (std::size_t i = 0; i < a.size(); ++i) {
    for (std::size_t j = 0; j < b.size(); ++j) {
      if (a[i] != b[j]) continue;
      int best = i == 0 && j == 0 ? 0 : kNone;
      for (std::size_t k = 0; k < i; ++k) {
        for (std::size_t l = 0; l < j; ++l) {
          if (most[k][l] == kNone) continue;
          const bool side_by_side = k + 1 == i && l + 1 == j;
          best = std::max(best, most[k][l] + (side_by_side ? 1 : 0));
        }
      }
      most[i][j] = best;
    }
  }
  return most[a.size() - 1][b.size() - 1];
}

// What a learner wrote for all that was dictated, word by word.
std::vector<Row> rows_of(const TermLesson& lesson, const Attempts& wrong) {
  std::vector<Row> rows;
  const auto add = [&](const std::string& item) {
    const auto found = wrong.find(item);
    const std::string written = found == wrong.end()   ? item
                                : found->second == "." ? ""
                                                       : found->second;
    const Words targets = words_of(item), attempts = words_of(written);
    for (std::size_t i = 0; i < targets.size(); ++i) {
      Row row;
      row.target = targets[i];
      if (i < attempts.size()) row.written = attempts[i];
      row.right = small(row.target) == small(row.written);
      row.possible = static_cast<int>(row.target.size()) + 1;
      row.sequences = sequences_of(small(row.target), small(row.written));
      rows.push_back(row);
    }
  };
  for (const std::string& word : lesson.dictated) add(word);
  for (const std::string& sentence : lesson.sentences) add(sentence);
  return rows;
}

// ---- The rules of README.md, "What they wrote, and what comes next", and the
// numbers of `sheaf progress --help`.

constexpr int kWeek = 7, kFewest = 5, kGoOn = 80;
constexpr int kSecureWrong = 2, kSecureWords = 25, kSecureDays = 3;
constexpr int kSecureNew = 4, kLater = 14;
constexpr int kLongWrong = 5, kLongWords = 54;
constexpr int kLostWrong = 3, kLostWords = 12, kUnseenWeeks = 8;

using Days = std::vector<Day>;

void add(Count& sum, const Count& more) {
  sum.right += more.right;
  sum.of += more.of;
}

// The latest days with so many words at least, a day taken whole.
Days latest(const Days& days, int words) {
  Days taken;
  int count = 0;
  for (auto day = days.rbegin(); day != days.rend() && count < words; ++day) {
    taken.insert(taken.begin(), *day);
    count += day->share.of;
  }
  return taken;
}

Count sum_of(const Days& days) {
  Count sum;
  for (const Day& day : days) add(sum, day.share);
  return sum;
}

// The words of the latest seven days; further back where they are fewer than
// five.
Count week_of(const Days& days) {
  Count week;
  for (auto day = days.rbegin(); day != days.rend(); ++day) {
    const int ago = day_of(days.back().date) - day_of(day->date);
    if (ago >= kWeek && week.of >= kFewest) break;
    add(week, day->share);
  }
  return week;
}

bool too_many_wrong_for_long(const Days& days, const std::string& taught) {
  Days later;
  for (const Day& day : days) {
    if (day_of(day.date) - day_of(taught) >= kLater) later.push_back(day);
  }
  const Count sum = sum_of(latest(later, kLongWords));
  return sum.of - sum.right > kLongWrong;
}

// As far back as no more are wrong than are allowed.
bool is_secure(const Days& days, const std::string& taught) {
  int words = 0, wrong = 0, fresh = 0, number = 0;
  bool later = false;
  for (auto day = days.rbegin(); day != days.rend(); ++day) {
    wrong += day->share.of - day->share.right;
    if (wrong > kSecureWrong) break;
    words += day->share.of;
    fresh += day->fresh.of;
    ++number;
    later = later || day_of(day->date) - day_of(taught) >= kLater;
  }
  return words >= kSecureWords && number >= kSecureDays &&
         fresh >= kSecureNew && later && !too_many_wrong_for_long(days, taught);
}

bool is_lost(const Days& days, const std::string& taught) {
  if (too_many_wrong_for_long(days, taught)) return true;
  int words = 0, wrong = 0;
  for (auto day = days.rbegin(); day != days.rend(); ++day) {
    if (words > 0 && words + day->share.of > kLostWords) break;
    words += day->share.of;
    wrong += day->share.of - day->share.right;
    if (wrong >= kLostWrong) return true;
  }
  return false;
}

void find_state(PatternCount& pattern, const std::string& today) {
  const auto unseen = [](const std::string& seen, const std::string& day) {
    return day_of(day) - day_of(seen) > 7 * kUnseenWeeks;
  };
  std::string state = "practising";
  Days so_far;
  for (const Day& day : pattern.days) {
    if (state == "secure" && unseen(so_far.back().date, day.date)) {
      state = "check again";
    }
    so_far.push_back(day);
    if (state == "secure") {
      if (is_lost(so_far, pattern.taught)) state = "check again";
    } else if (is_secure(so_far, pattern.taught)) {
      state = "secure";
    } else if (state != "check again") {
      const Count week = week_of(so_far);
      state = week.of >= kFewest && 100 * week.right >= kGoOn * week.of
                  ? "go on"
                  : "practising";
    }
  }
  if (state == "secure" && unseen(so_far.back().date, today)) {
    state = "check again";
  }
  pattern.state = state;
  pattern.window = state == "go on" || state == "practising"
                       ? week_of(so_far)
                       : sum_of(latest(so_far, kSecureWords));
}

class Term {
 public:
  explicit Term(const std::string& folder) : folder_(folder) {
    for (const std::string& line : lines_of(folder + "/words.tsv")) {
      const std::size_t tab = line.find('\t');
      if (line.starts_with('#') || tab == std::string::npos) continue;
      patterns_.push_back(line.substr(0, tab));
    }
    Words files;
    for (const auto& entry :
         std::filesystem::directory_iterator(folder + "/records")) {
      files.push_back(entry.path().string());
    }
    for (const std::string& file : files) {
      for (TermSession& session : sessions_in(file)) {
        sessions_.push_back(std::move(session));
      }
    }
    std::stable_sort(sessions_.begin(), sessions_.end(),
                     [](const TermSession& a, const TermSession& b) {
                       return a.date < b.date;
                     });
    for (const TermSession& session : sessions_) {
      lessons_.emplace(session.lesson,
                       lesson_in(folder + "/" + session.lesson));
      today_ = std::max(today_, session.date);
    }
  }

  std::map<std::string, LearnerCount> count() {
    std::set<std::string> codes;
    for (const TermSession& session : sessions_) {
      codes.insert(session.absent.begin(), session.absent.end());
      for (const auto& one : session.wrong) codes.insert(one.first);
    }
    std::map<std::string, LearnerCount> all;
    for (const std::string& code : codes) all[code] = count_learner(code);
    return all;
  }

 private:
  LearnerCount count_learner(const std::string& code) {
    LearnerCount learner;
    std::map<std::string, std::string> practised, first_written;
    for (const TermSession& session : sessions_) {
      const bool absent = session.absent.contains(code);
      const auto wrong = session.wrong.find(code);
      if (!absent && wrong == session.wrong.end()) continue;
      const TermLesson& lesson = lessons_.at(session.lesson);
      if (session.kind == "dictation") {
        for (const std::string& pattern : lesson.patterns) {
          learner.patterns[pattern];
          std::string& taught = learner.patterns[pattern].taught;
          if (taught.empty()) taught = session.date;
        }
        for (const std::string& word : lesson.listed) {
          practised.emplace(word, session.date);
        }
      }
      if (absent) {
        learner.absent.insert(session.date);
        continue;
      }
      const std::vector<Row> rows = rows_of(lesson, wrong->second);
      for (const Row& row : rows) {
        first_written.emplace(small(row.target), session.date);
      }
      learner.rows[session.date] = rows;
      learner.scores[session.date] = score(rows, lesson);
    }
    for (auto& [name, pattern] : learner.patterns) {
      count_pattern(code, name, learner, practised, first_written, pattern);
    }
    return learner;
  }

  // A word is one chance a day, right if it was right each time. What is known
  // by sight is none.
  static std::map<std::string, bool> chances(const std::vector<Row>& rows,
                                             const TermLesson& lesson,
                                             const std::string& pattern) {
    std::map<std::string, bool> words;
    for (const Row& row : rows) {
      const std::string word = small(row.target);
      if (word.find(pattern) == std::string::npos || known(lesson, word)) {
        continue;
      }
      const bool right = has_pattern_right(word, small(row.written), pattern);
      const auto [same, first] = words.emplace(word, right);
      if (!first) same->second = same->second && right;
    }
    return words;
  }

  static DayScore score(const std::vector<Row>& rows,
                        const TermLesson& lesson) {
    DayScore score;
    for (const Row& row : rows) {
      add(score.words, {row.right ? 1 : 0, 1});
      add(score.sequences, {row.sequences, row.possible});
    }
    for (const std::string& pattern : lesson.patterns) {
      for (const auto& [word, right] : chances(rows, lesson, pattern)) {
        add(score.patterns[pattern], {right ? 1 : 0, 1});
      }
    }
    return score;
  }

  void count_pattern(const std::string& code, const std::string& name,
                     const LearnerCount& learner,
                     const std::map<std::string, std::string>& practised,
                     const std::map<std::string, std::string>& first_written,
                     PatternCount& pattern) {
    for (const TermSession& session : sessions_) {
      Day day;
      day.date = session.date;
      const auto journal = session.writing.find(code);
      if (journal != session.writing.end()) {
        const auto tally = journal->second.find(name);
        if (tally != journal->second.end()) day.share = tally->second;
      }
      const auto rows = learner.rows.find(session.date);
      if (rows != learner.rows.end() && session.wrong.contains(code)) {
        const TermLesson& lesson = lessons_.at(session.lesson);
        for (const auto& [word, right] : chances(rows->second, lesson, name)) {
          const Count chance{right ? 1 : 0, 1};
          add(day.share, chance);
          const auto list = practised.find(word);
          const bool fresh =
              (list == practised.end() || list->second > session.date) &&
              first_written.at(word) == session.date;
          if (fresh) add(day.fresh, chance);
        }
      }
      if (day.share.of == 0) continue;
      if (session.date < pattern.taught) {
        add(pattern.before, day.share);
        continue;
      }
      add(pattern.all, day.share);
      add(pattern.fresh, day.fresh);
      pattern.days.push_back(day);
    }
    find_state(pattern, today_);
  }

  static bool known(const TermLesson& lesson, const std::string& word) {
    return std::find(lesson.sight.begin(), lesson.sight.end(), word) !=
           lesson.sight.end();
  }

  std::string folder_;
  Words patterns_;
  std::vector<TermSession> sessions_;
  std::map<std::string, TermLesson> lessons_;
  std::string today_;
};

}  // namespace

// Nothing is known but the two texts: what is alike at the beginning or at the
// end reaches over the pattern's letters.
bool has_pattern_right(const std::string& target, const std::string& written,
                       const std::string& pattern) {
  const std::size_t at = target.find(pattern), end = at + pattern.size();
  std::size_t front = 0, back = 0;
  while (front < target.size() && front < written.size() &&
         target[front] == written[front]) {
    ++front;
  }
  while (back < target.size() && back < written.size() &&
         target[target.size() - 1 - back] ==
             written[written.size() - 1 - back]) {
    ++back;
  }
  return front >= end || target.size() - back <= at;
}

Percents likely(const Count& count) {
  constexpr double kZ = 1.6449;
  const double n = count.of, p = count.right / n;
  const double middle = (p + kZ * kZ / (2 * n)) / (1 + kZ * kZ / n);
  const double away = kZ / (1 + kZ * kZ / n) *
                      std::sqrt(p * (1 - p) / n + kZ * kZ / (4 * n * n));
  return {static_cast<int>(std::lround(100 * (middle - away))),
          static_cast<int>(std::lround(100 * (middle + away)))};
}

int day_of(const std::string& date) {
  constexpr std::array kBefore = {0,   31,  59,  90,  120, 151,
                                  181, 212, 243, 273, 304, 334};
  const int year = std::stoi(date.substr(0, 4));
  const int month = std::stoi(date.substr(5, 2));
  const int day = std::stoi(date.substr(8, 2));
  const int leaps = (year - 1969) / 4 + (year % 4 == 0 && month > 2 ? 1 : 0);
  return 365 * (year - 1970) + leaps +
         kBefore[static_cast<std::size_t>(month - 1)] + day;
}

std::map<std::string, LearnerCount> count_term(const std::string& folder) {
  return Term(folder).count();
}

}  // namespace sheaf::term
