#include "pdf/operators.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "base/utf8.h"

namespace sheaf {

namespace {

constexpr char kHexDigits[] = "0123456789ABCDEF";

// `value` is in units of 10^-decimals.
void append_fixed(std::string& out, std::int64_t value, int decimals) {
  std::array<char, 32> digits{};
  char* const end = digits.data() + digits.size();
  char* begin = end;
  const bool negative = value < 0;
  std::uint64_t rest = negative ? 0 - static_cast<std::uint64_t>(value)
                                : static_cast<std::uint64_t>(value);
  for (int i = 0; i < decimals; ++i, rest /= 10) {
    const char digit = static_cast<char>('0' + rest % 10);
    if (digit == '0' && begin == end) continue;  // says nothing at the end
    *--begin = digit;
  }
  if (begin != end) *--begin = '.';
  const bool has_fraction = begin != end;
  if (rest == 0 && !has_fraction) *--begin = '0';
  for (; rest > 0; rest /= 10) {
    *--begin = static_cast<char>('0' + rest % 10);
  }
  if (negative && !(end - begin == 1 && *begin == '0')) *--begin = '-';
  out.append(begin, end);
}

void append_hex16(std::string& out, unsigned unit) {
  for (int shift = 12; shift >= 0; shift -= 4) {
    out += kHexDigits[unit >> shift & 0xF];
  }
}

}  // namespace

void append_integer(std::string& out, std::int64_t value) {
  std::array<char, 24> digits{};
  const auto end =
      std::to_chars(digits.data(), digits.data() + digits.size(), value).ptr;
  out.append(digits.data(), end);
}

void append_length(std::string& out, Length value) {
  const std::int64_t mils = value.mils();
  append_fixed(out, (mils + (mils < 0 ? -5 : 5)) / 10, 2);
}

void append_size(std::string& out, Length value) {
  append_fixed(out, value.mils(), 3);
}

void append_operand(std::string& out, Length value) {
  append_length(out, value);
  out += ' ';
}

void append_decimal(std::string& out, double value, int decimals) {
  double scale = 1;
  for (int i = 0; i < decimals; ++i) scale *= 10;
  const double scaled_value = value * scale;
  append_fixed(
      out,
      static_cast<std::int64_t>(scaled_value + (scaled_value < 0 ? -0.5 : 0.5)),
      decimals);
}

void append_grey(std::string& out, std::uint8_t ink) {
  append_fixed(out, (ink * 1000 + 127) / 255, 3);
}

void append_escaped(std::string& out, std::string_view bytes) {
  for (const char c : bytes) {
    if (c == '(' || c == ')' || c == '\\') {
      out += '\\';
      out += c;
    } else if (c == '\r') {
      out += "\\r";  // bare, a reader would take it for a line feed
    } else {
      out += c;
    }
  }
}

void append_text_string(std::string& out, std::string_view utf8) {
  const bool plain = std::all_of(utf8.begin(), utf8.end(),
                                 [](char c) { return c >= ' ' && c <= '~'; });
  if (plain) {
    out += '(';
    append_escaped(out, utf8);
    out += ')';
    return;
  }
  out += "<FEFF";
  append_utf16_hex(out, utf8);
  out += '>';
}

void append_utf16_hex(std::string& out, std::string_view utf8) {
  for (std::size_t i = 0; i < utf8.size();) {
    const char32_t code_point = next_code_point(utf8, i);
    if (code_point >= 0x10000) {
      const unsigned above = static_cast<unsigned>(code_point) - 0x10000;
      append_hex16(out, 0xD800 + (above >> 10));
      append_hex16(out, 0xDC00 + (above & 0x3FF));
    } else {
      append_hex16(out, static_cast<unsigned>(code_point));
    }
  }
}

void append_reference(std::string& out, std::uint32_t object) {
  append_integer(out, object);
  out += " 0 R";
}

}  // namespace sheaf
