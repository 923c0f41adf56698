#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/length.h"

namespace sheaf {

/// Pieces of PDF syntax (ISO 32000-1, 7.3 and 7.8.2) appended to a buffer:
/// without locale, and the same on every machine.

void append_integer(std::string& out, std::int64_t value);
/// In points with two decimals at most: a hundredth is 0.0035 mm.
void append_length(std::string& out, Length value);
/// In points with three decimals at most, for type sizes: their error is
/// multiplied by the length of a line.
void append_size(std::string& out, Length value);
/// Up to `decimals` decimals, without zeros at the end.
void append_decimal(std::string& out, double value, int decimals);
/// The ink of a fill or a stroke: 0 is black, 255 white.
void append_grey(std::string& out, std::uint8_t ink);
/// `value` and a space.
void append_operand(std::string& out, Length value);

/// The inside of a literal string: bytes with what must be escaped escaped.
void append_escaped(std::string& out, std::string_view bytes);
/// A text string for people: plain where ASCII does, else UTF-16 with its mark.
void append_text_string(std::string& out, std::string_view utf8);
/// UTF-16 of the text as hexadecimal digits, without brackets.
void append_utf16_hex(std::string& out, std::string_view utf8);
/// "12 0 R"
void append_reference(std::string& out, std::uint32_t object);

}  // namespace sheaf
