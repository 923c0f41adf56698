#pragma once

#include <string>
#include <vector>

#include "base/diagnostics.h"
#include "input/lesson.h"
#include "phonics/phonics.h"

namespace sheaf {

/// A pattern that a file names, and where.
struct NamedPattern {
  PatternId id = 0;
  PlacedWord written;
};

/// Looks up the patterns that a lesson or sequence names. A name may be of
/// several words, but "ai ay" also means two patterns where there is none of
/// that name. Reports names that nobody knows, or that could be several.
std::vector<NamedPattern> find_patterns(const std::vector<PlacedWord>& names,
                                        const Phonics& phonics,
                                        Diagnostics& diagnostics);

/// A pattern's name for people, with its sounds as they are said and written
/// under the conventions: "a before l as /aw/" is "as /or/" in British.
std::string name_of(PatternId pattern, const Phonics& phonics,
                    const Conventions& conventions);

}  // namespace sheaf
