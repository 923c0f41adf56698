#pragma once

#include <nlohmann/json.hpp>

namespace sheaf {

/// The one door to the JSON library. Keys stay in the order in which they were
/// put.
using Json = nlohmann::ordered_json;

/// One line of text. Bytes that are not UTF-8 become U+FFFD.
inline std::string dumped(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace sheaf
