#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/source.h"

namespace sheaf {

/// Text from a file that knows where each of its bytes stood there, even if
/// the file wrote it over several lines or with quotes.
class PlacedText {
 public:
  /// Bytes of the text from `text` on stand at `file` on, up to the next run.
  struct Run {
    std::uint32_t text;
    std::uint32_t file;
  };

  PlacedText() = default;
  /// `span` is what the whole value takes up in the file; `runs` are ordered,
  /// the first starts at 0. Without runs every part has the place of the whole.
  PlacedText(std::string text, Span span, std::vector<Run> runs);
  /// Text that Sheaf chose for what stands at `span`: all of it has that place.
  static PlacedText chosen(std::string text, Span span) {
    return {std::move(text), span, {}};
  }

  const std::string& text() const { return text_; }
  const Span& span() const { return span_; }
  /// The span of bytes [begin, end) of the text.
  Span span_of(std::size_t begin, std::size_t end) const;
  Spanned<std::string> part(std::size_t begin, std::size_t end) const;
  /// Bytes [begin, end) of the text, still knowing all their places.
  PlacedText slice(std::size_t begin, std::size_t end) const;
  /// The same text without outer spaces, and with one space wherever it has
  /// several or a line break.
  PlacedText squeezed() const;
  /// The same text with a character behind it that does not stand in the file;
  /// its place is the last one of the text.
  PlacedText with_end(char end) const;
  /// The same text with a capital for the small letter a to z at `at`.
  PlacedText with_capital(std::size_t at) const;
  /// The same text with letters in place of signs that stand for two or three
  /// of them (Unicode's ligatures U+FB00 to U+FB06), which come from PDF files.
  PlacedText without_ligatures() const;
  /// The same text in Unicode's normal form C: an e with an accent behind it is
  /// é, which the typeface has a letter for and a search for é finds.
  PlacedText composed() const;

 private:
  class Rewriter;
  std::uint32_t file_offset(std::size_t text_offset) const;

  std::string text_;
  Span span_;
  std::vector<Run> runs_;
};

struct ValueEntry;

/// What a teacher's file says, before anyone has asked what it means: text, a
/// list, keys with values, or nothing at all. Every part has its place.
struct Value {
  enum class Kind { nothing, text, list, keys };
  /// How a text stood in the file: bare, in quotes, or as lines under `|`.
  enum class Style { bare, quoted, lines };

  Kind kind = Kind::nothing;
  Style style = Style::bare;
  Span span;
  PlacedText text;
  std::vector<Value> items;
  std::vector<ValueEntry> entries;

  const Value* find(std::string_view key) const;
};

struct ValueEntry {
  Spanned<std::string> key;
  Value value;
};

/// "text", "a list", "keys with values" or "nothing", for messages.
std::string_view describe(Value::Kind kind);

}  // namespace sheaf
