#pragma once

#include <map>
#include <string>
#include <vector>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// Words to put in the place of a word of a sentence that learners cannot read
/// yet: everyday words that they can read (decodable, or known by sight), of
/// the same kind in the same form (ships for boats, ran for walked), the
/// nearest in meaning first. At most `count`; empty where nothing is near.
///
/// `known` keeps what was found in this lesson: a word comes in many sentences,
/// and is looked for once in each way in which it is used.
using KnownNearWords = std::map<std::string, std::vector<std::string>>;
std::vector<std::string> near_in_meaning(const AnalyzedLesson& lesson,
                                         const AnalyzedSentence& sentence,
                                         std::size_t index, std::size_t count,
                                         KnownNearWords& known);

}  // namespace sheaf
