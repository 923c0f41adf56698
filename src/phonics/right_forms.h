#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "phonics/endings.h"
#include "phonics/lexicon.h"

namespace sheaf {

/// A known word that a misspelling is likely meant for: a known base with an
/// ending, which the misspelling put on in another way than the rules do.
struct RightForm {
  std::string word;              ///< carried
  std::string base;              ///< carry
  Ending ending = Ending::none;  ///< as asked for: -ed, -s also for -es
};

/// What a wrong word is likely meant for, the likeliest first: carried for
/// carryed, running for runing, went and gone for goed. Empty where no known
/// base with an ending is near. `wrong` is in lower case, a to z; that nobody
/// knows it is for the caller to say.
std::vector<RightForm> right_forms(std::string_view wrong,
                                   const Lexicon& lexicon);

}  // namespace sheaf
