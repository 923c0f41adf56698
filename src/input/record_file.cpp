#include "input/record_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/options.h"
#include "base/utf8.h"
#include "base/written_text.h"
#include "input/class_file.h"
#include "input/fields.h"
#include "input/file_kind.h"
#include "input/learner_names.h"
#include "input/record_attempts.h"
#include "input/record_learners.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostRecords = 500;
constexpr int kMostChances = 999;
constexpr std::string_view kRecordExample = "date: 2026-03-12";

struct KindName {
  std::string_view name;
  Record::Kind kind;
};
constexpr std::array kKinds = {
    KindName{"dictation", Record::Kind::dictation},
    KindName{"transfer", Record::Kind::transfer},
    KindName{"retention", Record::Kind::retention},
    KindName{"writing", Record::Kind::writing},
    KindName{"probe", Record::Kind::probe},
};

void date_key(const Field& field, Record& record, Diagnostics& d) {
  const PlacedWord text = read_short_text(field, d);
  if (!text.given()) return;
  const auto date = read_date(text.value);
  if (date) {
    record.date = {*date, text.span};
    return;
  }
  d.error(
      diagnostic::wrong_value, text.span,
      fmt::format("{} is not a date in the calendar", as_written(text.value)),
      "write year, month and day with hyphens, as in `date: 2026-03-12`");
}

void kind_key(const Field& field, Record& record, Diagnostics& d) {
  const PlacedWord text = read_short_text(field, d);
  if (!text.given()) return;
  const auto known = std::ranges::find(kKinds, text.value, &KindName::name);
  if (known != kKinds.end()) {
    record.kind = {known->kind, text.span};
    return;
  }
  d.error(diagnostic::wrong_value, text.span,
          fmt::format("{} is not a kind of record", as_written(text.value)),
          "write `dictation`, `transfer`, `retention`, `writing` or `probe`");
}

// Learners' codes; a bad one is reported without being shown.
std::vector<PlacedCode> read_codes(const Field& field,
                                   std::span<const PlacedWord> names,
                                   Diagnostics& d) {
  std::vector<PlacedCode> codes;
  for (const PlacedWord& name : names) {
    if (auto code = LearnerCode::read(name.value)) {
      codes.push_back({*std::move(code), name.span});
    } else {
      report_bad_code(field.place, name.span, d);
    }
  }
  return codes;
}

// A form that is still to be filled in says so in these words.
bool says_not_yet(const Value& value) {
  if (value.kind != Value::Kind::text) return false;
  const std::string text = lower_case(value.text.squeezed().text());
  return text == "not yet" || text == "no";
}

void marked_key(const Field& field, Record& record, Diagnostics& d) {
  record.marked_span = field.value.span;
  record.not_yet = says_not_yet(field.value);
  if (record.not_yet) return;
  const std::vector<PlacedWord> names =
      read_names(field, kMostLearnersOfRecord, d);
  record.marked_all = names.size() == 1 && names.front().value == kAll;
  if (!record.marked_all) record.marked = read_codes(field, names, d);
}

// "3/5": three of five chances were right.
std::optional<Tally> read_tally(const ValueEntry& entry, Diagnostics& d) {
  if (report_joined_key(entry, d)) return std::nullopt;
  const auto text = entry.value.kind == Value::Kind::text
                        ? entry.value.text.squeezed().text()
                        : std::string();
  const std::size_t slash = text.find('/');
  if (slash != std::string::npos) {
    const auto right = read_count(std::string_view(text).substr(0, slash));
    const auto chances = read_count(std::string_view(text).substr(slash + 1));
    if (right && chances && *right >= 0 && *right <= *chances &&
        *chances <= kMostChances) {
      return Tally{entry.key, *right, *chances, entry.value.span};
    }
  }
  d.error(diagnostic::wrong_value, entry.value.span,
          fmt::format("{} is not a count such as 3/5",
                      as_written(entry.value.span.text())),
          fmt::format("write how often it was right, a slash, and how often it "
                      "came up, as in `{}: 3/5`",
                      entry.key.value.size() > 40
                          ? "ai"
                          : sheaf::written(entry.key.value)));
  return std::nullopt;
}

void read_tallies(const Field& field, const ValueEntry& learner,
                  std::vector<Tally>& into, Diagnostics& d) {
  if (learner.value.kind != Value::Kind::keys) {
    report_wrong_kind({learner.key.value, learner.value, field.example}, d);
    return;
  }
  for (const ValueEntry& entry : learner.value.entries) {
    if (const auto tally = read_tally(entry, d)) into.push_back(*tally);
  }
}

// Each learner with the step at which part two of a check began.
void part_two_key(const Field& field, Record& record, Diagnostics& d) {
  constexpr int kHighestStep = 10'000;
  if (field.value.kind != Value::Kind::keys) {
    report_wrong_kind(field, d);
    return;
  }
  for (const ValueEntry& entry : field.value.entries) {
    const auto code = LearnerCode::read(entry.key.value);
    if (!code) {
      report_bad_code(field.place, entry.key.span, d);
      continue;
    }
    // A form has a line for each learner; most are filled in later.
    if (entry.value.kind == Value::Kind::nothing) continue;
    Spanned<int> step{.value = 0};
    read_number({"part-two", entry.value, field.example}, 1, kHighestStep, step,
                d);
    if (step.value > 0) {
      record.part_two.push_back({{*code, entry.key.span}, step});
    }
  }
}

using RecordKey = KeySpec<Record>;
constexpr std::array kRecordKeys = {
    RecordKey{"date", kRecordExample, "the day of the writing", date_key},
    RecordKey{"lesson", "lesson: oa.yaml", "the lesson it belongs to",
              [](const Field& field, Record& record, Diagnostics& d) {
                record.lesson = read_file_name(field, d);
              }},
    RecordKey{"kind", "kind: dictation",
              "dictation, transfer, retention, writing or probe", kind_key},
    RecordKey{"class", "class: class.yaml", "the class that wrote",
              [](const Field& field, Record& record, Diagnostics& d) {
                record.class_file = read_file_name(field, d);
              }},
    RecordKey{"marked", "marked: all", "whose writing was marked", marked_key},
    RecordKey{"absent", "absent: C3, D1", "who was not there",
              [](const Field& field, Record& record, Diagnostics& d) {
                record.absent = read_codes(
                    field, read_names(field, kMostLearnersOfRecord, d), d);
              }},
    RecordKey{"wrong", "wrong: {B7: {rain: rane}, C3: [fis, rus]}",
              "errors alone; a list without their words is laid against what "
              "was dictated",
              [](const Field& field, Record& record, Diagnostics& d) {
                record.wrong = read_wrong(field, d);
              }},
    RecordKey{"written", "written: {B7: {rain: rain, tail: tale}}",
              "whole attempts, right or wrong",
              [](const Field& field, Record& record, Diagnostics& d) {
                record.written = read_written(field, d);
              }},
    RecordKey{"writing", "writing: {B7: {ai: 3/5}}",
              "a count from free writing",
              [](const Field& field, Record& record, Diagnostics& d) {
                record.writing = read_learners<Tally>(
                    field, d,
                    [&](const ValueEntry& learner, std::vector<Tally>& into) {
                      read_tallies(field, learner, into, d);
                    });
              }},
    RecordKey{"part-two", "part-two: {B7: 5}",
              "the step at which part two of a placement check began",
              part_two_key},
    RecordKey{"note", "note: After the holidays.", "a note to yourself",
              [](const Field& field, Record& record, Diagnostics& d) {
                record.note = read_lines(field, LineBreaks::paragraphs, d);
              }},
};

// Whether a record says enough to be marked, and nothing that contradicts
// itself.
class RecordCheck {
 public:
  RecordCheck(const Record& record, const Span& place, Diagnostics& diagnostics)
      : record_(record), place_(place), diagnostics_(diagnostics) {}

  void check() {
    if (!record_.date.given()) {
      missing("the record has no date",
              "add the day of the writing, as in `date: 2026-03-12`");
    }
    if (!record_.lesson.given() && record_.writing.empty()) {
      missing("the record names no lesson",
              "add the lesson that was written, as in `lesson: oa.yaml`");
    }
    if (!record_.wrong.empty() && !record_.marked_span) {
      missing(
          "the record has errors under `wrong` but does not say who was marked",
          "add `marked: all` if everyone who is listed was marked, or the "
          "learners, as in `marked: B7, C3`");
    }
    if (record_.marked_all && record_.wrong.empty() &&
        record_.written.empty() && record_.writing.empty()) {
      diagnostics_.warning(
          diagnostic::missing_key, record_.marked_span,
          "the record says `marked: all` but lists nobody, so it counts for "
          "nobody",
          "name those who wrote, as in `marked: B7, C3`, or list each under "
          "`wrong:`, as in `B7: {}` where everything was right");
    }
    check_absent();
  }

 private:
  void missing(std::string text, std::string help) {
    diagnostics_.error(diagnostic::missing_key, place_, std::move(text),
                       std::move(help));
  }

  void check_absent() {
    for (const PlacedCode& code : record_.absent) {
      for (const auto& learner : record_.wrong) {
        // A form lists everyone; whoever has nothing beneath may be absent.
        if (!learner.entries.empty()) check_code(code, learner.code);
      }
      for (const auto& learner : record_.written) {
        check_code(code, learner.code);
      }
    }
  }

  void check_code(const PlacedCode& absent, const PlacedCode& wrote) {
    if (absent.value != wrote.value) return;
    Diagnostic& d = diagnostics_.error(
        diagnostic::wrong_value, wrote.span,
        fmt::format("{} wrote something but is also listed under `absent`",
                    as_written(wrote.value.text())),
        "remove the code from one of the two places");
    d.remarks.push_back({absent.span, "absent here"});
  }

  const Record& record_;
  Span place_;
  Diagnostics& diagnostics_;
};

void read_one(const Value& keys, const Record& defaults, RecordFile& into,
              Diagnostics& d) {
  const int errors = d.error_count();
  Record record = defaults;
  record.span = keys.span;
  read_by_table<Record>(keys, kRecordKeys, "a record", record, d);
  // What is there and wrong has been told; it is not missing as well.
  if (d.error_count() == errors) {
    const Span place =
        keys.entries.empty() ? keys.span : keys.entries.front().key.span;
    RecordCheck(record, place, d).check();
  }
  into.records.push_back(std::move(record));
}

void read_several(const Value& list, const Record& defaults, RecordFile& into,
                  Diagnostics& d) {
  if (list.kind != Value::Kind::list || list.items.empty()) {
    report_wrong_kind({.key = "records", .value = list}, d);
    return;
  }
  for (const Value& item : list.items) {
    if (item.kind != Value::Kind::keys) {
      d.error(diagnostic::wrong_value, item.span,
              fmt::format("there is {} where a record should be",
                          describe(item.kind)),
              "begin each record with `- date:` and write its other keys under "
              "the date");
    } else if (into.records.size() == kMostRecords) {
      d.error(diagnostic::too_many, item.span,
              fmt::format("there are more than {} records before this one",
                          kMostRecords),
              "split them into two files");
      return;
    } else {
      read_one(item, defaults, into, d);
    }
  }
}

void read_records(Value keys, RecordFile& into, Diagnostics& d) {
  if (const Value* version = keys.find("sheaf")) {
    Spanned<int> read{.value = 1};
    read_version(*version, read, d);
    std::erase_if(keys.entries, [](const ValueEntry& entry) {
      return entry.key.value == "sheaf";
    });
  }
  const Value* list = keys.find("records");
  if (list == nullptr) {
    read_one(keys, {}, into, d);
    return;
  }
  const Value records = *list;
  std::erase_if(keys.entries, [](const ValueEntry& entry) {
    return entry.key.value == "records";
  });
  Record defaults;
  read_by_table<Record>(keys, kRecordKeys, "a record", defaults, d);
  read_several(records, defaults, into, d);
}

}  // namespace

std::optional<Date> read_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-' ||
      std::ranges::count_if(text,
                            [](char c) { return c >= '0' && c <= '9'; }) != 8) {
    return std::nullopt;
  }
  const auto year = read_count(text.substr(0, 4));
  const auto month = read_count(text.substr(5, 2));
  const auto day = read_count(text.substr(8, 2));
  if (!year || !month || !day || *year < 1900 || *month < 1 || *month > 12) {
    return std::nullopt;
  }
  constexpr std::array kDays = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = *year % 4 == 0 && (*year % 100 != 0 || *year % 400 == 0);
  const int days = kDays[*month - 1] + (leap && *month == 2 ? 1 : 0);
  if (*day < 1 || *day > days) return std::nullopt;
  return Date{*year, *month, *day};
}

std::vector<KeyNote> record_keys() { return notes_of(kRecordKeys); }

std::string date_text(const Date& date) {
  return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

bool Record::has_entries() const {
  const auto filled = [](const auto& learner) {
    return !learner.entries.empty();
  };
  return std::ranges::any_of(wrong, filled) ||
         std::ranges::any_of(written, filled) ||
         std::ranges::any_of(writing, filled);
}

const PlacedCode* Record::find_code(const LearnerCode& code) const {
  const PlacedCode* first = nullptr;
  const auto look_at = [&](const PlacedCode& word) {
    const bool earlier =
        first == nullptr || word.span.begin < first->span.begin;
    if (word.value == code && earlier) first = &word;
  };
  for (const PlacedCode& one : marked) look_at(one);
  for (const PlacedCode& one : absent) look_at(one);
  for (const auto& learner : wrong) look_at(learner.code);
  for (const auto& learner : written) look_at(learner.code);
  for (const auto& learner : writing) look_at(learner.code);
  return first;
}

RecordFile read_record(const SourceFile& file, Diagnostics& diagnostics) {
  RecordFile record_file;
  record_file.file = &file;
  file.keep_private();
  Diagnostics form;
  auto keys = read_keys(file, "a record", kRecordExample, form);
  pass_on_form_faults(form, diagnostics);
  if (!keys || !is_kind(FileKind::record, *keys, diagnostics)) {
    return record_file;
  }
  const std::set<int> names = lines_with_names(*keys);
  Diagnostics found;
  read_records(std::move(*keys), record_file, found);
  pass_on_without_names(found, names, diagnostics);
  return record_file;
}

}  // namespace sheaf
