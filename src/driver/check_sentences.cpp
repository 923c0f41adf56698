#include "driver/check_sentences.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "analysis/lesson_conventions.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "driver/planning_ground.h"
#include "input/sentence_file.h"
#include "phonics/explain.h"
#include "phonics/words_in.h"
#include "planning/own_sentences.h"
#include "planning/sentence_search.h"

namespace sheaf {

namespace {

// A word of the file: what it shows, and from which step on it can be read.
struct KnownWord {
  std::vector<PatternId> patterns;
  int first_step = 0;
  /// No list knows it, and it comes after too many such words.
  bool unread = false;
};

class SentenceChecker {
 public:
  SentenceChecker(const Phonics& phonics, const Conventions& conventions,
                  const BlockList& blocked, std::vector<Taught> taught,
                  Diagnostics& diagnostics)
      : phonics_(phonics),
        conventions_(conventions),
        blocked_(blocked),
        taught_(std::move(taught)),
        diagnostics_(diagnostics),
        having_(phonics.patterns().all().size()),
        readable_(having_.size()),
        steps_(having_.size(), -1) {
    for (std::size_t step = 0; step < taught_.size(); ++step) {
      for (const PatternId id :
           taught_[step].patterns_of(static_cast<int>(step))) {
        if (steps_[id] < 0) steps_[id] = static_cast<int>(step);
      }
    }
  }

  SentenceReport run(const SentenceFile& file) {
    SentenceReport report;
    const SentenceQuery usual;
    for (const PlacedText& sentence : file.sentences) {
      if (is_repeated(sentence)) continue;
      ++report.sentences;
      if (look_at(sentence) > usual.words.most) ++report.long_ones;
    }
    report_more_unknown();
    for (std::size_t i = 0; i < having_.size(); ++i) {
      if (taught_.empty() ? having_[i] == 0 : steps_[i] < 0) continue;
      report.rows.push_back(
          {std::string(phonics_.patterns()[static_cast<PatternId>(i)].id),
           steps_[i], having_[i], readable_[i]});
    }
    std::ranges::stable_sort(report.rows, std::greater<>(),
                             &SentenceReport::Row::having);
    return report;
  }

 private:
  bool is_repeated(const PlacedText& sentence) {
    const auto [before, is_new] =
        first_.emplace(sentence_key(sentence.text()), &sentence);
    if (is_new) return false;
    const PlacedText& first = *before->second;
    Help help = "take one of the two out";
    if (first.text() == sentence.text()) {
      help.fixes.push_back(
          {sentence.span(), "",
           "the second of two sentences that are the same is taken out", true});
    }
    Diagnostic& d = diagnostics_.warning(
        diagnostic::repeated_sentence, sentence.span(),
        fmt::format("the sentence {} is in the list already",
                    as_written(sentence.text())),
        std::move(help));
    d.remarks.push_back({first.span(), "here for the first time"});
    return true;
  }

  // How many words the sentence has.
  int look_at(const PlacedText& sentence) {
    int words = 0;
    int first_step = 0;
    bool unread = false;
    std::set<PatternId> patterns;
    for (const WordPlace& place : words_in(sentence.text())) {
      const KnownWord& word = look_up(sentence.part(place.begin, place.end));
      first_step = std::max(first_step, word.first_step);
      patterns.insert(word.patterns.begin(), word.patterns.end());
      unread = unread || word.unread;
      ++words;
    }
    if (unread) {
      ++left_out_;
      return words;
    }
    for (const PatternId id : patterns) {
      ++having_[id];
      if (steps_[id] >= first_step) ++readable_[id];
    }
    return words;
  }

  const KnownWord& look_up(const Spanned<std::string>& word) {
    const auto [place, is_new] = words_.try_emplace(word.value);
    KnownWord& known = place->second;
    if (!is_new) return known;
    if (!phonics_.knows(word.value) && ++guesses_ > kMostGuessedWords) {
      known.unread = true;
      if (!first_unread_) first_unread_ = word.span;
      return known;
    }
    const auto reading = phonics_.first_reading(word.value, conventions_);
    if (reading->origin == Reading::Origin::guess) {
      report_unknown(word, *reading);
    }
    for (const PatternPlace& found : reading->places) {
      known.patterns.push_back(found.pattern);
    }
    known.first_step = first_step_of(word.value, *reading);
    return known;
  }

  // What can be read at one step can be read at all that follow.
  int first_step_of(const std::string& word, const Reading& reading) const {
    const std::string small = lower_case(word);
    const auto first =
        std::ranges::partition_point(taught_, [&](const Taught& taught) {
          return !taught.is_sight_word(small) && !taught.is_decodable(reading);
        });
    return static_cast<int>(first - taught_.begin());
  }

  void report_unknown(const Spanned<std::string>& word,
                      const Reading& reading) {
    if (!unknown_.insert(lower_case(word.value)).second) return;
    const auto meant =
        phonics_.meant_words(word.value, [&](std::string_view other) {
          return !BlockList::shipped().blocks(other) && !blocked_.blocks(other);
        });
    const std::vector<std::string_view> names(meant.begin(), meant.end());
    Help question = ask_for(word.value, names);
    constexpr std::string_view kElse =
        "a lesson that takes this sentence can correct the guess under "
        "`split:`";
    diagnostics_.warning(
        diagnostic::unknown_word, word.span,
        fmt::format("{} is not in the word list; its graphemes are a guess: {}",
                    as_written(word.value), graphemes_text(reading)),
        question.empty()
            ? Help(std::string(kElse))
            : Help(fmt::format("{} If not, {}", question.text, kElse),
                   std::move(question.fixes)));
  }

  void report_more_unknown() {
    if (!first_unread_) return;
    diagnostics_.warning(
        diagnostic::unknown_word, first_unread_,
        fmt::format("from here on {} more words are not in the word list, and "
                    "Sheaf passes over the {} sentences with them",
                    guesses_ - kMostGuessedWords, left_out_),
        "look at the words above first; is this list in English?");
  }

  const Phonics& phonics_;
  const Conventions& conventions_;
  const BlockList& blocked_;
  std::vector<Taught> taught_;  // by step; none without a sequence
  Diagnostics& diagnostics_;
  std::vector<int> having_, readable_, steps_;  // by pattern
  std::map<std::string, const PlacedText*> first_;
  std::map<std::string, KnownWord> words_;
  std::set<std::string> unknown_;
  int guesses_ = 0, left_out_ = 0;
  Span first_unread_;  // a word
};

// What a group was taught at each step of a sequence.
std::vector<Taught> taught_at_each(const SequenceFile& sequence,
                                   const Phonics& phonics,
                                   Diagnostics& diagnostics) {
  std::vector<Taught> all;
  const int last = static_cast<int>(sequence.steps.size()) - 1;
  const Taught whole = taught_at(sequence, last, phonics, diagnostics);
  if (diagnostics.has_errors()) return all;
  for (int step = 0; step < last; ++step) all.push_back(whole.before(step));
  all.push_back(whole);
  return all;
}

}  // namespace

SentenceReport check_sentences(Workspace& workspace, const FilePath& path,
                               const SourceFile& file,
                               Diagnostics& diagnostics) {
  const SentenceFile sentences =
      read_sentence_file(file, TellSlips::yes, diagnostics);
  const FilePath folder = path.parent_path();
  const FilePath beside = folder / kSequenceFile;
  const SequenceFile* sequence = workspace.has_file(beside)
                                     ? workspace.sequence(beside, diagnostics)
                                     : nullptr;
  if (diagnostics.has_errors()) return {};
  // As a lesson beside them would find them.
  Lesson lesson;
  std::vector<Taught> taught;
  if (sequence != nullptr) {
    inherit_conventions(*sequence, lesson);
    taught = taught_at_each(*sequence, workspace.phonics(), diagnostics);
  }
  const Conventions conventions = lesson_conventions(lesson, diagnostics);
  if (diagnostics.has_errors()) return {};
  const std::vector<Taught::Step> steps =
      taught.empty() ? std::vector<Taught::Step>() : taught.back().steps();
  SentenceReport report = SentenceChecker(workspace.phonics(), conventions,
                                          own_block_list(workspace, "", folder),
                                          std::move(taught), diagnostics)
                              .run(sentences);
  report.steps = steps;
  if (sequence != nullptr) report.sequence = beside.string();
  return report;
}

}  // namespace sheaf
