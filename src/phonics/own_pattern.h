#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/inventory.h"
#include "phonics/pattern_catalogue.h"

namespace sheaf {

/// A pattern that a lesson defines for itself from graphemes and their sounds:
/// `ough=/oh/ ow=/oh/`. A grapheme without a sound (`ough=/oh/ oa`) may say
/// anything.
struct OwnPattern {
  /// As the lesson wrote it.
  std::string written;
  /// For people: "ough as /oh/, ow as /oh/".
  std::string name;
  /// Those with a sound.
  std::vector<TaughtUnit> teaches;
  /// In the notation of the catalogue's column `unit`.
  std::string rules;
};

/// Whether a lesson's text for a pattern is a definition rather than a name:
/// it has an equals sign.
bool is_own_pattern(std::string_view written);

/// Reads a definition. `fault` says what is wrong, or stays empty.
OwnPattern read_own_pattern(std::string_view written,
                            const Inventory& inventory, std::string& fault);

/// Whether sounds can be those of one grapheme: some grapheme of English says
/// them together, or the teacher parted them (`/k s/`).
bool is_sound_of_one_grapheme(std::span<const Phoneme> sounds,
                              std::string_view written,
                              const Inventory& inventory);

}  // namespace sheaf
