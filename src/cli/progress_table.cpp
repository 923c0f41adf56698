// Progress as a table for spreadsheets and as JSON.

#include "cli/progress_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

#include "base/nearest.h"
#include "cli/text_table.h"
#include "marking/likely_range.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

using ProgressJson = nlohmann::ordered_json;

// Errors of a learner, and those that follow how this one speaks.
struct SpeechCount {
  int errors = 0, follow = 0;

  void add(Cause cause) {
    if (cause == Cause::none) return;
    ++errors;
    if (cause == Cause::own_speech) ++follow;
  }
};

SpeechCount speech_count(const std::vector<MarkedRecord>& records,
                         const LearnerCode& code) {
  SpeechCount count;
  for (const MarkedRecord& marked : records) {
    const LearnerResult* learner = marked.session.find(code);
    if (learner == nullptr) continue;
    for (const SessionWord& word : learner->words) {
      for (const MarkedGrapheme& g : word.attempt.graphemes) count.add(g.cause);
      for (const ExtraLetter& extra : word.attempt.extra) {
        count.add(extra.cause);
      }
    }
  }
  return count;
}

int percent(double share) { return static_cast<int>(std::lround(100 * share)); }

std::string day_or_nothing(const std::optional<Date>& day) {
  return day ? date_text(*day) : std::string();
}

// "3,4" for a share, two empty cells for one without chances.
std::string two_cells(const Share& share) {
  return share.of == 0 ? "," : fmt::format("{},{}", share.right, share.of);
}

std::string likely_cells(const Share& window) {
  if (window.of == 0) return ",";
  const ShareRange range = score_range(window, kNineInTen);
  return fmt::format("{},{}", percent(range.low), percent(range.high));
}

ProgressJson share_json(const Share& share) {
  return {{"right", share.right}, {"of", share.of}};
}

ProgressJson day_json(const std::optional<Date>& day) {
  return day ? ProgressJson(date_text(*day)) : ProgressJson(nullptr);
}

ProgressJson pattern_json(const PatternProgress& p,
                          const PatternCatalogue& catalogue) {
  ProgressJson j;
  j["pattern"] = catalogue[p.pattern].id;
  j["state"] = state_name(p.state);
  j["taught"] = date_text(p.taught);
  j["last"] = date_text(p.last);
  j["secure_since"] = day_json(p.secure_since);
  j["slipped_on"] = day_json(p.slipped_on);
  j["all"] = share_json(p.all);
  j["window"] = share_json(p.window);
  j["likely"] = nullptr;
  if (p.window.of > 0) {
    const ShareRange range = score_range(p.window, kNineInTen);
    j["likely"] = {{"low", percent(range.low)}, {"high", percent(range.high)}};
  }
  j["new_words"] = share_json(p.new_words);
  j["writing"] = share_json(p.writing);
  j["before"] = share_json(p.before);
  j["days"] = p.days;
  j["why"] = p.why;
  return j;
}

ProgressJson learner_json(const LearnerProgress& learner,
                          const std::vector<MarkedRecord>& records,
                          const PatternCatalogue& catalogue) {
  ProgressJson j;
  j["learner"] = learner.code.text();
  j["patterns"] = ProgressJson::array();
  for (const PatternProgress& p : learner.patterns) {
    j["patterns"].push_back(pattern_json(p, catalogue));
  }
  j["not_taught"] = ProgressJson::array();
  for (const UntaughtPattern& p : learner.untaught) {
    j["not_taught"].push_back({{"pattern", catalogue[p.pattern].id},
                               {"right", p.share.right},
                               {"of", p.share.of}});
  }
  j["days"] = ProgressJson::array();
  for (const SequencePoint& day : learner.sequences) {
    j["days"].push_back(
        {{"date", date_text(day.date)},
         {"kind", kind_name(day.kind)},
         {"words", share_json(day.words)},
         {"letter_sequences", day.sequences.correct},
         {"letter_sequences_possible", day.sequences.possible}});
  }
  const SpeechCount count = speech_count(records, learner.code);
  j["errors"] = {{"all", count.errors}, {"follow_speech", count.follow}};
  return j;
}

}  // namespace

std::string progress_csv(std::span<const LearnerProgress> learners,
                         const PatternCatalogue& catalogue) {
  std::string text =
      "learner,pattern,state,taught,last,secure_since,slipped_on,right,of,"
      "window_right,window_of,likely_low,likely_high,new_right,new_of,"
      "writing_right,writing_of,before_right,before_of,days,why\r\n";
  for (const LearnerProgress& learner : learners) {
    for (const PatternProgress& p : learner.patterns) {
      text += fmt::format(
          "{},{},{},{},{},{},{},{},{},{},{},{},{},{},{}\r\n",
          csv_field(learner.code.text()), catalogue[p.pattern].id,
          state_name(p.state), date_text(p.taught), date_text(p.last),
          day_or_nothing(p.secure_since), day_or_nothing(p.slipped_on),
          two_cells(p.all), two_cells(p.window), likely_cells(p.window),
          two_cells(p.new_words), two_cells(p.writing), two_cells(p.before),
          p.days, csv_field(p.why));
    }
    for (const UntaughtPattern& p : learner.untaught) {
      text += fmt::format("{},{},{}{},,\r\n", csv_field(learner.code.text()),
                          catalogue[p.pattern].id, std::string(15, ','),
                          two_cells(p.share));
    }
  }
  return text;
}

std::string progress_json(std::span<const LearnerProgress> learners,
                          const std::vector<MarkedRecord>& records,
                          const PatternCatalogue& catalogue,
                          const Date& as_of) {
  ProgressJson all;
  all["as_of"] = date_text(as_of);
  all["learners"] = ProgressJson::array();
  for (const LearnerProgress& learner : learners) {
    all["learners"].push_back(learner_json(learner, records, catalogue));
  }
  return all.dump(2, ' ', false, ProgressJson::error_handler_t::replace);
}

std::string follows_speech_text(const std::vector<MarkedRecord>& records,
                                const LearnerCode& learner) {
  const SpeechCount count = speech_count(records, learner);
  if (count.follow == 0) return {};
  return fmt::format("{}: {} of {} errors", cause_words(Cause::own_speech),
                     count.follow, count.errors);
}

bool know_learners(const std::vector<MarkedRecord>& records,
                   const std::vector<LearnerCode>& asked,
                   std::string_view verb) {
  std::set<std::string> codes;
  for (const MarkedRecord& marked : records) {
    const Record& record = *marked.record;
    for (const LearnerResult& learner : marked.session.learners) {
      codes.insert(learner.code.text());
    }
    // Of a form that is not marked yet nobody is in the session.
    for (const auto* list : {&record.marked, &record.absent}) {
      for (const PlacedCode& code : *list) codes.insert(code.value.text());
    }
    for (const auto* list : {&record.wrong, &record.written}) {
      for (const auto& one : *list) codes.insert(one.code.value.text());
    }
    for (const auto& one : record.writing) codes.insert(one.code.value.text());
  }
  const std::vector<std::string_view> names(codes.begin(), codes.end());
  bool all_known = true;
  for (const LearnerCode& code : asked) {
    if (codes.contains(code.text())) continue;
    const std::string help = did_you_mean(code.text(), names).text;
    fmt::print(stderr, "sheaf {}: no record speaks of {}; {}\n", verb,
               sheaf::quoted(code.text()),
               !help.empty() ? help
               : names.empty()
                   ? std::string("the records list nobody")
                   : fmt::format("they list {}", fmt::join(names, ", ")));
    all_known = false;
  }
  return all_known;
}

}  // namespace sheaf
