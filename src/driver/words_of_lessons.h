#pragma once

#include <set>
#include <string>
#include <vector>

#include "driver/workspace.h"

namespace sheaf {

/// Words in lower case.
using WordSet = std::set<std::string, std::less<>>;

/// Adds every word that these lessons show or dictate, also those that Sheaf
/// chose for them: lists, sentences, passages, rhymes, pictures. Files of other
/// kinds are passed over, and a folder stands for the files in it, but not for
/// its folders. Throws MachineError where there is no such file. What is wrong
/// with a lesson is reported; the words are not to be used then.
void add_words_of_lessons(Workspace& workspace, const LessonRequest& request,
                          const std::vector<std::string>& paths, WordSet& words,
                          Diagnostics& diagnostics);

}  // namespace sheaf
