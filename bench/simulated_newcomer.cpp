#include "simulated_newcomer.h"

#include <fmt/format.h>

#include <stdexcept>

#include "marking/likely_errors.h"
#include "marking/pattern_chance.h"
#include "phonics/lexicon.h"

namespace sheaf::bench {

namespace {

constexpr std::string_view kNewcomer = "N1";
constexpr std::string_view kCheckFile = "placement.yaml";

[[noreturn]] void fail(const std::string& what) {
  throw std::logic_error("the simulation: " + what);
}

// Where the letters of the units stand, other letters: for words of which no
// likely error is known.
std::vector<std::string> spoiled(const Reading& reading) {
  std::vector<std::string> all;
  for (const Unit& unit : reading.units) {
    std::string text = reading.word;
    text.replace(unit.begin, unit.end - unit.begin, "z");
    all.push_back(text);
  }
  all.push_back(reading.word.substr(0, 1));
  return all;
}

}  // namespace

PlacementTrial::PlacementTrial(Workspace& workspace, const FilePath& sequence)
    : workspace_(workspace) {
  Diagnostics diagnostics;
  made_ = make_placement(workspace, sequence, sequence.filename().string(),
                         diagnostics);
  if (diagnostics.has_errors()) fail("no check of " + sequence.string());
  file_ = std::make_unique<SourceFile>(std::string(kCheckFile), made_.text);
  lesson_ = read_lesson(*file_, diagnostics);
  plan_ = plan_lesson(
      workspace, {}, sequence.parent_path(), lesson_, workspace.phonics(),
      PictureTest([](std::string_view) { return false; }), diagnostics);
  if (diagnostics.has_errors()) fail("the check has errors");
  check_ = std::make_unique<PlacementCheck>(plan_.analyzed);
  spellings_ = std::make_unique<SoundSpellings>(
      workspace.phonics().lexicon().inventory());
  for (const AnalyzedWord& word : plan_.analyzed.dictate_words) {
    items_.push_back({word.reading.word, {}, false});
    items_.back().words.own().push_back(word.reading);
  }
  for (std::size_t i = 0; i < items_.size(); ++i) {
    missed_.push_back(misspelled(i));
  }
}

// The likeliest error that marking counts as one in the word's new part.
std::string PlacementTrial::misspelled(std::size_t word) const {
  const Reading& reading = items_[word].words.front();
  const PlacementCheck::Rung& rung = check_->rungs()[*check_->rung_of(word)];
  const PatternCatalogue& catalogue = workspace_.phonics().patterns();
  std::vector<std::uint8_t> units;
  for (const PatternId id : rung.patterns) {
    if (const PatternPlace* place = reading.find(id)) {
      units.insert(units.end(), place->units.begin(), place->units.end());
    }
  }
  LikelyErrorOptions options;
  options.pattern_units = units;
  options.is_word = [](std::string_view) { return false; };
  std::vector<std::string> tries;
  for (const LikelyError& error :
       likely_errors(*spellings_, reading, options, 12)) {
    tries.push_back(error.written);
  }
  for (std::string& text : spoiled(reading)) tries.push_back(std::move(text));
  for (const std::string& written : tries) {
    const MarkedAttempt attempt = mark_attempt(*spellings_, items_[word].words,
                                               written, MarkingOptions{});
    for (const PatternId id : rung.patterns) {
      const PatternPlace* place = reading.find(id);
      if (place != nullptr &&
          missed_cause(attempt, *place, catalogue) != Cause::none) {
        return written;
      }
    }
  }
  fail(fmt::format("nothing misses the new part of {}", reading.word));
}

SessionResult PlacementTrial::marked(const std::string& record_text) const {
  const SourceFile file("record.yaml", record_text);
  Diagnostics diagnostics;
  const RecordFile records = read_record(file, diagnostics);
  if (diagnostics.has_errors() || records.records.size() != 1) {
    fail("a record has errors");
  }
  SessionResult session =
      mark_session(records.records.front(), {}, items_, *spellings_,
                   workspace_.phonics(), MarkingOptions{});
  session.sight_words = plan_.analyzed.taught.sight_words();
  const auto strays = keep_dictated(session, records.records.front(), *check_,
                                    workspace_.phonics().patterns());
  if (!strays.empty()) fail("a word was dictated that was not asked for");
  return session;
}

PlacedLearner PlacementTrial::place(const RightAt& right_at, Random& random,
                                    const PlacementModel& model) const {
  std::string wrong;
  dictated_ = 0;
  const auto dictate = [&](std::size_t word) {
    ++dictated_;
    const std::size_t step = check_->rungs()[*check_->rung_of(word)].step;
    const bool right = random.next() < right_at(step);
    if (!right) {
      wrong += fmt::format("{}\"{}\": \"{}\"", wrong.empty() ? "" : ", ",
                           items_[word].text, missed_[word]);
    }
    return right;
  };
  std::vector<bool> part_one;
  std::size_t on_end = 0;
  while (part_one.size() < check_->part_one().size() &&
         on_end < PlacementCheck::kStopAfter) {
    part_one.push_back(dictate(part_one.size()));
    on_end = part_one.back() ? 0 : on_end + 1;
  }
  const std::size_t first = check_->part_two_from(right_in_part_one(part_one));
  for (std::size_t r = first; r < check_->part_two_end(first); ++r) {
    for (const std::size_t word : check_->rungs()[r].words) dictate(word);
  }
  const SessionResult session = marked(fmt::format(
      "date: 2026-09-04\nlesson: {0}\nkind: retention\nmarked: all\n"
      "part-two: {{{1}: {2}}}\nwrong: {{{1}: {{{3}}}}}\n",
      kCheckFile, kNewcomer, check_->rungs()[first].number, wrong));
  if (session.learners.size() != 1 ||
      session.learners[0].words.size() != dictated_) {
    fail("the record holds other words than were dictated");
  }
  return place_learner(session, session.learners[0], *check_, steps(),
                       workspace_.phonics().patterns(), model);
}

}  // namespace sheaf::bench
