#include "cli/file_report.h"

#include <fmt/format.h>

#include <set>

#include "base/utf8.h"
#include "cli/check_report.h"
#include "cli/sentence_report.h"
#include "marking/score_words.h"
#include "phonics/explain.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

void print_words(std::string& out, const AnalyzedLesson& lesson,
                 const std::vector<AnalyzedWord>& words) {
  std::size_t widest = 0;
  for (const AnalyzedWord& w : words) {
    widest = std::max(widest, w.reading.word.size());
  }
  for (const AnalyzedWord& w : words) {
    const std::string standing = standing_text(lesson, w);
    out += fmt::format("  {:<{}}  {:<18} {:<26} {}{}\n", w.reading.word, widest,
                       spelled_out(w), sounds_of(lesson, w),
                       counted(w.reading.boxes(), "box", "boxes"),
                       standing.empty() ? "" : "  " + standing);
  }
}

// Every word that the lesson uses, wherever it stands, once.
std::vector<const AnalyzedWord*> all_words(const AnalyzedLesson& lesson) {
  std::vector<const AnalyzedWord*> words;
  std::set<std::string> seen;
  const auto add = [&](const AnalyzedWord& w) {
    if (seen.insert(lower_case(w.reading.word)).second) words.push_back(&w);
  };
  for (const auto* list : {&lesson.words, &lesson.dictate_words}) {
    for (const AnalyzedWord& w : *list) add(w);
  }
  for (const auto* list :
       {&lesson.sentences, &lesson.dictate_sentences,
        &lesson.passage.paragraphs, &lesson.passage.questions}) {
    for (const AnalyzedSentence& s : *list) {
      for (const AnalyzedSentence::Part& part : s.words) add(part.word);
    }
  }
  return words;
}

// Words that can be said in two ways: which was taken, and how to choose the
// other.
void print_choices(std::string& out, const AnalyzedLesson& lesson) {
  for (const AnalyzedWord* word : all_words(lesson)) {
    const AnalyzedWord& w = *word;
    if (w.reading.origin == Reading::Origin::by_hand) continue;
    // Nobody needs telling how `the` and `a` are said in a sentence.
    if (w.reading.label == "weak") continue;
    const auto readings =
        lesson.phonics->read(w.reading.word, lesson.conventions);
    for (std::size_t i = 1; i < readings.size(); ++i) {
      out += fmt::format(
          "{} is treated as {}; for {}, put this line under `split:`: `{}`\n",
          w.reading.word,
          readings[0].label.empty()
              ? sounds_text(readings[0], lesson.conventions)
              : readings[0].label,
          readings[i].label.empty()
              ? sounds_text(readings[i], lesson.conventions)
              : readings[i].label,
          split_line(readings[i], readings));
    }
  }
}

void print_defaults(std::string& out, const Lesson& lesson) {
  out += fmt::format("defaults, because the lesson does not say:");
  const auto say = [&](std::string_view key, const std::string& value,
                       bool given) {
    if (!given) out += fmt::format(" {}: {};", key, value);
  };
  say("layout", "week", lesson.layout.given());
  say("days", std::to_string(lesson.days.value), lesson.days.given());
  say("minutes", std::to_string(lesson.minutes.value), lesson.minutes.given());
  say("set", std::to_string(lesson.set.value), lesson.set.given());
  out += fmt::format("\n");
}

void print_report(std::string& out, const std::string& path,
                  const PreparedLesson& prepared) {
  const AnalyzedLesson& lesson = prepared.analyzed;
  out += fmt::format("{} (code {})\n", printable(path), lesson.code);
  for (std::size_t i = 0; i < lesson.patterns.size(); ++i) {
    const LessonPattern& p = lesson.patterns[i];
    const int key = lesson.key_words[i];
    const std::string sound = said(lesson, p.sound);
    out +=
        fmt::format("pattern: {}{}{}", p.name, sound.empty() ? "" : " ", sound);
    if (key >= 0) {
      out +=
          fmt::format(", key word {}",
                      lesson.words[static_cast<std::size_t>(key)].reading.word);
    }
    out += fmt::format("\n");
  }
  out += fmt::format("words: {}\n", lesson.words.size());
  print_words(out, lesson, lesson.words);
  out += fmt::format(
      "to dictate: {}\n",
      counted(static_cast<int>(lesson.dictate_words.size()), "word", "words"));
  print_words(out, lesson, lesson.dictate_words);
  print_sentences(out, lesson, own_texts(prepared.filled));
  print_share(out, lesson);
  print_choices(out, lesson);
  print_filled(out, prepared);
  print_defaults(out, *lesson.lesson);
}

// A sequence by itself: its steps and what each teaches.
void print_steps(std::string& out, const Phonics& phonics,
                 const std::string& path, const Taught& taught) {
  out += fmt::format(
      "{}: {}\n", printable(path),
      counted(static_cast<int>(taught.steps().size()), "step", "steps"));
  for (const Taught::Step& step : taught.steps()) {
    std::vector<std::string_view> names;
    for (const PatternId id : step.patterns) {
      names.push_back(phonics.patterns()[id].name);
    }
    out += fmt::format(
        "  {:>3}  {}{}{}\n", step.number,
        names.empty() ? "practice" : fmt::format("{}", fmt::join(names, ", ")),
        step.sight_words.empty()
            ? ""
            : fmt::format("; by sight: {}", fmt::join(step.sight_words, " ")),
        step.key_words.empty()
            ? ""
            : fmt::format("; key words: {}", fmt::join(step.key_words, " ")));
  }
}

// What each learner of a class gets.
void print_learners(std::string& out, const std::string& path,
                    const CheckedFile& checked) {
  out += fmt::format("{}\n", printable(path));
  for (std::size_t i = 0; i < checked.pages.size(); ++i) {
    const LearnerJob& learner = checked.job->learners[i];
    out += fmt::format(
        "  {:<12}  {} (code {}), {}, {}\n", learner.code.text(),
        printable(learner.prepared->lesson.file->name()), learner.lesson.code,
        counted(static_cast<int>(learner.lesson.words.size()), "word", "words"),
        counted(static_cast<int>(checked.pages[i]), "page", "pages"));
  }
}

// Whom each record is about, and how much it says of them.
void print_records(std::string& out, const std::string& path,
                   const std::vector<RecordReport>& records) {
  out += fmt::format("{}\n", printable(path));
  for (const RecordReport& record : records) {
    out += fmt::format("  {}  {}{}{}: {} marked, {} absent, {}\n",
                       date_text(record.date), printable(record.lesson),
                       record.lesson.empty() ? "" : ", ",
                       kind_words(record.kind), record.marked, record.absent,
                       counted(record.errors, "word wrong", "words wrong"));
  }
}

}  // namespace

std::string file_report(Workspace& workspace, const std::string& path,
                        const CheckedFile& checked) {
  std::string out;
  if (checked.lesson) print_report(out, path, *checked.lesson);
  if (checked.job) print_learners(out, path, checked);
  if (checked.taught) {
    print_steps(out, workspace.phonics(), path, *checked.taught);
  }
  if (!checked.records.empty()) print_records(out, path, checked.records);
  if (checked.sentences) {
    out += sentence_report(path, *checked.sentences);
  }
  return out;
}

}  // namespace sheaf
