#include "input/lesson.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest.h"
#include "input/fields.h"
#include "input/file_kind.h"
#include "input/lesson_keys.h"
#include "input/words.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostTaught = 200;

using Reader = void (*)(const Field&, Lesson&, Diagnostics&);

template <PlacedWord Lesson::*member>
void short_text(const Field& field, Lesson& lesson, Diagnostics& d) {
  lesson.*member = read_short_text(field, d);
}

template <PlacedWord Lesson::*member>
void file_name(const Field& field, Lesson& lesson, Diagnostics& d) {
  lesson.*member = read_file_name(field, d);
}

template <Spanned<int> Lesson::*member, int least, int most>
void number(const Field& field, Lesson& lesson, Diagnostics& d) {
  read_number(field, least, most, lesson.*member, d);
}

template <Spanned<bool> Lesson::*member>
void yes_or_no(const Field& field, Lesson& lesson, Diagnostics& d) {
  read_flag(field, lesson.*member, d);
}

template <std::vector<LessonLine> Lesson::*member, LineBreaks breaks>
void lines(const Field& field, Lesson& lesson, Diagnostics& d) {
  lesson.*member = read_lines(field, breaks, d);
}

// How many, where nothing but a number stands there.
bool is_number(const Field& field) {
  return field.value.kind == Value::Kind::text &&
         field.value.style == Value::Style::bare &&
         !field.value.text.text().empty() &&
         field.value.text.text().find_first_not_of(
             "0123456789", field.value.text.text().front() == '-' ? 1 : 0) ==
             std::string::npos;
}

template <std::vector<LessonLine> Lesson::*member,
          Spanned<int> Lesson::*counted>
void sentences_or_count(const Field& field, Lesson& lesson, Diagnostics& d) {
  constexpr int kMostChosen = 30;
  if (is_number(field)) {
    read_number(field, 0, kMostChosen, lesson.*counted, d);
  } else {
    lesson.*member = read_lines(field, LineBreaks::sentences, d);
  }
}

// A passage is its text, the number of words that it is to have, or keys.
void passage(const Field& field, Lesson& lesson, Diagnostics& d) {
  constexpr int kMostWords = 400;
  if (is_number(field)) {
    read_number(field, 0, kMostWords, lesson.passage.words, d);
    return;
  }
  if (field.value.kind != Value::Kind::keys) {
    lesson.passage.paragraphs = read_lines(field, LineBreaks::prose, d);
    return;
  }
  constexpr std::string_view kKeys[] = {"title", "text", "questions"};
  const auto example = [&](std::string_view key) {
    return key == kKeys[0]   ? "title: A Box in the Mud"
           : key == kKeys[1] ? "text: The boat is on the lake."
                             : "questions: Where is the boat?";
  };
  check_known_keys(field.value, kKeys, "a passage", d);
  for (const ValueEntry& entry : field.value.entries) {
    const Field part = {entry.key.value, entry.value, example(entry.key.value)};
    if (entry.key.value == kKeys[0]) {
      const auto lines = read_lines(part, LineBreaks::paragraphs, d);
      if (!lines.empty()) lesson.passage.title = lines.front();
    } else if (entry.key.value == kKeys[1]) {
      lesson.passage.paragraphs = read_lines(part, LineBreaks::prose, d);
    } else if (entry.key.value == kKeys[2]) {
      lesson.passage.questions = read_lines(part, LineBreaks::sentences, d);
    }
  }
}

template <std::vector<LessonWord> Lesson::*member>
void words(const Field& field, Lesson& lesson, Diagnostics& d) {
  lesson.*member = read_lesson_words(field, d);
}

template <std::vector<PlacedWord> Lesson::*member>
void plain_words(const Field& field, Lesson& lesson, Diagnostics& d) {
  lesson.*member = read_plain_words(field, d);
}

void version(const Field& field, Lesson& lesson, Diagnostics& d) {
  read_version(field.value, lesson.version, d);
}

void report_repeated(const std::vector<PlacedWord>& names, std::string_view key,
                     Diagnostics& d) {
  for (std::size_t i = 0; i < names.size(); ++i) {
    const auto first =
        std::ranges::find(names, names[i].value, &PlacedWord::value);
    if (first == names.begin() + static_cast<std::ptrdiff_t>(i)) continue;
    Diagnostic& report =
        d.error(diagnostic::repeated_word, names[i].span,
                fmt::format("{} is listed twice under {}",
                            as_written(names[i].value), as_written(key)),
                "take one of the two out");
    report.remarks.push_back({first->span, "the first one"});
  }
}

void patterns(const Field& field, Lesson& lesson, Diagnostics& d) {
  lesson.patterns = read_names(field, kMostLessonPatterns, d);
  report_repeated(lesson.patterns, field.key, d);
}

void taught(const Field& field, Lesson& lesson, Diagnostics& d) {
  lesson.taught = read_names(field, kMostTaught, d);
}

void key_word(const Field& field, Lesson& lesson, Diagnostics& d) {
  PlacedWord word = read_short_text(field, d);
  if (!word.given()) return;
  if (word.value.find_first_of(" ,") != std::string::npos) {
    d.error(diagnostic::wrong_value, word.span,
            fmt::format("there is more than one word under {}",
                        as_written(field.key)),
            fmt::format("write it like this: `{}`", field.example));
    return;
  }
  if (check_word(word, d)) lesson.key_word = std::move(word);
}

void split(const Field& field, Lesson& lesson, Diagnostics& d) {
  lesson.splits = read_splits(field, d);
}

bool is_embedded_picture(const Value& value) {
  return value.kind == Value::Kind::text &&
         value.text.text().starts_with(kEmbeddedPicture);
}

// A picture is the name of a file, one character of its own such as an emoji,
// or the bytes of a file (a URL of the kind `data`, RFC 2397).
void pictures(const Field& field, Lesson& lesson, Diagnostics& d) {
  if (field.value.kind != Value::Kind::keys) {
    report_wrong_kind(field, d);
    return;
  }
  for (const ValueEntry& entry : field.value.entries) {
    PlacedWord word = entry.key;
    if (!check_word(word, d)) continue;
    const Field part = {entry.key.value, entry.value, "shed: shed.png"};
    PlacedWord picture =
        is_embedded_picture(entry.value)
            ? PlacedWord{entry.value.text.text(), entry.value.span}
            : read_file_name(part, d);
    if (picture.given()) {
      lesson.pictures.emplace_back(std::move(word), std::move(picture));
    }
  }
}

// A file's name, or what would stand in the file.
template <auto Name, auto Own>
void file_or_keys(const Field& field, Lesson& lesson, Diagnostics& d) {
  if (field.value.kind == Value::Kind::keys) {
    lesson.*Own = field.value;
    return;
  }
  file_name<Name>(field, lesson, d);
}

void conventions(const Field& field, Lesson& lesson, Diagnostics& d) {
  for (auto& pair : read_pairs(field, d)) {
    lesson.conventions.push_back(std::move(pair));
  }
}

// `count` and `notation` may stand by themselves, as `accent` does.
void preset(const Field& field, Lesson& lesson, Diagnostics& d) {
  PlacedWord value = read_short_text(field, d);
  if (!value.given()) return;
  const Span span = value.span;
  lesson.conventions.emplace_back(PlacedWord{std::string(field.key), span},
                                  std::move(value));
}

void placement(const Field& field, Lesson& lesson, Diagnostics& d) {
  lesson.placement = read_placement(field, d);
}

// In the order of kLessonKeys, which a check below makes sure of.
struct KeyReader {
  std::string_view name;
  Reader read;
};
constexpr std::array kReaders = {
    KeyReader{"sheaf", version},
    KeyReader{"title", short_text<&Lesson::title>},
    KeyReader{"pattern", patterns},
    KeyReader{"words", words<&Lesson::words>},
    KeyReader{"pick", number<&Lesson::pick, 1, 100>},
    KeyReader{"key-word", key_word},
    KeyReader{"same-sound", plain_words<&Lesson::same_sound>},
    KeyReader{"other-sound", plain_words<&Lesson::other_sound>},
    KeyReader{"sort-words", words<&Lesson::sort_words>},
    KeyReader{"sentences",
              sentences_or_count<&Lesson::sentences, &Lesson::sentence_count>},
    KeyReader{"dictate-words", words<&Lesson::dictate_words>},
    KeyReader{"dictate-sentences",
              sentences_or_count<&Lesson::dictate_sentences,
                                 &Lesson::dictate_sentence_count>},
    KeyReader{"passage", passage},
    KeyReader{"sight-words", plain_words<&Lesson::sight_words>},
    KeyReader{"sequence",
              file_or_keys<&Lesson::sequence, &Lesson::own_sequence>},
    KeyReader{"step", short_text<&Lesson::step>},
    KeyReader{"taught", taught},
    KeyReader{"strict", yes_or_no<&Lesson::strict>},
    KeyReader{"split", split},
    KeyReader{"pictures", pictures},
    KeyReader{"rhyme", lines<&Lesson::rhyme, LineBreaks::verses>},
    KeyReader{"teacher-note",
              lines<&Lesson::teacher_note, LineBreaks::paragraphs>},
    KeyReader{"home-note", lines<&Lesson::home_note, LineBreaks::paragraphs>},
    KeyReader{"days", number<&Lesson::days, 1, 7>},
    KeyReader{"minutes", number<&Lesson::minutes, 5, 120>},
    KeyReader{"set", number<&Lesson::set, 1, 20>},
    KeyReader{"conventions", conventions},
    KeyReader{"accent", short_text<&Lesson::accent>},
    KeyReader{"count", preset},
    KeyReader{"notation", preset},
    KeyReader{"layout", file_or_keys<&Lesson::layout, &Lesson::own_layout>},
    KeyReader{"review", number<&Lesson::review, 0, 20>},
    KeyReader{"group", short_text<&Lesson::group>},
    KeyReader{"author", short_text<&Lesson::author>},
    KeyReader{"licence", short_text<&Lesson::licence>},
    KeyReader{"seed", short_text<&Lesson::seed>},
    KeyReader{"placement", placement},
};

constexpr bool tables_agree() {
  if (kReaders.size() != kLessonKeys.size()) return false;
  for (std::size_t i = 0; i < kReaders.size(); ++i) {
    if (kReaders[i].name != kLessonKeys[i].name) return false;
  }
  return true;
}
static_assert(tables_agree(), "each key of a lesson needs its reader");

// Whether a key is there, if only misspelled: that has its own message.
bool has_key(const Value& keys, std::string_view name,
             std::span<const std::string_view> names) {
  return std::ranges::any_of(keys.entries, [&](const ValueEntry& entry) {
    if (entry.key.value == name) return true;
    const auto near = nearest_names(entry.key.value, names, 1);
    return !near.empty() && near.front() == name &&
           std::ranges::find(names, entry.key.value) == names.end();
  });
}

void report_missing(const SourceFile& file, const Value& keys,
                    std::span<const std::string_view> names, Diagnostics& d) {
  const Span place =
      keys.entries.empty() ? Span{&file, 0, 0} : keys.entries.front().key.span;
  // A check of where to begin climbs the patterns of a whole sequence.
  if (!has_key(keys, "pattern", names) && !has_key(keys, "placement", names)) {
    d.error(diagnostic::missing_key, place, "the lesson names no pattern",
            "add a line such as `pattern: sh`");
  }
}

}  // namespace

Lesson read_lesson(const SourceFile& file, Diagnostics& diagnostics) {
  Lesson lesson;
  lesson.file = &file;
  const auto keys = read_keys(file, "a lesson", "pattern: sh", diagnostics);
  if (!keys) return lesson;
  if (!is_kind(FileKind::lesson, *keys, diagnostics)) return lesson;
  std::vector<std::string_view> names;
  for (const LessonKey& key : kLessonKeys) names.push_back(key.name);
  check_known_keys(*keys, names, "a lesson", diagnostics);
  for (const ValueEntry& entry : keys->entries) {
    const auto known = std::ranges::find(names, entry.key.value);
    if (known == names.end()) continue;
    const auto index = static_cast<std::size_t>(known - names.begin());
    lesson.keys.push_back(entry.key);
    kReaders[index].read(
        {kLessonKeys[index].name, entry.value, kLessonKeys[index].example},
        lesson, diagnostics);
  }
  report_missing(file, *keys, names, diagnostics);
  return lesson;
}

}  // namespace sheaf
