// `sheaf review`: what each learner should come back to in a week, and the
// files that print it: a class file with review words, a check of old patterns.

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/new_file.h"
#include "cli/requests.h"
#include "cli/text_table.h"
#include "cli/verbs.h"
#include "driver/marking_desk.h"
#include "driver/own_files.h"
#include "files/disk_files.h"
#include "files/output_files.h"
#include "input/class_text.h"
#include "marking/calendar.h"
#include "marking/review_plan.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

constexpr std::size_t kReviewWords = 6;  // for one learner's week
constexpr std::size_t kCheckPatterns = 4;
constexpr std::size_t kLeastCheckWords = 6;
constexpr std::size_t kMostCheckWords = 12;
constexpr std::size_t kMostLetters = 7;
constexpr std::size_t kCandidates = 30;

// Which words learners can be asked: common, of one syllable, with nothing in
// them but consonant letters, short vowels and what was taught, and never a
// word of a lesson.
class FitWords {
 public:
  FitWords(const Phonics& phonics, const std::vector<TaughtLesson>& lessons,
           const std::vector<MarkedRecord>& records)
      : phonics_(phonics) {
    for (const TaughtLesson& lesson : lessons) {
      taught_.insert(lesson.patterns.begin(), lesson.patterns.end());
    }
    for (const MarkedRecord& marked : records) {
      for (const DictatedItem& item : marked.session.items) {
        for (const Reading& word : item.words) {
          used_.insert(lower_case(word.word));
        }
      }
      if (marked.lesson == nullptr) continue;
      spoken_ = conventions_for(marked.lesson->analyzed.conventions.accent);
      for (const AnalyzedWord& word : marked.lesson->analyzed.words) {
        used_.insert(lower_case(word.reading.word));
      }
    }
  }

  const std::vector<std::string>& of(PatternId pattern) {
    if (found_.empty()) find();
    return found_[pattern];
  }

  const Conventions& spoken() const { return spoken_; }

 private:
  // All patterns in one walk through the word list.
  void find() {
    for (const PatternId pattern : taught_) found_[pattern];
    phonics_.each_word(Phonics::kCommonList, spoken_,
                       [&](const Reading& reading, const WordInfo& word) {
                         if (!word.name && is_askable(reading.word))
                           add(reading);
                         return true;
                       });
  }

  void add(const Reading& reading) {
    for (const PatternPlace& place : reading.places) {
      const auto found = found_.find(place.pattern);
      if (found != found_.end() && found->second.size() < kCandidates &&
          is_fit(reading, place.pattern)) {
        found->second.push_back(reading.word);
      }
    }
  }

  bool is_askable(const std::string& word) const {
    if (word.size() > kMostLetters || used_.contains(lower_case(word))) {
      return false;
    }
    // Not a word with an ending -s beside the word without it.
    return !word.ends_with('s') ||
           !phonics_.knows(word.substr(0, word.size() - 1));
  }

  bool is_fit(const Reading& reading, PatternId pattern) const {
    const PatternPlace* place = reading.find(pattern);
    if (place == nullptr || place->later || reading.units.back().syllable > 0) {
      return false;
    }
    return std::ranges::all_of(reading.units, [&](const Unit& unit) {
      if (unit.irregular) return false;
      const bool vowel = is_vowel(unit.phonemes.front());
      if (unit.grapheme.size() == 1 && !unit.is_split()) {
        return !vowel || is_short_vowel(unit) || is_taught(unit, pattern);
      }
      const bool doubled = unit.grapheme.size() == 2 &&
                           unit.grapheme[0] == unit.grapheme[1] && !vowel;
      return doubled || is_taught(unit, pattern);
    });
  }

  bool is_short_vowel(const Unit& unit) const {
    return std::ranges::any_of(
        phonics_.patterns().all(), [&](const Pattern& pattern) {
          return pattern.short_vowel &&
                 std::ranges::any_of(pattern.teaches, [&](const TaughtUnit& t) {
                   return t.covers(unit);
                 });
        });
  }

  bool is_taught(const Unit& unit, PatternId own) const {
    const auto teaches = [&](PatternId id) {
      return std::ranges::any_of(
          phonics_.patterns()[id].teaches,
          [&](const TaughtUnit& taught) { return taught.covers(unit); });
    };
    return teaches(own) || std::ranges::any_of(taught_, teaches);
  }

  const Phonics& phonics_;
  Conventions spoken_;  // the accent of the latest lesson
  std::set<PatternId> taught_;
  std::set<std::string> used_;
  std::map<PatternId, std::vector<std::string>> found_;
};

// The class without those who left before the week or come after it.
ClassFile in_week(const ClassFile& pupils, const Date& week) {
  const int monday = day_number(week);
  ClassFile here = pupils;
  std::erase_if(here.learners, [&](const LearnerEntry& learner) {
    return (learner.from && day_number(learner.from->value) >= monday + 7) ||
           (learner.until && day_number(learner.until->value) < monday);
  });
  return here;
}

void print_plan(const std::vector<LearnerReview>& reviews,
                const PatternCatalogue& catalogue) {
  TextTable table({"learner", "pattern", "why", "", "words"});
  for (const LearnerReview& review : reviews) {
    std::string code = review.code.text();
    for (const ReviewItem& item : review.items) {
      std::string words;
      for (const std::string& word : item.words) {
        words += (words.empty() ? "" : " ") + word;
      }
      table.add({code, std::string(catalogue[item.pattern].id),
                 std::string(reason_name(item.reason)), item.why, words});
      code.clear();
    }
    if (review.items.empty()) table.add({code, "-", "nothing is due"});
  }
  fmt::print("{}\n", table.text());
  for (const ReviewGroup& group : group_by_need(reviews)) {
    fmt::print("  {} {}: {}\n",
               group.codes.size() == 1 ? "alone, for" : "together, for",
               catalogue[group.pattern].name, codes_text(group.codes));
  }
}

// What was taught long enough ago to be checked, the longest unseen first.
std::vector<PatternId> patterns_to_check(
    const std::vector<LearnerProgress>& learners, const Date& week,
    const ProgressRules& rules) {
  std::map<PatternId, Date> last;
  for (const LearnerProgress& learner : learners) {
    for (const PatternProgress& p : learner.patterns) {
      if (days_between(p.taught, week) < rules.secure_later_days) continue;
      Date& date = last.emplace(p.pattern, p.last).first->second;
      date = std::max(date, p.last);
    }
  }
  std::vector<PatternId> patterns;
  for (const auto& [pattern, date] : last) patterns.push_back(pattern);
  std::ranges::stable_sort(patterns, {},
                           [&](PatternId id) { return last[id]; });
  if (patterns.size() > kCheckPatterns) patterns.resize(kCheckPatterns);
  return patterns;
}

// For a lesson whose words were chosen in another accent than the usual.
std::string accent_line(const Conventions& spoken) {
  if (spoken.accent == Accent::general_american) return {};
  return fmt::format("accent: {}\n", convention_value(spoken, "accent"));
}

// A lesson that checks old patterns in new words; empty where too few can be
// found.
std::string check_text(const std::vector<PatternId>& patterns, FitWords& fit,
                       const PatternCatalogue& catalogue,
                       const std::string& week) {
  if (patterns.empty()) return {};
  const std::size_t each = std::clamp(kMostCheckWords / patterns.size(),
                                      std::size_t{3}, kLeastCheckWords);
  std::string names;
  std::vector<std::vector<std::string>> words;
  std::set<std::string> seen;
  for (const PatternId pattern : patterns) {
    std::vector<std::string> some;
    for (const std::string& word : fit.of(pattern)) {
      if (some.size() < each && seen.insert(word).second) some.push_back(word);
    }
    if (some.empty()) continue;
    names +=
        fmt::format("{}{}", names.empty() ? "" : ", ", catalogue[pattern].id);
    words.push_back(std::move(some));
  }
  // One of each pattern in turn, so that no row of words gives it away.
  std::string list;
  std::size_t count = 0;
  for (std::size_t i = 0; i < each; ++i) {
    for (const auto& some : words) {
      if (i >= some.size() || count == kMostCheckWords) continue;
      list += (list.empty() ? "" : " ") + some[i];
      ++count;
    }
  }
  if (count < kLeastCheckWords) return {};
  return fmt::format(
      "# A check of old patterns in words that were in no lesson, for the week "
      "of {0}.\n# {3}. After the dictation: `sheaf record` with --kind "
      "retention.\nsheaf: 1\npattern: [{1}]\nlayout: check\n{4}words: "
      "{2}\ndictate-words: {2}\n",
      week, names, list, kByReview, accent_line(fit.spoken()));
}

// Nothing is printed of a plan whose files could not be written.
void write_plan(const CommandLine& line, const ClassFile& pupils,
                const std::vector<LearnerReview>& reviews,
                const std::string& check, const PatternCatalogue& catalogue) {
  const FilePath class_path = line.marking.class_file;
  const FilePath folder = line.marking.out.empty() ? class_path.parent_path()
                                                   : FilePath(line.marking.out);
  std::map<LearnerCode, std::vector<std::string>> words;
  for (const LearnerReview& review : reviews) {
    if (!review.items.empty()) words[review.code] = review.words(kReviewWords);
  }
  const auto files = disk().write();
  const FilePath plan =
      folder /
      fmt::format("{}-{}.yaml", class_path.stem().string(), line.marking.date);
  // A name with a line break in it would end the remark.
  std::string name = class_path.filename().string();
  if (printable(name) != name) name = "the class file";
  const std::string about = fmt::format(
      "# {} with review words for the week of {}. {}, and\n"
      "# anew each time: make your changes in {}.\n",
      name, line.marking.date, kByReview, name);
  files->add(plan,
             with_modeline(about + class_text(pupils, words), "class", plan),
             own_form(OwnKind::review), kPacketWayOut);
  const FilePath check_path =
      folder / fmt::format("check-{}.yaml", line.marking.date);
  if (!check.empty()) {
    files->add(check_path, with_modeline(check, "lesson", check_path),
               own_form(OwnKind::review), kPacketWayOut);
  }
  files->finish();
  print_plan(reviews, catalogue);
  // Where a learner has no lesson in the class file, the week's is given.
  const bool all_have_lessons =
      std::ranges::all_of(pupils.learners, [&](const LearnerEntry& learner) {
        return settings_for(pupils, learner).lesson.given();
      });
  fmt::print(
      "\n{}: review words for {} learners; `sheaf build {}--class {}` "
      "prints them{}\n",
      printable(plan.string()), words.size(), all_have_lessons ? "" : "LESSON ",
      printable(plan.string()),
      all_have_lessons ? "" : " with the week's lesson, LESSON");
  if (check.empty()) {
    fmt::print(
        "no check of old patterns: nothing was taught long enough ago, "
        "or fewer than {} new words fit\n",
        kLeastCheckWords);
  } else {
    fmt::print(
        "{}: a check of old patterns in new words; `sheaf build {}` "
        "prints it\n",
        printable(check_path.string()), printable(check_path.string()));
  }
}

}  // namespace

int run_review(const CommandLine& line) {
  ProgressRules rules;
  if (const std::string fault = read_rules(line.marking.rules, rules);
      !fault.empty()) {
    fmt::print(stderr, "sheaf: {}\n", fault);
    return kWrongCommandLine;
  }
  const auto week = read_date(line.marking.date);
  if (!week) {
    fmt::print(stderr,
               "sheaf review: {} is not a date; write it like 2026-03-12\n",
               sheaf::quoted(line.marking.date));
    return kWrongCommandLine;
  }
  Workspace workspace(disk(), shipped_folder());
  std::vector<std::string> faults;
  MarkingDesk desk(workspace, marking_request(line), faults);
  if (!print_faults(faults)) return kWrongCommandLine;
  Diagnostics diagnostics;
  const ClassFile* pupils =
      desk.class_file(line.marking.class_file, diagnostics);
  std::vector<MarkedRecord> records =
      desk.mark({line.marking.records}, diagnostics);
  print(diagnostics);
  if (diagnostics.has_errors() || pupils == nullptr) return kFaultsInFiles;
  // A plan for a week knows only what was before it.
  std::erase_if(records,
                [&](const MarkedRecord& m) { return m.session.date >= *week; });
  const ClassFile here = in_week(*pupils, *week);
  if (here.learners.empty()) {
    fmt::print(stderr,
               "sheaf review: `from` and `until` in {} leave nobody in the "
               "class in the week of {}\n",
               printable(line.marking.class_file), line.marking.date);
    return kFaultsInFiles;
  }
  keep_learners(records, codes_of(here));
  const PatternCatalogue& catalogue = desk.phonics().patterns();
  const std::vector<TaughtLesson> lessons = desk.taught_lessons(records);
  const std::vector<SessionResult> sessions = sessions_of(records);
  const std::vector<LearnerProgress> learners =
      class_progress(sessions, lessons, catalogue, rules, *week);
  FitWords fit(desk.phonics(), lessons, records);
  ReviewRules spacing;
  if (!here.review_weeks.empty()) spacing.weeks = here.review_weeks;
  spacing.no_school = here.no_school;
  const std::vector<LearnerReview> reviews = plan_review(
      learners, sessions, lessons, catalogue,
      [&](PatternId pattern) { return fit.of(pattern); }, *week, spacing);
  write_plan(line, here, reviews,
             check_text(patterns_to_check(learners, *week, rules), fit,
                        catalogue, line.marking.date),
             catalogue);
  fmt::print("{}\n", kScoreCaution);
  return kDone;
}

}  // namespace sheaf
