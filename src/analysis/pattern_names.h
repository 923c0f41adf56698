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

/// What is wrong with a name, and what can be done about it: the patterns that
/// could be meant, each with its name and a word that has it.
struct PatternFault {
  std::string text;
  Help help;
};
/// For a name that is not clear; `written` is what stands there.
PatternFault fault_of(const PatternName& name, std::string_view written,
                      const PatternCatalogue& catalogue);

/// Looks up the patterns that a lesson or sequence names; one name may be a
/// contrast of several ("sh and ch"). Reports names that nobody knows, or that
/// stand for several.
std::vector<NamedPattern> find_patterns(const std::vector<PlacedWord>& names,
                                        const Phonics& phonics,
                                        Diagnostics& diagnostics);

/// A pattern's name for people, with its sounds as they are said and written
/// under the conventions: "a before l as /aw/" is "as /or/" in British.
std::string name_of(PatternId pattern, const Phonics& phonics,
                    const Conventions& conventions);

}  // namespace sheaf
