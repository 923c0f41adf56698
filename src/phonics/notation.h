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
/// conventions. The phonemes are those of a reading (`Unit::phonemes`,
/// `Sound::phonemes`), where what a word says is settled already. Phonemes that
/// make one sound (car's aa r) have one name; several sounds stand side by side
/// ("ks"), with + between them where they would be read as others ("u+r").
std::string sound_name(std::span<const Phoneme> phonemes,
                       const Conventions& conventions);

/// A line of the key to a notation: the sign and a word that has the sound.
struct NotationKeyLine {
  std::string sign;
  std::string word;
};
/// The key to the vowels and to the consonants that plain letters do not show,
/// in the order of the inventory; each sign once, and none that the accent does
/// not have.
std::vector<NotationKeyLine> notation_key(const Conventions& conventions);
/// Whether a name is that of a consonant written with its own letter, which
/// needs no line in a key.
bool is_plain_consonant(std::string_view name);

/// Reads a sound that a teacher wrote, with or without slashes: a plain name
/// ("sh", "ee", "ai"), one with marks, or IPA; of several sounds ("ks") too.
/// The phonemes are those of the word list (see `as_listed`).
std::optional<std::vector<Phoneme>> read_sound(std::string_view written);
/// The same as it is said: /o/ is short o, and not the a of father.
std::optional<std::vector<Phoneme>> read_said_sound(std::string_view written);
/// Plain names that can be written, for messages.
std::vector<std::string_view> plain_sound_names();

}  // namespace sheaf
