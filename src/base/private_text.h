#pragma once

#include <string>
#include <string_view>

namespace sheaf {

/// What may be shown of files that are about learners: class files, records,
/// plans and what learners wrote. Whatever stands in one may be somebody's name
/// unless Sheaf knows it for something else.

/// Whether a text can be a learner's code: initials (up to three capital
/// letters), or up to 12 figures of which up to three may be letters of either
/// case; hyphens may stand inside. What could well be a name is none.
bool is_learner_code(std::string_view text);

/// Whether something in a text may be a name: a word that is no code, no number
/// and no word of the files' own form, such as `learners` or `all`.
bool may_be_name(std::string_view text);

/// The same text with an ellipsis for each such word.
std::string without_names(std::string_view text);

/// How many words a text has, codes and numbers among them: with ellipses in
/// their places they can still be counted.
int count_words(std::string_view text);

/// Whether a file is about learners, as far as its name and its text tell; they
/// tell it of broken files too. `name` is the path as the user gave it.
bool is_about_learners(std::string_view name, std::string_view text);

/// The words of the files' own form that `may_be_name` knows.
bool is_form_word(std::string_view word);

}  // namespace sheaf
