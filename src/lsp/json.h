#pragma once

#include <nlohmann/json.hpp>

namespace sheaf {

/// Keys stay in the order in which they were put.
using Json = nlohmann::ordered_json;

}  // namespace sheaf
