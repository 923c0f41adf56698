#include "phonics/ed_sounds.h"

#include <algorithm>

namespace sheaf {

bool is_about_ed(std::string_view pattern_id) {
  constexpr std::array<std::string_view, 3> kChanges = {"ed_double", "ed_drop",
                                                        "ed_yi"};
  return std::ranges::find(kEdSounds, pattern_id) != kEdSounds.end() ||
         std::ranges::find(kChanges, pattern_id) != kChanges.end();
}

int ed_sound(const Reading& reading, const PatternCatalogue& patterns) {
  for (std::size_t i = 0; i < kEdSounds.size(); ++i) {
    const Pattern* pattern = patterns.by_id(kEdSounds[i]);
    if (pattern != nullptr && reading.find(patterns.id_of(*pattern))) {
      return static_cast<int>(i);
    }
  }
  return -1;
}

}  // namespace sheaf
