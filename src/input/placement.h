#pragma once

#include <string>
#include <vector>

#include "base/diagnostics.h"
#include "base/source.h"

namespace sheaf {

struct Field;

/// One step of a check of where a learner is to begin, and the words that are
/// dictated for it.
struct PlacementStep {
  Spanned<int> number{.value = 0};  ///< as the sequence counts
  std::vector<Spanned<std::string>> words;
};

/// What stands under `placement:` in a lesson, as it was written: a check that
/// climbs a sequence in two parts. Whether the sequence has these steps is not
/// known yet.
struct Placement {
  std::vector<PlacementStep> part_one;  ///< one word each, from low to high
  std::vector<PlacementStep> part_two;  ///< from low to high
  Span span;

  bool given() const { return !part_two.empty(); }
};

/// Reads what stands after the key. Reports what is wrong: steps that do not
/// rise, a word that comes twice, a part that is not there.
Placement read_placement(const Field& field, Diagnostics& diagnostics);

}  // namespace sheaf
