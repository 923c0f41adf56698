#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "phonics/ending_rules.h"
#include "phonics/endings.h"
#include "phonics/word_record.h"

namespace sheaf {

/// The sounds of a base with its ending put on: -s as /s/, /z/ or /iz/, -ed as
/// /t/, /d/ or /id/, and so on. Nothing where the base's sounds do not take
/// this ending with this spelling ("gently" wants a base in -le).
std::optional<std::vector<Phoneme>> add_ending_sounds(
    std::span<const Phoneme> base, const EndingAnalysis& analysis);

/// Whether a reading with this label takes the ending: verbs take -ed and -ing,
/// and adjectives no -s, where a spelling has readings of several kinds
/// (presented, lives).
bool label_takes(std::string_view label, Ending ending);

/// What the rules of endings ask of a base, as far as its sounds tell.
BaseTraits traits_of(const WordRecord& base, const Inventory& inventory);

/// A record of the inflected word, made from the base's record, whose label
/// tells whether that reading takes the ending (a verb takes -ed). `letters`
/// are those of the whole word.
std::optional<WordRecord> derive_record(std::string_view spelling,
                                        std::string_view letters,
                                        const EndingAnalysis& analysis,
                                        const WordRecord& base,
                                        std::string_view label,
                                        const Inventory& inventory);

}  // namespace sheaf
