#include "driver/record_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>

#include "base/nearest.h"
#include "marking/calendar.h"

namespace sheaf {

namespace {

constexpr int kFarFromOthers = 183;  // days, half a year

// In quotes, as a key of the record that may be a whole sentence.
std::string as_target(const std::string& text) {
  if (text.find_first_of(" :#{}[],&*!|>'\"%@`?-") == std::string::npos) {
    return text;
  }
  std::string quoted_text = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') quoted_text += '\\';
    quoted_text += c;
  }
  return quoted_text + "\"";
}

// What was dictated and is near, as a question with fixes.
Help nearest_target(const PlacedText& target, const TaughtFile& lesson) {
  const std::vector<DictatedItem>& items = lesson.items;
  std::vector<std::string_view> texts;
  for (const DictatedItem& item : items) texts.emplace_back(item.text);
  Help help = did_you_mean(target.text(), texts);
  for (Fix& fix : help.fixes) fix.replacement = as_target(fix.replacement);
  return help;
}

bool is_known(const std::string& text, const Phonics& phonics) {
  const DictatedItem item = dictated_item(text, phonics);
  return std::ranges::all_of(item.words, [&](const Reading& word) {
    return word.origin != Reading::Origin::guess;
  });
}

// Whether a target stands under `wrong`, where what is not named was right.
bool is_under_wrong(const Record& record, const PlacedText& target) {
  return std::ranges::any_of(record.wrong, [&](const auto& learner) {
    return std::ranges::any_of(learner.entries, [&](const Attempt& attempt) {
      return attempt.target.span().begin == target.span().begin;
    });
  });
}

// The same day of the month in another year.
std::optional<Date> in_year(const Date& day, int year) {
  return read_date(date_text({year, day.month, day.day}));
}

// A question with the day as it was most likely meant.
Help ask_for_day(const Date& written, const std::optional<Date>& likely,
                 std::string otherwise) {
  if (!likely) return {std::move(otherwise)};
  const std::string was = date_text(written), now = date_text(*likely);
  return {fmt::format("did you mean `{}`? If not, {}", now, otherwise),
          {{{}, now, is_now(was, now)}}};
}

void report_outside(const Record& record, const ClassFile& pupils,
                    Diagnostics& diagnostics) {
  const SchoolYear& year = *pupils.school_year;
  const Date& day = record.date.value;
  std::optional<Date> likely;
  for (int y = year.first.year; y <= year.last.year && !likely; ++y) {
    const auto same = in_year(day, y);
    if (same && year.has(*same)) likely = same;
  }
  Diagnostic& d = diagnostics.error(
      diagnostic::unlikely_date, record.date.span,
      fmt::format("{} is not in the school year of the class, {} to {}",
                  date_text(day), date_text(year.first), date_text(year.last)),
      ask_for_day(day, likely,
                  "write another day, or change `school-year:` in the class "
                  "file"));
  d.remarks.push_back({year.span, "the school year"});
}

// How far the nearest other day is; nothing where all are the same record's.
std::optional<int> days_to_nearest(const std::vector<MarkedRecord>& records,
                                   std::size_t own) {
  std::optional<int> nearest;
  for (std::size_t i = 0; i < records.size(); ++i) {
    if (i == own) continue;
    const int days = std::abs(
        days_between(records[own].session.date, records[i].session.date));
    if (!nearest || days < *nearest) nearest = days;
  }
  return nearest;
}

void report_far(const std::vector<MarkedRecord>& records, std::size_t own,
                int days, Diagnostics& diagnostics) {
  const Record& record = *records[own].record;
  const Date& day = record.date.value;
  std::optional<Date> likely;
  int best = kFarFromOthers;
  for (const MarkedRecord& other : records) {
    const auto same = in_year(day, other.session.date.year);
    if (!same || *same == day) continue;
    const int away = std::abs(days_between(*same, other.session.date));
    if (away < best) {
      best = away;
      likely = same;
    }
  }
  diagnostics.warning(
      diagnostic::unlikely_date, record.date.span,
      fmt::format("{} is {} days from the nearest other record", date_text(day),
                  days),
      ask_for_day(day, likely,
                  "give `school-year:` in the class file, and Sheaf asks no "
                  "more"));
}

bool is_same_writing(const MarkedRecord& a, const LearnerResult& in_a,
                     const MarkedRecord& b, const LearnerResult& in_b) {
  const auto same_word = [&](const SessionWord& x, const SessionWord& y) {
    return a.session.reading(x).word == b.session.reading(y).word &&
           x.attempt.written == y.attempt.written && x.kind == y.kind;
  };
  const auto same_tally = [](const LearnerResult::Tally& x,
                             const LearnerResult::Tally& y) {
    return x.pattern == y.pattern && x.right == y.right &&
           x.chances == y.chances;
  };
  return std::ranges::equal(in_a.words, in_b.words, same_word) &&
         std::ranges::equal(in_a.writing, in_b.writing, same_tally);
}

bool is_same_occasion(const MarkedRecord& a, const MarkedRecord& b) {
  return a.session.date == b.session.date && a.session.kind == b.session.kind &&
         a.session.lesson == b.session.lesson &&
         (a.lesson != nullptr || a.session.kind == Record::Kind::writing);
}

// Takes out of `later` whom both list with the same writing, and says so.
void report_pair(const MarkedRecord& first, MarkedRecord& later,
                 Diagnostics& diagnostics) {
  std::vector<LearnerCode> same, other;
  for (const LearnerResult& learner : later.session.learners) {
    const LearnerResult* known = first.session.find(learner.code);
    if (known == nullptr || known->absent || learner.absent) continue;
    (is_same_writing(first, *known, later, learner) ? same : other)
        .push_back(learner.code);
  }
  if (same.empty() && other.empty()) return;
  std::erase_if(later.session.learners, [&](const LearnerResult& learner) {
    return std::ranges::find(same, learner.code) != same.end();
  });
  const std::string where =
      first.path == later.path
          ? std::string("above")
          : fmt::format("in {}", sheaf::quoted(first.path));
  const std::vector<LearnerCode>& codes = same.empty() ? other : same;
  std::string text =
      fmt::format("{} already {} a record of this lesson, day and kind {}",
                  codes_text(codes), codes.size() == 1 ? "has" : "have", where);
  text += same.empty() ? "; what it says is different, and both count"
                       : ", with the same in it; it counts once";
  if (!same.empty() && !other.empty()) {
    text += fmt::format("; of {} both count, which differ", codes_text(other));
  }
  diagnostics
      .warning(diagnostic::repeated_record, later.record->date.span,
               std::move(text),
               first.path == later.path
                   ? "take one of the two out; if it was another dictation, "
                     "change its `date:` or its `kind:`"
                   : "delete one of the two files; if it was another "
                     "dictation, change its `date:` or its `kind:`")
      .remarks.push_back({first.record->date.span, "the first one"});
}

}  // namespace

void report_codes(const MarkedRecord& marked, Diagnostics& diagnostics) {
  if (marked.pupils == nullptr) return;
  std::vector<std::string_view> codes;
  for (const LearnerEntry& learner : marked.pupils->learners) {
    codes.emplace_back(learner.code.value.text());
  }
  for (const PlacedCode& code : marked.session.not_in_class) {
    Help help = did_you_mean(code.value.text(), codes);
    if (help.empty()) {
      help =
          "check the code against the class file; who has left keeps a line "
          "there, with `until:` and the last day";
    }
    diagnostics.error(diagnostic::not_in_class, code.span,
                      fmt::format("there is no learner {} in the class",
                                  as_written(code.value.text())),
                      std::move(help));
  }
}

void report_targets(const MarkedRecord& marked, const Phonics& phonics,
                    Diagnostics& diagnostics) {
  if (marked.lesson == nullptr) return;
  const bool of_lesson = marked.session.kind == Record::Kind::dictation;
  for (const PlacedText& target : marked.session.not_dictated) {
    const std::string text = fmt::format("the lesson does not dictate {}",
                                         as_written(target.text()));
    Help help = nearest_target(target, *marked.lesson);
    const bool near = !help.empty();
    const bool known = is_known(target.text(), phonics);
    if (of_lesson && near && !known) {
      diagnostics.error(diagnostic::not_dictated, target.span(), text,
                        std::move(help));
    } else if (near && (!known || (of_lesson &&
                                   is_under_wrong(*marked.record, target)))) {
      diagnostics.warning(diagnostic::not_dictated, target.span(),
                          text + "; it is marked anyway", std::move(help));
    } else if (of_lesson) {
      diagnostics.note(diagnostic::not_dictated, target.span(),
                       text + "; it is marked anyway");
    }
  }
}

void report_steps(const MarkedRecord& marked, Diagnostics& diagnostics) {
  for (const LearnerResult& learner : marked.session.learners) {
    if (!learner.beyond_step) continue;
    const PlacedCode* code = marked.record->find_code(learner.code);
    const Taught& taught = marked.lesson->analyzed.taught;
    diagnostics.warning(
        diagnostic::other_step, code == nullptr ? Span() : code->span,
        fmt::format(
            "the lesson is of {}, and the class file has {} at an earlier "
            "step, so it counts as teaching {} nothing",
            step_name(taught.steps()[static_cast<std::size_t>(taught.step())]),
            as_written(learner.code.text()), learner.code.text()),
        fmt::format("if {} has come as far, change `step:` in the class file; "
                    "else take the code out of this record",
                    learner.code.text()));
  }
}

void report_days(const std::vector<MarkedRecord>& records,
                 Diagnostics& diagnostics) {
  std::vector<std::optional<int>> nearest;
  for (std::size_t i = 0; i < records.size(); ++i) {
    nearest.push_back(days_to_nearest(records, i));
  }
  // Of two records nobody knows which is the odd one.
  const bool have_company = std::ranges::any_of(
      nearest, [](const auto& days) { return days && *days < kFarFromOthers; });
  for (std::size_t i = 0; i < records.size(); ++i) {
    const ClassFile* pupils = records[i].pupils;
    const Record& record = *records[i].record;
    if (pupils != nullptr && pupils->school_year) {
      if (!pupils->school_year->has(record.date.value)) {
        report_outside(record, *pupils, diagnostics);
      }
    } else if (have_company && nearest[i] && *nearest[i] >= kFarFromOthers) {
      report_far(records, i, *nearest[i], diagnostics);
    }
  }
}

void report_repeated(std::vector<MarkedRecord>& records,
                     Diagnostics& diagnostics) {
  for (std::size_t i = 0; i < records.size(); ++i) {
    for (std::size_t before = 0; before < i; ++before) {
      if (!is_same_occasion(records[before], records[i])) continue;
      report_pair(records[before], records[i], diagnostics);
    }
  }
}

}  // namespace sheaf
