#pragma once

#include <cstddef>
#include <vector>

#include "sheets/sheet.h"

namespace sheaf {

/// What of a warm-up is done on which day, beside saying the graphemes, which
/// is done every day: sounds first, then the words in two halves, then the
/// sentence. Fewer days take several of them.
struct WarmUpTask {
  enum class Kind { sounds, words, sentence };
  Kind kind = Kind::sounds;
  int day = 1;
  std::size_t first = 0;  ///< of the words
  std::size_t count = 0;
};

std::vector<WarmUpTask> warm_up_tasks(const SheetInput& in, int days);

}  // namespace sheaf
