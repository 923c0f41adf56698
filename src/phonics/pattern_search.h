#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/pattern_catalogue.h"

namespace sheaf {

/// One name of what a teacher wrote for a pattern or a contrast of several.
struct PatternName {
  /// Where it stands in what was written.
  std::size_t begin = 0, end = 0;
  /// The pattern, where it is clear.
  std::optional<PatternId> meant;
  /// Else what could be meant, best first; it may be a single one.
  std::vector<PatternId> could_be;
  /// The name is a term, a sound or a grapheme that stands for all of them.
  bool is_group = false;
  /// Names and terms that are spelled nearly so, where nothing else is near.
  std::vector<std::string_view> nearest;
};

/// Whether a word has a pattern, by the reading that comes first.
using HasPattern = std::function<bool(std::string_view word, PatternId)>;

/// Reads what a teacher wrote for a pattern: a name, or several for a contrast
/// ("sh, ch", "sh / ch", "sh vs ch", "sh and ch", "sh ch"). Taken is an exact
/// id (case, spaces, hyphens and underscores do not matter), then an exact
/// name, then a term, a sound ("/ay/") or a grapheme with a word ("ow as in
/// cow", "ow (cow)") that stands for one pattern alone. In a contrast, names
/// that stand for several patterns are taken where just one choice of them are
/// spellings of one sound: "ow / ou". Nothing that matches in part is taken.
std::vector<PatternName> find_pattern_names(const PatternCatalogue& catalogue,
                                            std::string_view written,
                                            const HasPattern& has_pattern);

}  // namespace sheaf
