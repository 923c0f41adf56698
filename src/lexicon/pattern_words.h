#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/byte_source.h"

namespace sheaf {

/// The sections of the word list that are made from the finished rest of
/// it, which stands in `file` already.
struct PatternSections {
  std::vector<std::uint32_t> pattern_words;
  std::vector<std::uint8_t> pattern_accents;
  std::vector<std::uint8_t> said;
  std::vector<std::uint8_t> said_elsewhere;
};
PatternSections index_patterns(const ByteSource& source,
                               const std::string& file);

}  // namespace sheaf
