#pragma once

#include <string_view>

namespace sheaf {

/// Whether a word may stand for a sound on a card that a class sees every day:
/// not one that makes it giggle, or hurts or frightens somebody
/// (src/data/not_key_words.tsv), nor a form of one with an ending.
bool may_be_key_word(std::string_view word);

}  // namespace sheaf
