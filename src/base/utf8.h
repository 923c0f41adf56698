#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// UTF-8 text as people see it. "Character" here is a user-perceived one: a
/// letter together with its combining marks (Unicode's extended grapheme
/// cluster, UAX #29). Code that calls these with text that is not UTF-8 gets
/// each bad byte treated as one character; nothing reads outside the text.

/// Offset of the first byte that is not well-formed UTF-8, if any.
std::optional<std::size_t> find_bad_utf8(std::string_view text);

/// Decodes the code point at `offset` and moves `offset` past it. A bad byte
/// gives U+FFFD.
char32_t next_code_point(std::string_view text, std::size_t& offset);
void append_utf8(std::string& text, char32_t code_point);

/// Splits into characters; the views point into `text`.
std::vector<std::string_view> characters(std::string_view text);
int count_characters(std::string_view text);
/// Columns that a terminal needs: marks take none, wide characters two.
int display_width(std::string_view text);

/// Unicode normal form C: letters composed with their marks where one code
/// point exists. Two ways of typing é become one.
std::string normalized(std::string_view text);
/// Lower case, letter by letter, without regard to a locale.
std::string lower_case(std::string_view text);
std::string upper_case(std::string_view text);
bool is_upper_case(char32_t code_point);
bool is_letter(char32_t code_point);
/// A letter of the Latin script as alphabets use it: accents included, ordinal
/// signs, full-width forms and phonetic letters not.
bool is_latin_letter(char32_t code_point);
/// A mark that sits on the character before it.
bool is_mark(char32_t code_point);
/// A space of any width that is no line break.
bool is_space(char32_t code_point);

/// The same text for messages, on one line and without what a terminal obeys or
/// nobody sees. A control or direction character is named by an escape: `\n`,
/// `\t` and `\r`, `\x1B` for others of ASCII and for a byte that is not UTF-8,
/// `\u202E` for all the rest. Spaces of any width become plain ones.
std::string printable(std::string_view text);

}  // namespace sheaf
