#pragma once

#include <string_view>
#include <vector>

#include "phonics/division.h"

namespace sheaf {

/// What each part is, by its letters and the sound of its vowel. The parts have
/// their places already. `dropped_at` is the byte where an ending begins that
/// made its base drop an e, or 0: mak of making is a part with silent e.
void set_part_kinds(const Reading& reading, std::size_t dropped_at,
                    std::vector<WordPart>& parts);

/// Endings that are learned whole, since their letters do not say their sounds
/// one by one: tion, tures. Common practice, no source.
bool is_learned_whole(std::string_view letters);
/// The same with anything behind it: tional, surement.
bool begins_learned_whole(std::string_view letters);
/// Whether a unit is the vowel of a part: the r of fire and the m of rhythm are
/// not, though the word list has a weak vowel there.
bool is_part_vowel(const Unit& unit);
/// A vowel with r: ar, ir, air, ore.
bool has_r(const Unit& unit);

}  // namespace sheaf
