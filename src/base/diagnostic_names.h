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
#define SHEAF_DIAGNOSTIC_NAMES(X) \
  X(bad_character, "a character that cannot stand in this file") \
  X(bad_list, "a list that is not written as lists are") \
  X(bad_path, "the name of a file that Sheaf would not look for") \
  X(bad_quotes, "quotes that do not hold a text together") \
  X(bad_split, "graphemes that do not make the word") \
  X(bad_utf8, "the file is not saved as UTF-8 text") \
  X(bad_word, "something that cannot be a word") \
  X(capitals_put_right, "words with capitals that are no names") \
  X(character_not_in_typeface, "a character that the typeface has no shape for") \
  X(colon_in_text, "a colon that makes a key out of a text") \
  X(comma_splice, "a comma that joins two sentences by itself") \
  X(comment_in_text, "a text that ends early, where a comment begins") \
  X(does_not_fit, "something that is larger than the paper has room for") \
  X(end_mark_added, "a sentence without a mark at its end") \
  X(file_form, "the file is not written as such files are") \
  X(file_too_large, "the file is larger than Sheaf reads") \
  X(key_word_not_in_list, "the key word is not in the list with the pattern") \
  X(last_learner, "a file of which nothing is left without a learner") \
  X(learner_not_listed, "a learner of the class whom a record says nothing of") \
  X(letter_shapes_not_in_typeface, "a form of a and g that the typeface lacks") \
  X(long_sentence, "a sentence that is long for the group") \
  X(missing_capital, "a small letter where a capital belongs") \
  X(missing_colon, "a line without the colon after its key") \
  X(missing_end_mark, "a paragraph without a mark at its end") \
  X(missing_key, "a key that the file needs is not there") \
  X(missing_space, "no space after a colon or a dash") \
  X(missing_value, "a key has nothing after it") \
  X(no_errors_written, "a record of a whole class without an error") \
  X(no_lesson, "a lesson file that is not there") \
  X(no_picture, "a picture file that is not there") \
  X(no_sequence, "a sequence file that is not there") \
  X(no_such_file, "a file that a record names and that is not there") \
  X(no_word_with_pattern, "a pattern that no word of the list has") \
  X(no_words_in_line, "a line of a list of sentences that has no words") \
  X(nobody_has_lesson, "a lesson that is no learner's of the class") \
  X(not_dictated, "a word of a record that its lesson does not dictate") \
  X(not_enough_sentences, "fewer sentences than Sheaf was asked to choose") \
  X(not_enough_words, "fewer words than Sheaf was asked to choose") \
  X(not_in_class, "a learner of a record whom the class does not have") \
  X(not_marked_yet, "a record that is still to be marked") \
  X(not_used_yet, "a key that this Sheaf reads and does not use") \
  X(not_yet_taught, "a word with something that was not taught yet") \
  X(number_left_out, "a sentence with its number typed in front") \
  X(other_step, "a learner of a record who is not at its lesson's step yet") \
  X(pattern_not_in_word, "a word of the list lacks the lesson's pattern") \
  X(read_and_dictated, "a sentence to dictate that was also read") \
  X(repeated_key, "the same key stands twice") \
  X(repeated_pattern, "two names of the same pattern") \
  X(repeated_record, "what learners wrote stands in two records") \
  X(repeated_sentence, "the same sentence stands twice in a list") \
  X(repeated_word, "the same word stands twice in a list") \
  X(second_document, "a line of three dashes in the middle of the file") \
  X(sentence_without_pattern, "a sentence to read that does not use the pattern") \
  X(sentences_chosen, "sentences or a passage that Sheaf chose") \
  X(sheet_left_out, "the lesson has nothing for one of the sheets") \
  X(sheet_there_already, "a sheet for more practice that the layout has") \
  X(special_sign, "a text that begins with a sign of the file's own") \
  X(split_sentence, "a sentence that a comma may have split") \
  X(tab_in_indentation, "a line that begins with a tab") \
  X(target_found, "a word that an attempt of a record was taken for") \
  X(text_too_long, "a text longer than there is room for") \
  X(too_deep, "lists and keys inside each other too many times") \
  X(too_many, "more than Sheaf takes of one thing") \
  X(unclear_target, "an attempt of a record whose word cannot be told") \
  X(unclosed_bracket, "a bracket that is never closed") \
  X(unclosed_quote, "a quote that is never closed") \
  X(unknown_convention, "a way of counting or saying sounds that is none") \
  X(unknown_key, "a key that Sheaf does not know") \
  X(unknown_layout, "a layout that is not there") \
  X(unknown_learner, "a learner whom the class does not have") \
  X(unknown_option, "an option that this sheet does not have") \
  X(unknown_pattern, "a pattern that nobody knows, or that could be several") \
  X(unknown_sheet, "a kind of sheet that Sheaf does not have") \
  X(unknown_step, "a step that the sequence does not have") \
  X(unknown_typeface, "a typeface that is not there") \
  X(unknown_version, "a file written for another version of Sheaf") \
  X(unknown_word, "a word that the word list lacks") \
  X(unlikely_date, "a day outside the school year, or far from all others") \
  X(unread_answer, "braces in a text that say nothing about a word") \
  X(unusable_picture, "a picture that cannot be used") \
  X(unusable_typeface, "a font file that cannot be used") \
  X(unused_split, "graphemes given by hand for a word that is not there") \
  X(value_out_of_range, "a number too small or too large for its use") \
  X(words_chosen, "words that Sheaf chose because the lesson names none") \
  X(wrong_file_kind, "a file of one kind where another is wanted") \
  X(wrong_indentation, "a line that begins too far left or right") \
  X(wrong_value, "a value that does not fit its key")
// clang-format on

namespace diagnostic {
#define SHEAF_DIAGNOSTIC_CONSTANT(id, meaning) extern const DiagnosticName& id;
SHEAF_DIAGNOSTIC_NAMES(SHEAF_DIAGNOSTIC_CONSTANT)
#undef SHEAF_DIAGNOSTIC_CONSTANT
}  // namespace diagnostic

/// All names, in the order of the alphabet.
std::span<const DiagnosticName> diagnostic_names();

}  // namespace sheaf
