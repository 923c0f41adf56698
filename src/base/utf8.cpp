#include "base/utf8.h"

#include <fmt/format.h>
#include <utf8proc.h>

#include <array>
#include <cstdlib>
#include <memory>

namespace sheaf {

namespace {

constexpr char32_t kReplacement = 0xFFFD;

// Length of the well-formed sequence at `offset`, and its code point; 0 if the
// bytes there are not UTF-8.
int decode(std::string_view text, std::size_t offset, char32_t& code_point) {
  const unsigned char first = static_cast<unsigned char>(text[offset]);
  if (first < 0x80) {
    code_point = first;
    return 1;
  }
  utf8proc_int32_t out = 0;
  const auto* bytes =
      reinterpret_cast<const utf8proc_uint8_t*>(text.data() + offset);
  const auto length = utf8proc_iterate(
      bytes, static_cast<utf8proc_ssize_t>(text.size() - offset), &out);
  if (length <= 0) return 0;
  code_point = static_cast<char32_t>(out);
  return static_cast<int>(length);
}

// Names a control character of ASCII, or a byte that is none.
void append_escape(std::string& out, unsigned char byte) {
  switch (byte) {
    case '\n':
      out += "\\n";
      return;
    case '\r':
      out += "\\r";
      return;
    case '\t':
      out += "\\t";
      return;
    default:
      out += fmt::format("\\x{:02X}", byte);
  }
}

bool is_ascii(std::string_view text) {
  for (const char c : text) {
    if (static_cast<unsigned char>(c) >= 0x80) return false;
  }
  return true;
}

}  // namespace

std::optional<std::size_t> find_bad_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    char32_t unused = 0;
    const int length = decode(text, i, unused);
    if (length == 0) return i;
    i += length;
  }
  return std::nullopt;
}

char32_t next_code_point(std::string_view text, std::size_t& offset) {
  char32_t code_point = kReplacement;
  const int length = decode(text, offset, code_point);
  offset += length == 0 ? 1 : length;
  return length == 0 ? kReplacement : code_point;
}

void append_utf8(std::string& text, char32_t code_point) {
  std::array<utf8proc_uint8_t, 4> bytes{};
  const auto length = utf8proc_encode_char(
      static_cast<utf8proc_int32_t>(code_point), bytes.data());
  text.append(reinterpret_cast<const char*>(bytes.data()), length);
}

std::vector<std::string_view> characters(std::string_view text) {
  std::vector<std::string_view> result;
  std::size_t begin = 0;
  utf8proc_int32_t state = 0;
  char32_t previous = 0;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t next = i;
    const char32_t current = next_code_point(text, next);
    if (i > 0 && utf8proc_grapheme_break_stateful(
                     static_cast<utf8proc_int32_t>(previous),
                     static_cast<utf8proc_int32_t>(current), &state)) {
      result.push_back(text.substr(begin, i - begin));
      begin = i;
    }
    previous = current;
    i = next;
  }
  if (!text.empty()) result.push_back(text.substr(begin));
  return result;
}

int count_characters(std::string_view text) {
  if (is_ascii(text)) return static_cast<int>(text.size());
  return static_cast<int>(characters(text).size());
}

int display_width(std::string_view text) {
  int width = 0;
  for (const std::string_view character : characters(text)) {
    std::size_t offset = 0;
    const char32_t base = next_code_point(character, offset);
    width += utf8proc_charwidth(static_cast<utf8proc_int32_t>(base));
  }
  return width;
}

std::string normalized(std::string_view text) {
  if (is_ascii(text)) return std::string(text);
  utf8proc_uint8_t* out = nullptr;
  const auto length = utf8proc_map(
      reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
      static_cast<utf8proc_ssize_t>(text.size()), &out,
      static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPOSE));
  const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owner(
      out, &std::free);
  if (length < 0) return std::string(text);
  return {reinterpret_cast<const char*>(out), static_cast<std::size_t>(length)};
}

namespace {

// Each letter by itself, without regard to a locale; what `change` leaves as it
// is keeps its bytes, bad ones too.
template <typename Change>
std::string changed(std::string_view text, Change change) {
  std::string result;
  result.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t begin = i;
    const char32_t code_point = next_code_point(text, i);
    const auto other = change(static_cast<utf8proc_int32_t>(code_point));
    if (static_cast<char32_t>(other) == code_point) {
      result.append(text.substr(begin, i - begin));
    } else {
      append_utf8(result, static_cast<char32_t>(other));
    }
  }
  return result;
}

}  // namespace

std::string lower_case(std::string_view text) {
  if (!is_ascii(text)) return changed(text, utf8proc_tolower);
  std::string result(text);
  for (char& c : result) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return result;
}

std::string upper_case(std::string_view text) {
  return changed(text, utf8proc_toupper);
}

bool is_upper_case(char32_t code_point) {
  return utf8proc_category(static_cast<utf8proc_int32_t>(code_point)) ==
         UTF8PROC_CATEGORY_LU;
}

bool is_letter(char32_t code_point) {
  const auto category =
      utf8proc_category(static_cast<utf8proc_int32_t>(code_point));
  return category >= UTF8PROC_CATEGORY_LU && category <= UTF8PROC_CATEGORY_LO;
}

bool is_latin_letter(char32_t code_point) {
  struct Range {
    char32_t first, last;
  };
  // The letters of the Latin blocks of the Unicode Standard, chapter 7.1.
  constexpr std::array<Range, 7> kRanges = {{{'A', 'Z'},
                                             {'a', 'z'},
                                             {0xC0, 0xD6},
                                             {0xD8, 0xF6},
                                             {0xF8, 0x24F},
                                             {0x1E00, 0x1EFF},
                                             {0x2C60, 0x2C7F}}};
  for (const Range& range : kRanges) {
    if (code_point <= range.last) return code_point >= range.first;
  }
  return false;
}

bool is_mark(char32_t code_point) {
  const auto category =
      utf8proc_category(static_cast<utf8proc_int32_t>(code_point));
  return category == UTF8PROC_CATEGORY_MN || category == UTF8PROC_CATEGORY_ME;
}

bool is_space(char32_t code_point) {
  return code_point == '\t' ||
         utf8proc_category(static_cast<utf8proc_int32_t>(code_point)) ==
             UTF8PROC_CATEGORY_ZS;
}

std::string printable(std::string_view text) {
  std::string result;
  result.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    char32_t code_point = 0;
    const int length = decode(text, i, code_point);
    if (length == 0) {
      append_escape(result, static_cast<unsigned char>(text[i++]));
      continue;
    }
    i += static_cast<std::size_t>(length);
    const auto category =
        utf8proc_category(static_cast<utf8proc_int32_t>(code_point));
    if (category == UTF8PROC_CATEGORY_ZS) {
      result += ' ';
    } else if (category < UTF8PROC_CATEGORY_ZL && category != 0) {
      append_utf8(result, code_point);
    } else if (code_point < 0x80) {
      append_escape(result, static_cast<unsigned char>(code_point));
    } else {
      result += fmt::format("\\u{:04X}", static_cast<unsigned>(code_point));
    }
  }
  return result;
}

}  // namespace sheaf
