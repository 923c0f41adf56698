#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "driver/marking_desk.h"

namespace sheaf {

/// The patterns of a lesson again, with other words.
struct FreshSet {
  std::string text;        ///< of a lesson file
  std::size_t shared = 0;  ///< words of its list that the lesson has too
};

/// The lesson as another set (`set: 2`, 3, 4), made in the lesson's own folder;
/// nothing where no words are found. Where it would take one of the words
/// `kept_back`, all that Sheaf chooses is written out without them, since a
/// later build would not know of them; sentences may still have such a word.
std::optional<FreshSet> fresh_set(Workspace& workspace,
                                  const LessonRequest& request,
                                  const TaughtFile& taught, int set,
                                  const std::vector<std::string>& kept_back);

}  // namespace sheaf
