#pragma once

#include <string>
#include <string_view>

namespace sheaf {

/// What a base means behind a prefix, in plain words: "write again" of re and
/// write, "under the sea" of sub and marine. Empty where the two do not add up
/// to the word (return) or nobody has judged it; src/data/prefix_meanings.tsv
/// has what was judged. `prefix` is in lower case as the patterns have it,
/// `base` any word; a regular ending on it (rewrites) does no harm.
std::string prefix_meaning(std::string_view prefix, std::string_view base);

}  // namespace sheaf
