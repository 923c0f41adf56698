#include "pdf/operators.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <limits>

#include "base/utf8.h"

namespace sheaf {

namespace {

constexpr char kHexDigits[] = "0123456789ABCDEF";

// The two digits of each number below 100.
constexpr auto kPairs = [] {
  std::array<std::array<char, 2>, 100> pairs{};
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    pairs[i] = {static_cast<char>('0' + i / 10),
                static_cast<char>('0' + i % 10)};
  }
  return pairs;
}();

// Writes a whole number backwards from `begin`, nothing for zero.
template <typename Unsigned>
char* put_whole(char* begin, Unsigned rest) {
  for (; rest >= 100; rest /= 100) {
    begin -= 2;
    std::memcpy(begin, kPairs[rest % 100].data(), 2);
  }
  if (rest >= 10) {
    begin -= 2;
    std::memcpy(begin, kPairs[rest].data(), 2);
  } else if (rest > 0) {
    *--begin = static_cast<char>('0' + rest);
  }
  return begin;
}

// Writes digits backwards from `begin`; without the zeros at the end of a
// fraction, which say nothing.
template <typename Unsigned>
char* put_digits(char* begin, Unsigned rest, int decimals) {
  char* const end = begin;
  for (; decimals > 0 && rest % 10 == 0; --decimals) rest /= 10;
  for (; decimals > 0; --decimals, rest /= 10) {
    *--begin = static_cast<char>('0' + rest % 10);
  }
  if (begin != end) {
    *--begin = '.';
  } else if (rest == 0) {
    *--begin = '0';
  }
  return put_whole(begin, rest);
}

// `value` is in units of 10^-decimals; `after` follows it.
void append_fixed(std::string& out, std::int64_t value, int decimals,
                  std::string_view after = {}) {
  std::array<char, 40> text;
  char* const end = text.data() + 32;
  const bool negative = value < 0;
  const std::uint64_t size = negative ? 0 - static_cast<std::uint64_t>(value)
                                      : static_cast<std::uint64_t>(value);
  // Most numbers are small, and small ones are divided faster.
  char* begin =
      size <= std::numeric_limits<std::uint32_t>::max()
          ? put_digits(end, static_cast<std::uint32_t>(size), decimals)
          : put_digits(end, size, decimals);
  if (negative && size != 0) *--begin = '-';
  out.append(begin, end + after.copy(end, 8));
}

std::int64_t hundredths(Length value) {
  const std::int64_t mils = value.mils();
  return (mils + (mils < 0 ? -5 : 5)) / 10;
}

// Most numbers of a page: places in hundredths of a point, below 1,000 pt, with
// a space behind them. False where it is not such a one.
bool append_place(std::string& out, std::int64_t value) {
  constexpr std::int64_t kBelow = 100'000;
  if (value <= 0 || value >= kBelow) return false;
  const auto whole = static_cast<std::uint32_t>(value) / 100;
  const auto part = static_cast<std::uint32_t>(value) % 100;
  std::array<char, 8> text;
  char* const end = text.data() + text.size();
  char* begin = end;
  *--begin = ' ';
  if (part != 0) {
    const auto [tens, ones] = kPairs[part];
    if (ones != '0') *--begin = ones;
    *--begin = tens;
    *--begin = '.';
  }
  out.append(put_whole(begin, whole), end);
  return true;
}

void append_hex16(std::string& out, unsigned unit) {
  for (int shift = 12; shift >= 0; shift -= 4) {
    out += kHexDigits[unit >> shift & 0xF];
  }
}

}  // namespace

void append_integer(std::string& out, std::int64_t value) {
  append_fixed(out, value, 0);
}

void append_length(std::string& out, Length value) {
  append_fixed(out, hundredths(value), 2);
}

void append_size(std::string& out, Length value) {
  append_fixed(out, value.mils(), 3);
}

void append_operand(std::string& out, Length value) {
  const std::int64_t number = hundredths(value);
  if (!append_place(out, number)) append_fixed(out, number, 2, " ");
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
  append_fixed(out, object, 0, " 0 R");
}

}  // namespace sheaf
