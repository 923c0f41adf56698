#pragma once

#include "lexicon/word_table.h"

namespace sheaf {

/// Puts behind the readings of each word those that only some accents have: of
/// the words of accent_words.tsv, of what is made from them (herbs, rainforest)
/// where the rest of the word is as General American has it, and of words that
/// `accent_rules.h` finds. A row of a word outdoes what would be made. Faults
/// of the table go to the report.
void add_accent_records(const LexiconSources& sources, WordTable& table,
                        LexiconReport& report);

}  // namespace sheaf
