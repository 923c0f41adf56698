#include "input/class_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "base/nearest.h"
#include "base/options.h"
#include "base/utf8.h"
#include "input/fields.h"
#include "input/file_kind.h"
#include "input/learner_names.h"
#include "input/school_weeks.h"
#include "input/words.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostLearners = 100;
constexpr std::size_t kMostExtraSheets = 40;
constexpr std::size_t kMostReviewWords = 100;
constexpr std::size_t kMostOfSpeech = 20;
constexpr std::string_view kClassExample = "learners: B7, C3, D1";
// Three values that a setting may have.
using ThreeChoices = std::array<std::string_view, 3>;
constexpr ThreeChoices kSpacings = {"normal", "wide", "wider"};
constexpr ThreeChoices kPictureNames = {"said", "numbered", "left-out"};

void read_line_size(const Field& field, LearnerSettings& settings,
                    Diagnostics& d) {
  const PlacedWord text = read_short_text(field, d);
  if (!text.given()) return;
  const auto length = read_length(text.value);
  if (!length) {
    d.error(
        diagnostic::wrong_value, text.span,
        fmt::format("{} is not a size with its unit", as_written(text.value)),
        "write a number with mm, cm, in or pt, as in `line-size: 8 mm`");
  } else if (*length < Length::from_mm(3) || *length > Length::from_mm(20)) {
    d.error(diagnostic::value_out_of_range, text.span,
            fmt::format("the letters on a line cannot be {} high",
                        as_written(text.value)),
            "choose from 3 mm to 20 mm");
  } else {
    settings.line_size = {*length, text.span};
  }
}

void read_choice(const Field& field, const ThreeChoices& choices,
                 PlacedWord& setting, Diagnostics& d) {
  PlacedWord text = read_short_text(field, d);
  if (!text.given()) return;
  if (std::ranges::find(choices, text.value) == choices.end()) {
    d.error(
        diagnostic::wrong_value, text.span,
        fmt::format("{} does not fit `{}`", as_written(text.value), field.key),
        fmt::format("write `{}`, `{}` or `{}`", choices[0], choices[1],
                    choices[2]));
    return;
  }
  setting = std::move(text);
}

void read_review_words(const Field& field, LearnerSettings& settings,
                       Diagnostics& d) {
  settings.review_words = read_plain_words(field, d);
  if (settings.review_words.size() <= kMostReviewWords) return;
  d.error(diagnostic::too_many, settings.review_words[kMostReviewWords].span,
          fmt::format("{} has more than {} words before this one",
                      as_written(field.key), kMostReviewWords),
          "keep those that matter most");
}

using SettingsKey = KeySpec<LearnerSettings>;
constexpr std::array kSettingsKeys = {
    SettingsKey{"lesson", "lesson: sh.yaml", "the lesson to print",
                [](const Field& field, LearnerSettings& s, Diagnostics& d) {
                  s.lesson = read_file_name(field, d);
                }},
    SettingsKey{"layout", "layout: large-print", "how the pages look",
                [](const Field& field, LearnerSettings& s, Diagnostics& d) {
                  s.layout = read_file_name(field, d);
                }},
    SettingsKey{"sequence", "sequence: sequence.yaml",
                "the file that says what was taught",
                [](const Field& field, LearnerSettings& s, Diagnostics& d) {
                  s.sequence = read_file_name(field, d);
                }},
    SettingsKey{"step", "step: 12", "the place in the sequence",
                [](const Field& field, LearnerSettings& s, Diagnostics& d) {
                  s.step = read_short_text(field, d);
                }},
    SettingsKey{"amount", "amount: 6", "how many words of the list",
                [](const Field& field, LearnerSettings& s, Diagnostics& d) {
                  read_number(field, 1, 40, s.amount, d);
                }},
    SettingsKey{"line-size", "line-size: 8 mm",
                "height of small letters on writing lines", read_line_size},
    SettingsKey{"spacing", "spacing: wide", "room between letters",
                [](const Field& field, LearnerSettings& s, Diagnostics& d) {
                  read_choice(field, kSpacings, s.spacing, d);
                }},
    SettingsKey{"picture-names", "picture-names: left-out",
                "what is heard in place of pictures; left-out for braille",
                [](const Field& field, LearnerSettings& s, Diagnostics& d) {
                  read_choice(field, kPictureNames, s.picture_names, d);
                }},
    SettingsKey{"extra", "extra: trace, cover-write",
                "sheets for more practice",
                [](const Field& field, LearnerSettings& s, Diagnostics& d) {
                  s.extra = read_names(field, kMostExtraSheets, d);
                }},
    SettingsKey{"review-words", "review-words: ship shed",
                "the learner's own words to review",
                [](const Field& field, LearnerSettings& s, Diagnostics& d) {
                  read_review_words(field, s, d);
                }},
    SettingsKey{"accent", "accent: british",
                "how the learner speaks, for marking",
                [](const Field& field, LearnerSettings& s, Diagnostics& d) {
                  s.accent = read_short_text(field, d);
                }},
    SettingsKey{"confuses", "confuses: th/f, v/w",
                "sounds that the learner does not tell apart",
                [](const Field& field, LearnerSettings& s, Diagnostics& d) {
                  s.confuses = read_names(field, kMostOfSpeech, d);
                }},
    SettingsKey{"speech", "speech: th-f, no-ed",
                "ways of speaking, or a home language, that show in spelling",
                [](const Field& field, LearnerSettings& s, Diagnostics& d) {
                  s.speech = read_names(field, kMostOfSpeech, d);
                }},
};

std::optional<Spanned<Date>> read_day(const Field& field, Diagnostics& d) {
  const PlacedWord text = read_short_text(field, d);
  if (!text.given()) return std::nullopt;
  if (const auto day = read_date(text.value)) {
    return Spanned<Date>{*day, text.span};
  }
  d.error(
      diagnostic::wrong_value, text.span,
      fmt::format("{} is not a date in the calendar", as_written(text.value)),
      fmt::format("write year, month and day with hyphens, as in `{}`",
                  field.example));
  return std::nullopt;
}

using LearnerKey = KeySpec<LearnerEntry>;
constexpr std::array kLearnerKeysOfOwn = {
    LearnerKey{"group", "group: Tuesday", "the learner's group",
               [](const Field& field, LearnerEntry& learner, Diagnostics& d) {
                 learner.group = read_short_text(field, d);
               }},
    LearnerKey{"from", "from: 2026-10-05", "the first day in the class",
               [](const Field& field, LearnerEntry& learner, Diagnostics& d) {
                 learner.from = read_day(field, d);
               }},
    LearnerKey{"until", "until: 2027-02-12", "the last day in the class",
               [](const Field& field, LearnerEntry& learner, Diagnostics& d) {
                 learner.until = read_day(field, d);
               }},
    LearnerKey{"goal", "goal: 70", "letter sequences of a probe to aim at",
               [](const Field& field, LearnerEntry& learner, Diagnostics& d) {
                 read_number(field, 1, 999, learner.goal, d);
               }},
};

using ClassKey = KeySpec<ClassFile>;
constexpr std::array kClassKeys = {
    ClassKey{"title", "title: Room 4", "the class's name",
             [](const Field& field, ClassFile& c, Diagnostics& d) {
               c.title = read_short_text(field, d);
             }},
    ClassKey{"school-year", "school-year: 2026-09-01 to 2027-07-16",
             "outside of which a record's day is a mistake",
             [](const Field& field, ClassFile& c, Diagnostics& d) {
               c.school_year = read_school_year(field, d);
             }},
    ClassKey{"review-weeks", "review-weeks: 1, 2, 4, 8",
             "after how many weeks a pattern comes back",
             [](const Field& field, ClassFile& c, Diagnostics& d) {
               c.review_weeks = read_review_weeks(field, d);
             }},
    ClassKey{"no-school", "no-school: 2026-10-26, 2026-12-21",
             "a day of each week without school, for review",
             [](const Field& field, ClassFile& c, Diagnostics& d) {
               c.no_school = read_no_school(field, d);
             }},
    ClassKey{"goal-date", "goal-date: 2027-06-18",
             "the day by which learners are to reach the goal of their probes",
             [](const Field& field, ClassFile& c, Diagnostics& d) {
               c.goal_date = read_day(field, d);
             }},
};

// Sorts the keys of a class, group or learner into settings and others. The
// settings are read; `own` is asked about the rest and says whether it knows
// the key.
template <typename Own>
void read_with_settings(const Value& keys, std::string_view what,
                        std::span<const std::string_view> own_names,
                        LearnerSettings& settings, Diagnostics& d, Own own) {
  std::vector<std::string_view> names(own_names.begin(), own_names.end());
  for (const SettingsKey& spec : kSettingsKeys) names.push_back(spec.name);
  check_known_keys(keys, names, what, d);
  for (const ValueEntry& entry : keys.entries) {
    const auto spec =
        std::ranges::find(kSettingsKeys, entry.key.value, &SettingsKey::name);
    if (spec != kSettingsKeys.end()) {
      spec->read({spec->name, entry.value, spec->example}, settings, d);
    } else {
      own(entry);
    }
  }
}

// Keys with values, or nothing where everything is as usual.
bool has_settings(const Value& value, std::string_view key, Diagnostics& d) {
  if (value.kind == Value::Kind::nothing) return false;
  if (value.kind == Value::Kind::keys) return true;
  report_wrong_kind({key, value, "B7: {layout: large-print}"}, d);
  return false;
}

class ClassReader {
 public:
  ClassReader(ClassFile& class_file, Diagnostics& diagnostics)
      : class_(class_file), diagnostics_(diagnostics) {}

  void read(const Value& keys) {
    std::vector<std::string_view> own = {"sheaf", "groups", "learners"};
    for (const ClassKey& spec : kClassKeys) own.push_back(spec.name);
    read_with_settings(keys, "a class", own, class_.settings, diagnostics_,
                       [&](const ValueEntry& entry) { read_own(entry); });
    check_groups();
  }

 private:
  void read_own(const ValueEntry& entry) {
    const std::string& key = entry.key.value;
    if (key == "sheaf") {
      Spanned<int> version{.value = 1};
      read_version(entry.value, version, diagnostics_);
    } else if (key == "groups") {
      read_groups(entry.value);
    } else if (key == "learners") {
      read_learners(entry);
    } else {
      const auto spec = std::ranges::find(kClassKeys, key, &ClassKey::name);
      if (spec == kClassKeys.end()) return;
      spec->read({spec->name, entry.value, spec->example}, class_,
                 diagnostics_);
    }
  }

  void read_groups(const Value& value) {
    if (value.kind != Value::Kind::keys) {
      report_wrong_kind({"groups", value, "groups: {Tuesday: {step: 12}}"},
                        diagnostics_);
      return;
    }
    for (const ValueEntry& entry : value.entries) {
      GroupEntry group;
      group.name = entry.key;
      if (has_settings(entry.value, entry.key.value, diagnostics_)) {
        read_with_settings(entry.value, "a group", {}, group.settings,
                           diagnostics_, [](const ValueEntry&) {});
      }
      class_.groups.push_back(std::move(group));
    }
  }

  void read_learners(const ValueEntry& learners) {
    const Value& value = learners.value;
    if (value.kind == Value::Kind::keys) {
      for (const ValueEntry& entry : value.entries) {
        add_learner(entry.key, &entry.value, learners.key.span);
      }
      return;
    }
    for (const PlacedWord& code : read_names({"learners", value, kClassExample},
                                             kMostLearners, diagnostics_)) {
      add_learner(code, nullptr, learners.key.span);
    }
  }

  void add_learner(const PlacedWord& name, const Value* value,
                   const Span& place) {
    if (class_.learners.size() == kMostLearners) {
      diagnostics_.error(
          diagnostic::too_many, place,
          fmt::format("there are more than {} learners", kMostLearners),
          "split them into two classes");
      return;
    }
    if (value != nullptr && value->kind == Value::Kind::text &&
        std::ranges::find(kSettingsKeys, name.value, &SettingsKey::name) !=
            kSettingsKeys.end()) {
      diagnostics_.error(
          diagnostic::wrong_indentation, name.span,
          fmt::format("{} is level with the learners, not under one of them",
                      as_written(name.value)),
          "begin a learner's settings two spaces further right than the code");
      return;
    }
    const auto code = LearnerCode::read(name.value);
    if (!code) {
      report_bad_code(place, name.span, diagnostics_);
      return;
    }
    const auto [first, fresh] = codes_.try_emplace(*code, name.span);
    if (!fresh) {
      Diagnostic& d = diagnostics_.error(
          diagnostic::repeated_word, name.span,
          fmt::format("two learners have the code {}",
                      as_written(code->text())),
          "give each learner a code of their own; capital letters make no "
          "difference");
      d.remarks.push_back({first->second, "the first one"});
      return;
    }
    LearnerEntry learner;
    learner.code = {*code, name.span};
    if (value != nullptr && has_settings(*value, code->text(), diagnostics_)) {
      read_learner(*value, learner);
    }
    class_.learners.push_back(std::move(learner));
  }

  void read_learner(const Value& keys, LearnerEntry& learner) {
    std::vector<std::string_view> own;
    for (const LearnerKey& spec : kLearnerKeysOfOwn) own.push_back(spec.name);
    read_with_settings(keys, "a learner", own, learner.settings, diagnostics_,
                       [&](const ValueEntry& entry) {
                         const auto spec = std::ranges::find(kLearnerKeysOfOwn,
                                                             entry.key.value,
                                                             &LearnerKey::name);
                         if (spec == kLearnerKeysOfOwn.end()) return;
                         spec->read({spec->name, entry.value, spec->example},
                                    learner, diagnostics_);
                       });
    if (!learner.from || !learner.until ||
        learner.from->value <= learner.until->value) {
      return;
    }
    diagnostics_
        .error(diagnostic::wrong_value, learner.until->span,
               fmt::format("{} leaves the class before joining it",
                           as_written(learner.code.value.text())),
               "make `until` a later day than `from`")
        .remarks.push_back({learner.from->span, "the first day"});
  }

  void check_groups() {
    std::vector<std::string_view> names;
    for (const GroupEntry& group : class_.groups) {
      names.push_back(group.name.value);
    }
    for (const LearnerEntry& learner : class_.learners) {
      const PlacedWord& group = learner.group;
      if (!group.given() ||
          std::ranges::find(names, group.value) != names.end()) {
        continue;
      }
      Help help = did_you_mean(group.value, names);
      if (help.empty()) help = "write the group under `groups:` as well";
      diagnostics_.error(
          diagnostic::wrong_value, group.span,
          fmt::format("there is no group {}", as_written(group.value)),
          std::move(help));
    }
  }

  ClassFile& class_;
  Diagnostics& diagnostics_;
  std::map<LearnerCode, Span> codes_;
};

// Fills what `own` leaves open.
void fill(LearnerSettings& own, const LearnerSettings& other) {
  if (!own.lesson.given()) own.lesson = other.lesson;
  if (!own.layout.given()) own.layout = other.layout;
  if (!own.sequence.given()) own.sequence = other.sequence;
  if (!own.step.given()) own.step = other.step;
  if (!own.amount.given()) own.amount = other.amount;
  if (!own.line_size.given()) own.line_size = other.line_size;
  if (!own.spacing.given()) own.spacing = other.spacing;
  if (!own.picture_names.given()) own.picture_names = other.picture_names;
  if (own.extra.empty()) own.extra = other.extra;
  if (own.review_words.empty()) own.review_words = other.review_words;
  if (!own.accent.given()) own.accent = other.accent;
  if (own.confuses.empty()) own.confuses = other.confuses;
  if (own.speech.empty()) own.speech = other.speech;
}

}  // namespace

ClassFile read_class(const SourceFile& file, Diagnostics& diagnostics) {
  ClassFile class_file;
  class_file.file = &file;
  file.keep_private();
  Diagnostics form;
  const auto keys = read_keys(file, "a class", kClassExample, form);
  pass_on_form_faults(form, diagnostics);
  if (!keys || !is_kind(FileKind::learners, *keys, diagnostics)) {
    return class_file;
  }
  Diagnostics found;
  ClassReader(class_file, found).read(*keys);
  pass_on_without_names(found, lines_with_names(*keys), diagnostics);
  require_key(file, *keys, "learners", "the class has no learners",
              fmt::format("add a line such as `{}`", kClassExample),
              diagnostics);
  return class_file;
}

std::vector<KeyNote> learner_keys() { return notes_of(kSettingsKeys); }
std::vector<KeyNote> learner_own_keys() { return notes_of(kLearnerKeysOfOwn); }
std::vector<KeyNote> class_keys() { return notes_of(kClassKeys); }

LearnerSettings settings_for(const ClassFile& class_file,
                             const LearnerEntry& learner) {
  LearnerSettings settings = learner.settings;
  for (const GroupEntry& group : class_file.groups) {
    if (learner.group.given() && group.name.value == learner.group.value) {
      fill(settings, group.settings);
    }
  }
  fill(settings, class_file.settings);
  return settings;
}

}  // namespace sheaf
