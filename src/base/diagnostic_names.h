#pragma once

#include <span>
#include <string_view>

namespace sheaf {

/// The short, stable name of a kind of message, printed in brackets at its
/// end, with one line that says what it is about.
struct DiagnosticName {
  std::string_view name;
  std::string_view meaning;
};

/// Every kind of message about a teacher's file. To add one, add a line here,
/// report it under its name, and bring it about in a golden (a test asks for
/// one). The list is kept in the order of the alphabet.
// clang-format off
#define SHEAF_DIAGNOSTIC_NAMES(X)                                             \
  X(bad_character,      "a character that cannot stand in this file")         \
  X(bad_utf8,           "the file is not saved as UTF-8 text")                \
  X(character_not_in_typeface, "a character that the typeface has no shape for") \
  X(file_too_large,     "the file is larger than Sheaf reads")                \
  X(key_word_not_in_list, "the key word is not in the list with the pattern")  \
  X(missing_key,        "a key that the file needs is not there")             \
  X(missing_value,      "a key has nothing after it")                         \
  X(pattern_not_in_word, "a word of the list lacks the lesson's pattern")      \
  X(repeated_key,       "the same key stands twice")                          \
  X(repeated_pattern,   "two names of the same pattern")                      \
  X(sentence_without_pattern, "a sentence to read that does not use the pattern") \
  X(sheet_left_out,     "the lesson has nothing for one of the sheets")       \
  X(split_does_not_fit, "graphemes given by hand that do not make up the word") \
  X(unknown_key,        "a key that Sheaf does not know")                     \
  X(unknown_layout,     "a layout that is not there")                         \
  X(unknown_option,     "an option that this sheet does not have")            \
  X(unknown_pattern,    "a pattern that nobody knows, or that could be several") \
  X(unknown_sheet,      "a kind of sheet that Sheaf does not have")           \
  X(unknown_typeface,   "a typeface that is not there")                       \
  X(unknown_word,       "a word that the word list lacks")                    \
  X(unusable_typeface,  "a font file that cannot be used")                    \
  X(unused_split,       "graphemes given by hand for a word that is not there") \
  X(value_out_of_range, "a number too small or too large for its use")        \
  X(wrong_value,        "a value that does not fit its key")
// clang-format on

namespace diagnostic {
#define SHEAF_DIAGNOSTIC_CONSTANT(id, meaning) \
  extern const DiagnosticName& id;
SHEAF_DIAGNOSTIC_NAMES(SHEAF_DIAGNOSTIC_CONSTANT)
#undef SHEAF_DIAGNOSTIC_CONSTANT
}  // namespace diagnostic

/// All names, in the order of the alphabet.
std::span<const DiagnosticName> diagnostic_names();

}  // namespace sheaf
