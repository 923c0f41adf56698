#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "packet/packet.h"

namespace sheaf::test {

/// What stands on pages, element by element, in the order of drawing.
struct PageText {
  std::string sheet;  ///< "script", from the page's label
  ElementId element = 0;
  /// Of the element, or of what a span stands in.
  Role role = Role::paragraph;
  std::string text;
};
std::vector<PageText> texts_of(const Document& document);

/// The texts between slashes in which no blank stands: "/sh/" gives "sh".
std::vector<std::string> sounds_named_in(std::string_view text);

/// The teacher's key of sounds: each sign with the word that has it.
std::map<std::string, std::string> key_of_sounds(
    const std::vector<PageText>& teacher);

/// Whether the key names a sound, as a line of its own or among "the other
/// consonants", which are written with their letters.
bool stands_in_key(const std::map<std::string, std::string>& key,
                   const std::string& sound);

/// What the script says of a pattern: “dog. /o/. I hear /o/ in dog.”
struct SaidSound {
  std::string word;
  std::string sound;  ///< without slashes; both empty where nothing is said
};
std::vector<SaidSound> said_in_script(const std::vector<PageText>& teacher);

/// The cards of the sound card sheet: their key words and graphemes.
struct Card {
  std::string word;
  std::string grapheme;
  std::string told;  ///< the sentence for the learner
};
std::vector<Card> cards_of(const std::vector<PageText>& learner);

}  // namespace sheaf::test
