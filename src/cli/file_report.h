#pragma once

#include <string>

#include "driver/check_file.h"

namespace sheaf {

/// What is in a lesson, a class or a sequence, for people; empty where it could
/// not be read.
std::string file_report(Workspace& workspace, const std::string& path,
                        const CheckedFile& checked);

}  // namespace sheaf
