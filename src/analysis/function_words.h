#pragma once

#include <string_view>

namespace sheaf {

/// Small words that tell what stands beside them (a grammar's closed classes;
/// common practice, no source). Words in lower case.

/// the, my, some: a noun follows, perhaps behind an adjective.
bool is_determiner(std::string_view word);
/// I, she, everyone: the subject of a verb by itself.
bool is_subject_pronoun(std::string_view word);
/// me, him, us: what a verb or a preposition has behind it.
bool is_object_pronoun(std::string_view word);
/// in, with, from.
bool is_preposition(std::string_view word);
/// is, had, can't: forms of be, have, do, and the modal verbs.
bool is_auxiliary(std::string_view word);
bool is_form_of_be(std::string_view word);
/// can, will, must: a verb without an ending follows.
bool is_modal(std::string_view word);
/// not, never, just: may stand between a subject and its verb.
bool is_mid_adverb(std::string_view word);
/// when, and, then, who, yes: what may open a sentence and is no subject.
bool is_opener(std::string_view word);
/// it's, they're, I'll: a subject with its verb.
bool is_subject_with_verb(std::string_view word);

}  // namespace sheaf
