// Progress as a table for spreadsheets and as JSON.

#include "cli/progress_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/nearest.h"
#include "cli/text_table.h"
#include "marking/likely_range.h"
#include "marking/score_words.h"

namespace sheaf {

namespace {

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

// A text for JSON; all that Sheaf says here is UTF-8.
std::string json_text(std::string_view plain) {
  std::string text = "\"";
  for (const char c : plain) {
    if (c == '"' || c == '\\') text += '\\';
    if (static_cast<unsigned char>(c) < 0x20) {
      text += fmt::format("\\u{:04x}", static_cast<int>(c));
    } else {
      text += c;
    }
  }
  return text + "\"";
}

std::string json_day(const std::optional<Date>& day) {
  return day ? json_text(date_text(*day)) : "null";
}

std::string json_share(const Share& share) {
  return fmt::format("{{\"right\": {}, \"of\": {}}}", share.right, share.of);
}

std::string json_likely(const Share& window) {
  if (window.of == 0) return "null";
  const ShareRange range = score_range(window, kNineInTen);
  return fmt::format("{{\"low\": {}, \"high\": {}}}", percent(range.low),
                     percent(range.high));
}

// A list with each of its parts in a line of its own.
std::string json_list(const std::vector<std::string>& parts,
                      std::string_view indent) {
  if (parts.empty()) return "[]";
  return fmt::format("[\n{0}  {1}\n{0}]", indent,
                     fmt::join(parts, fmt::format(",\n{}  ", indent)));
}

std::string json_pattern(const PatternProgress& p,
                         const PatternCatalogue& catalogue) {
  return fmt::format(
      "{{\"pattern\": {}, \"state\": {}, \"taught\": {}, \"last\": {}, "
      "\"secure_since\": {}, \"slipped_on\": {}, \"all\": {}, \"window\": {}, "
      "\"likely\": {}, \"new_words\": {}, \"writing\": {}, \"before\": {}, "
      "\"days\": {}, \"why\": {}}}",
      json_text(catalogue[p.pattern].id), json_text(state_name(p.state)),
      json_day(p.taught), json_day(p.last), json_day(p.secure_since),
      json_day(p.slipped_on), json_share(p.all), json_share(p.window),
      json_likely(p.window), json_share(p.new_words), json_share(p.writing),
      json_share(p.before), p.days, json_text(p.why));
}

std::string json_learner(const LearnerProgress& learner,
                         const std::vector<MarkedRecord>& records,
                         const PatternCatalogue& catalogue) {
  std::vector<std::string> patterns, untaught, days;
  for (const PatternProgress& p : learner.patterns) {
    patterns.push_back(json_pattern(p, catalogue));
  }
  for (const UntaughtPattern& p : learner.untaught) {
    untaught.push_back(fmt::format(
        "{{\"pattern\": {}, \"right\": {}, \"of\": {}}}",
        json_text(catalogue[p.pattern].id), p.share.right, p.share.of));
  }
  for (const SequencePoint& day : learner.sequences) {
    days.push_back(fmt::format(
        "{{\"date\": {}, \"kind\": {}, \"words\": {}, \"letter_sequences\": "
        "{}, \"letter_sequences_possible\": {}}}",
        json_day(day.date), json_text(kind_name(day.kind)),
        json_share(day.words), day.sequences.correct, day.sequences.possible));
  }
  const SpeechCount count = speech_count(records, learner.code);
  constexpr std::string_view kIndent = "      ";
  return fmt::format(
      "{{\n{0}\"learner\": {1},\n{0}\"patterns\": {2},\n{0}\"not_taught\": "
      "{3},\n{0}\"days\": {4},\n{0}\"errors\": {{\"all\": {5}, "
      "\"follow_speech\": {6}}}\n    }}",
      kIndent, json_text(learner.code.text()), json_list(patterns, kIndent),
      json_list(untaught, kIndent), json_list(days, kIndent), count.errors,
      count.follow);
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
  std::vector<std::string> all;
  for (const LearnerProgress& learner : learners) {
    all.push_back(json_learner(learner, records, catalogue));
  }
  return fmt::format("{{\n  \"as_of\": {},\n  \"learners\": {}\n}}",
                     json_day(as_of), json_list(all, "  "));
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
