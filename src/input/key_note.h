#pragma once

#include <string_view>
#include <vector>

namespace sheaf {

/// A key of a file as its table describes it, for manuals and editors.
struct KeyNote {
  std::string_view name;
  std::string_view example;  ///< a whole line: "days: 5"
  std::string_view meaning;
};

/// The notes of a table of keys.
template <typename Table>
std::vector<KeyNote> notes_of(const Table& table) {
  std::vector<KeyNote> notes;
  for (const auto& key : table) {
    notes.push_back({key.name, key.example, key.meaning});
  }
  return notes;
}

}  // namespace sheaf
