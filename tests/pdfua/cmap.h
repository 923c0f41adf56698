#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>

namespace pdfua {

/// An embedded CMap, as a table from codes to CIDs or to text.
struct CMap {
  std::map<std::uint32_t, std::uint32_t> cids;
  std::map<std::uint32_t, std::u16string> texts;
  int code_bytes = 2;
  std::optional<int> writing_mode;
  std::string used;  ///< the CMap that it refers to
};

CMap read_cmap(const std::string& program);

/// The CMaps that every reader has (ISO 32000-1, table 118; the list is from
/// memory).
bool is_predefined_cmap(const std::string& name);

}  // namespace pdfua
