#pragma once

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "base/diagnostics.h"
#include "base/value.h"
#include "input/yaml_value.h"

namespace sheaf::fuzz {

/// Ends the run where something that must always hold does not.
inline void require(bool holds) {
  if (!holds) std::abort();
}

inline void check_span(const SourceFile& file, const Span& span) {
  require(!span || (span.file == &file && span.begin <= span.end &&
                    span.end <= file.text().size()));
}

/// Whether a byte of a text is what the file has there, or what was put right
/// of it: a capital.
inline bool is_read_from(char byte, char there) {
  return byte == there ||
         (byte >= 'A' && byte <= 'Z' && byte - 'A' == there - 'a');
}

/// Every byte of a text must have its place inside the text's own span, and
/// stand there as it is unless the file wrote it with a backslash. A full stop
/// may have been put at the end.
inline void check_text(const SourceFile& file, const PlacedText& text) {
  check_span(file, text.span());
  const std::string& all = text.text();
  if (!text.span()) return;
  // A text may begin with the last byte of such a stretch.
  const std::size_t before = std::min<std::size_t>(text.span().begin, 10);
  const bool escaped = std::string_view(file.text())
                           .substr(0, text.span().end)
                           .substr(text.span().begin - before)
                           .find('\\') != std::string_view::npos;
  for (std::size_t at = 0; at < all.size(); ++at) {
    const Span place = text.span_of(at, at + 1);
    check_span(file, place);
    const unsigned char byte = all[at];
    if (byte <= ' ' || byte >= 0x80) continue;
    require(place.begin >= text.span().begin && place.end <= text.span().end);
    const std::string_view there = place.text();
    require(!there.empty());
    const bool added = at + 1 == all.size() && byte == '.';
    // A sign that stands for several letters is read as those.
    const bool sign = static_cast<unsigned char>(there[0]) >= 0x80;
    require(escaped || added || sign ||
            (there.size() == 1 && is_read_from(all[at], there[0])));
  }
}

inline void check_value(const SourceFile& file, const Value& value) {
  check_span(file, value.span);
  if (value.kind == Value::Kind::text) check_text(file, value.text);
  for (const Value& item : value.items) check_value(file, item);
  for (const ValueEntry& entry : value.entries) {
    check_span(file, entry.key.span);
    check_value(file, entry.value);
  }
}

/// Messages must print, be for people, and never say that we lost our way.
inline void check_messages(const Diagnostics& diagnostics) {
  for (const Diagnostic* d : diagnostics.sorted()) {
    require(!d->text.empty());
    require(d->text != "Sheaf cannot follow the text that begins here");
  }
  const std::string text = to_text(diagnostics, {.limit = 1'000'000});
  require(text.size() >= diagnostics.sorted().size());
}

/// Reads the bytes as a file of values and checks all of it, then hands the
/// file to the reader of its kind.
template <typename Read>
int run(const std::uint8_t* data, std::size_t size, Read read) {
  const SourceFile file("fuzz.yaml",
                        std::string(reinterpret_cast<const char*>(data), size));
  Diagnostics form;
  const Value value = read_yaml(file, form);
  // The reader says what is wrong with the form again.
  if (!form.has_errors()) check_value(file, value);
  Diagnostics diagnostics;
  read(file, diagnostics);
  check_messages(diagnostics);
  return 0;
}

}  // namespace sheaf::fuzz
