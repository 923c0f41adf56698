#include "input/file_kind.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/utf8.h"
#include "input/class_file.h"
#include "input/lesson_keys.h"
#include "input/sequence.h"
#include "input/yaml_value.h"

namespace sheaf {

namespace {

struct OwnKey {
  std::string_view name;
  FileKind kind;
};

// Keys that only one kind of file has.
constexpr std::array kOwnKeys = {
    OwnKey{"sheets", FileKind::layout},
    OwnKey{"steps", FileKind::sequence},
    OwnKey{"learners", FileKind::learners},
    OwnKey{"groups", FileKind::learners},
    OwnKey{"date", FileKind::record},
    OwnKey{"marked", FileKind::record},
    OwnKey{"wrong", FileKind::record},
    OwnKey{"written", FileKind::record},
    OwnKey{"writing", FileKind::record},
    OwnKey{"records", FileKind::record},
    OwnKey{"words", FileKind::lesson},
    OwnKey{"pattern", FileKind::lesson},
    OwnKey{"sentences", FileKind::lesson},
    OwnKey{"passage", FileKind::lesson},
};

const OwnKey* own_key(const ValueEntry& entry) {
  const auto known =
      std::ranges::find(kOwnKeys, entry.key.value, &OwnKey::name);
  return known == kOwnKeys.end() ? nullptr : &*known;
}

}  // namespace

std::string_view describe(FileKind kind) {
  switch (kind) {
    case FileKind::layout:
      return "a layout";
    case FileKind::sequence:
      return "a sequence";
    case FileKind::learners:
      return "a class";
    case FileKind::record:
      return "a record";
    case FileKind::sentences:
      return "a list of sentences";
    case FileKind::lesson:
      break;
  }
  return "a lesson";
}

FileKind kind_of(const Value& keys) {
  for (const ValueEntry& entry : keys.entries) {
    if (const OwnKey* known = own_key(entry)) return known->kind;
  }
  return FileKind::lesson;
}

std::optional<FileKind> kind_of(const SourceFile& file) {
  Diagnostics unheard;
  const Value value = read_yaml(file, unheard);
  if (unheard.has_errors() || value.kind != Value::Kind::keys) {
    return std::nullopt;
  }
  return kind_of(value);
}

bool is_key_of_a_file(std::string_view name) {
  const auto among = [&](const std::vector<KeyNote>& keys) {
    return std::ranges::find(keys, name, &KeyNote::name) != keys.end();
  };
  return std::ranges::find(kLessonKeys, name, &LessonKey::name) !=
             kLessonKeys.end() ||
         std::ranges::find(kOwnKeys, name, &OwnKey::name) != kOwnKeys.end() ||
         among(class_keys()) || among(learner_keys()) ||
         among(learner_own_keys()) || among(sequence_keys()) ||
         among(step_keys());
}

bool has_key_of(FileKind kind, const Value& keys) {
  return std::ranges::any_of(keys.entries, [&](const ValueEntry& entry) {
    const OwnKey* known = own_key(entry);
    return known != nullptr && known->kind == kind;
  });
}

namespace {

// The key that a line begins with, which may be an item of a list; empty where
// it has no colon.
std::string_view key_of(std::string_view line) {
  constexpr std::string_view kBefore = "- \t";
  const std::size_t begin = line.find_first_not_of(kBefore);
  const std::size_t colon = line.find(':');
  if (begin == std::string_view::npos || colon == std::string_view::npos ||
      colon < begin) {
    return {};
  }
  return line.substr(begin, colon - begin);
}

// The line that a text begins with is taken off it.
std::string_view take_first_line(std::string_view& text) {
  const std::string_view line = text.substr(0, text.find_first_of("\r\n"));
  text.remove_prefix(std::min(line.size() + 1, text.size()));
  return line;
}

// The kind that the first line with a key of one kind only tells.
std::optional<FileKind> kind_by_lines(std::string_view text) {
  while (!text.empty()) {
    const std::string_view key = key_of(take_first_line(text));
    const auto known = std::ranges::find(kOwnKeys, key, &OwnKey::name);
    if (!key.empty() && known != kOwnKeys.end()) return known->kind;
  }
  return std::nullopt;
}

}  // namespace

std::optional<Span> key_at_head(const SourceFile& file) {
  std::string_view text = file.text();
  while (!text.empty()) {
    const std::string_view line = take_first_line(text);
    const std::size_t begin = line.find_first_not_of(" \t");
    if (begin == std::string_view::npos || line[begin] == '#') continue;
    const std::string_view key = key_of(line);
    if (key.empty() || !is_key_of_a_file(key)) return std::nullopt;
    const auto at = static_cast<std::uint32_t>(key.data() - file.text().data());
    return Span{&file, at, at + static_cast<std::uint32_t>(key.size())};
  }
  return std::nullopt;
}

FileKind likely_kind(const SourceFile& file) {
  const auto by_lines = kind_by_lines(file.text());
  if (!by_lines && lower_case(file.name()).ends_with(".txt") &&
      !key_at_head(file)) {
    return FileKind::sentences;
  }
  if (const auto kind = kind_of(file)) return *kind;
  return by_lines.value_or(FileKind::lesson);
}

bool is_kind(FileKind wanted, const Value& keys, Diagnostics& diagnostics) {
  const ValueEntry* other = nullptr;
  for (const ValueEntry& entry : keys.entries) {
    const OwnKey* known = own_key(entry);
    if (known == nullptr) continue;
    if (known->kind == wanted) return true;
    if (other == nullptr) other = &entry;
  }
  if (other == nullptr) return true;
  diagnostics.error(
      diagnostic::wrong_file_kind, other->key.span,
      fmt::format("this file is {}, as `{}` shows, and not {}",
                  describe(own_key(*other)->kind), other->key.value,
                  describe(wanted)),
      fmt::format("name the file of {} instead", describe(wanted)));
  return false;
}

}  // namespace sheaf
