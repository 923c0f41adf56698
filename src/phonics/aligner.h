#pragma once

#include <span>
#include <string_view>

#include "phonics/segment.h"

namespace sheaf {

/// How a word is to be laid against its sounds.
struct AlignTask {
  /// Letters a to z only, at most 64.
  std::string_view letters;
  std::span<const Phoneme> phonemes;
  /// Where the ending -ed of a known base begins, or -1. Only there may `ed`
  /// be one unit, and there it must be.
  int ending_ed = -1;
};

/// The cheapest way to lay the letters against the sounds with the inventory's
/// correspondences under the rules of the trade (see `unit_rules.h`), or
/// nothing where there is none. `cost`, if wanted, gets its cost.
Segments align(const Inventory& inventory, const AlignTask& task,
               int* cost = nullptr);

}  // namespace sheaf
