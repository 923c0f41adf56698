#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/conventions.h"
#include "phonics/reading.h"

namespace sheaf {

/// A sound as people write it, without slashes: plain letters ("sh", "ee",
/// "air"), dictionary marks ("ē", "o͞o") or IPA ("iː"), in the accent of the
/// conventions. Phonemes that make one sound (car's aa r) have one name.
std::string sound_name(std::span<const Phoneme> phonemes,
                       const Conventions& conventions);

/// The name of a reading's sound; knows the short o of "dog" from the vowel of
/// "saw" and the a of "father" by their spelling.
std::string sound_name(const Reading& reading, std::size_t sound,
                       const Conventions& conventions);

/// A line of the key to a notation: the sign and a word that has the sound.
struct NotationKeyLine {
  std::string sign;
  std::string_view word;
};
/// The key to the vowels and to the consonants that plain letters do not show,
/// in the order of the inventory.
std::vector<NotationKeyLine> notation_key(const Conventions& conventions);

/// Reads a sound that a teacher wrote, with or without slashes: a plain name
/// ("sh", "ee", "ai"), one with marks, or IPA; of several sounds ("ks") too.
std::optional<std::vector<Phoneme>> read_sound(std::string_view written);
/// Plain names that can be written, for messages.
std::vector<std::string_view> plain_sound_names();

}  // namespace sheaf
