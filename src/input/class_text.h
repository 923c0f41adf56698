#pragma once

#include <map>
#include <string>
#include <vector>

#include "input/class_file.h"

namespace sheaf {

/// A class file written anew, with review words of its own for some learners
/// (by code): what `read_class` reads to the same class. Comments are not kept.
std::string class_text(
    const ClassFile& class_file,
    const std::map<LearnerCode, std::vector<std::string>>& review_words);

}  // namespace sheaf
