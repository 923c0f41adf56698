#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "json/json.h"
#include "service/service.h"

namespace sheaf {

/// Between the places of the protocol (lines and characters from 0, files as
/// URIs) and those of the service (bytes, paths).

/// How the client counts within a line: by default in units of UTF-16.
enum class Units { utf8, utf16 };

/// The byte of a place; behind the end of a line it is the line's end.
std::uint32_t offset_of(std::string_view text, const Json& position,
                        Units units);
TextRange range_of(std::string_view text, const Json& range, Units units);
Json position_of(std::string_view text, std::uint32_t offset, Units units);
Json to_json(std::string_view text, TextRange range, Units units);

/// The path of a `file:` URI; of another kind (an unsaved text) a name that no
/// file can have.
std::string path_of_uri(std::string_view uri);
std::string uri_of_path(std::string_view path);

}  // namespace sheaf
