#pragma once

#include <span>
#include <string_view>

#include "phonics/conventions.h"
#include "phonics/letter_map.h"
#include "phonics/reading.h"
#include "phonics/segment.h"

namespace sheaf {

/// Makes a reading of a word from its segments, which are those that the
/// accent's speakers have (`Lexicon::with`): units with their places in the
/// word as it was given, syllables, stress, and the sounds as the conventions
/// count them. `stress` has a bit for each syllable. Patterns are not looked
/// for here.
Reading make_reading(std::string_view word, const LetterMap& map,
                     std::span<const Segment> segments, std::uint16_t stress,
                     const Inventory& inventory,
                     const Conventions& conventions);

/// Fills in syllables, the accent's phonemes and the sounds of a reading whose
/// units have the phonemes of the word list.
void finish_reading(Reading& reading, std::uint16_t stress,
                    const Conventions& conventions);

}  // namespace sheaf
