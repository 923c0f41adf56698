#pragma once

#include <cstdint>

#include "lexicon/word_table.h"

namespace sheaf {

/// Which of a word's short a are that of bath, for `WordRecord::bath`: the last
/// one before f, s, th, m, n or the like in a word of the list, and the same
/// one in an inflected form of it or in its part of a compound. The a of hand
/// in a bandmaster stays short.
std::uint8_t bath_vowels(const LexiconSources& sources,
                         const WordRecord& record, const Inventory& inventory);

}  // namespace sheaf
