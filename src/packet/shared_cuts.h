#pragma once

#include <span>
#include <string>
#include <vector>

#include "packet/packet.h"

namespace sheaf {

/// What the cards of one learner of a class are made from. All of it must
/// outlive the call.
struct CutsOf {
  std::string code;  ///< the learner's
  const AnalyzedLesson* lesson = nullptr;
  const LayoutPlan* layout = nullptr;
  const LessonPictures* pictures = nullptr;
  const Style* style = nullptr;
  SharedMemory* shared = nullptr;  ///< see PacketFor
};

/// Leaves with the cards of several learners, to be cut at one go.
struct SharedCuts {
  /// Whose cards they are, in the order of the class: their packets need none.
  std::vector<std::string> learners;
  Document leaves;
};

/// Learners whose own leaves would stand half empty share leaves of the same
/// paper, as far as that saves some; no picture or word is smaller there than
/// on a leaf of the learner's own. Each set bears its learner's code. `only` is
/// that of `make_packet`. Empty where sharing saves nothing.
SharedCuts share_cuts(std::span<const CutsOf> learners,
                      const std::vector<std::string>& only, Shaper& shaper,
                      Diagnostics& diagnostics);

}  // namespace sheaf
