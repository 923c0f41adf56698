#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <type_traits>
#include <vector>

#include "base/diagnostics.h"
#include "base/value.h"
#include "input/lesson.h"

namespace sheaf {

/// One key of a file and what stands after it, on its way to being checked.
struct Field {
  std::string_view key;
  const Value& value;
  /// How a teacher may write it, as in "days: 5"; shown where it is wrong.
  std::string_view example;
  /// Where the key stands, if that is of use.
  Span place = {};
};

/// The keys with values that a whole file consists of; reports what else it is
/// and returns nothing then. `what` names the file's kind: "a lesson".
std::optional<Value> read_keys(const SourceFile& file, std::string_view what,
                               std::string_view example,
                               Diagnostics& diagnostics);

/// Reports the keys that are not among `names`, with the nearest that are.
void check_known_keys(const Value& keys,
                      std::span<const std::string_view> names,
                      std::string_view what, Diagnostics& diagnostics);

/// Reports a key that a file of its kind must have and has not, not even with
/// a slip of the hand (which has its own message).
void require_key(const SourceFile& file, const Value& keys,
                 std::string_view name, std::string_view missing,
                 std::string_view help, Diagnostics& diagnostics);

/// Reports a key that was joined to its value, as in `{fish:fis}`, which the
/// file reads as one key with nothing after it; false where it is no such key.
bool report_joined_key(const ValueEntry& entry, Diagnostics& diagnostics);

/// Reports a field that is not what is wanted: "`days` has a list after it".
void report_wrong_kind(const Field& field, Diagnostics& diagnostics);

/// A short text of one line; empty if that is not what is there.
PlacedWord read_short_text(const Field& field, Diagnostics& diagnostics);
/// The name of a file beneath the lesson's folder, or of something shipped.
PlacedWord read_file_name(const Field& field, Diagnostics& diagnostics);
/// A whole number within limits; `into` is left alone if it is anything else.
void read_number(const Field& field, int least, int most, Spanned<int>& into,
                 Diagnostics& diagnostics);
/// `yes` or `no`; `into` is left alone if it is anything else.
void read_flag(const Field& field, Spanned<bool>& into,
               Diagnostics& diagnostics);
/// The version of the format that a file names under `sheaf:`.
void read_version(const Value& value, Spanned<int>& into,
                  Diagnostics& diagnostics);
/// Names parted by commas or lines, or as a list; at most `most`.
std::vector<PlacedWord> read_names(const Field& field, std::size_t most,
                                   Diagnostics& diagnostics);

/// Whether a text has more than `most` characters; reports it then.
bool is_too_long(const PlacedText& text, int most, std::string_view key,
                 Diagnostics& diagnostics);

/// How lines are told apart where the file runs them together.
enum class LineBreaks {
  sentences,   ///< a new one begins in a new line after an end mark
  verses,      ///< each line of the file is one
  paragraphs,  ///< lines that run on are one
  prose        ///< an empty line parts them; where there is none, a line's end
               ///< that ends a sentence
};
std::vector<PlacedText> cut_lines(const PlacedText& text, LineBreaks breaks);
/// The lines of a field, each without outer spaces; warns of a sentence in a
/// list that has no end mark.
std::vector<LessonLine> read_lines(const Field& field, LineBreaks breaks,
                                   Diagnostics& diagnostics);

/// The texts of a field, which may be one text or a list of them. Reports what
/// is no text, and a field that holds nothing.
std::vector<const Value*> texts_of(const Field& field,
                                   Diagnostics& diagnostics);

/// The keys with values after a field, each of them a short text.
std::vector<std::pair<PlacedWord, PlacedWord>> read_pairs(
    const Field& field, Diagnostics& diagnostics);

/// A key of a file other than a lesson: how it may be written, what it is for,
/// and what reads it.
template <typename T>
struct KeySpec {
  std::string_view name;
  std::string_view example;
  std::string_view meaning;
  void (*read)(const Field&, T&, Diagnostics&);
};

/// Reads keys by their table; reports those that are not in it.
template <typename T>
void read_by_table(const Value& keys,
                   std::type_identity_t<std::span<const KeySpec<T>>> table,
                   std::string_view what, T& into, Diagnostics& diagnostics) {
  std::vector<std::string_view> names;
  for (const KeySpec<T>& spec : table) names.push_back(spec.name);
  check_known_keys(keys, names, what, diagnostics);
  for (const ValueEntry& entry : keys.entries) {
    for (const KeySpec<T>& spec : table) {
      if (spec.name != entry.key.value) continue;
      spec.read({spec.name, entry.value, spec.example, entry.key.span}, into,
                diagnostics);
    }
  }
}

}  // namespace sheaf
