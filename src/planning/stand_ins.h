#pragma once

#include <string>
#include <vector>

#include "planning/word_search.h"

namespace sheaf {

/// Words to put in the place of one that was not taught yet: everyday words
/// that can be read, nearest to it by their sounds and then by their length.
/// What they mean is for the teacher to see. At most `count`; may be none.
std::vector<std::string> stand_ins(const Reading& reading,
                                   const SearchGround& source,
                                   std::size_t count);

}  // namespace sheaf
