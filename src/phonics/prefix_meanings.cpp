#include "phonics/prefix_meanings.h"

#include <algorithm>
#include <array>
#include <vector>

#include "base/utf8.h"
#include "phonics/endings.h"
#include "phonics/table_text.h"
#include "phonics/tables.h"

namespace sheaf {

namespace {

struct MeaningRow {
  std::string_view prefix, meaning;
  std::vector<std::string_view> bases;
};

const std::vector<MeaningRow>& meaning_rows() {
  static const std::vector<MeaningRow> rows = [] {
    std::vector<MeaningRow> all;
    for (const TableRow& row : table_rows(prefix_meanings_table())) {
      if (row.cell(0) == "prefix") continue;
      all.push_back({row.cell(0), row.cell(1), split_at(row.cell(2), ' ')});
    }
    return all;
  }();
  return rows;
}

const MeaningRow* row_of(std::string_view prefix, std::string_view base) {
  for (const MeaningRow& row : meaning_rows()) {
    if (row.prefix == prefix &&
        std::ranges::find(row.bases, base) != row.bases.end()) {
      return &row;
    }
  }
  return nullptr;
}

// The row of what the base is a form of: rewrites, unlocked.
const MeaningRow* row_of_form(std::string_view prefix, std::string_view base) {
  constexpr std::array kHarmless = {Ending::s, Ending::es, Ending::ed,
                                    Ending::ing};
  for (const Ending ending : kHarmless) {
    for (const EndingAnalysis& a : possible_bases(base, ending)) {
      const MeaningRow* row = row_of(prefix, a.base);
      // What is said of one word (submarine) is not said of its forms.
      if (row != nullptr && row->meaning.find("{}") != row->meaning.npos) {
        return row;
      }
    }
  }
  return nullptr;
}

// The row of its end: unreadable, unhelpful.
const MeaningRow* row_of_end(std::string_view prefix, std::string_view base) {
  for (const MeaningRow& row : meaning_rows()) {
    if (row.prefix != prefix) continue;
    for (const std::string_view end : row.bases) {
      if (end.starts_with('-') && base.size() > end.size() &&
          base.ends_with(end.substr(1))) {
        return &row;
      }
    }
  }
  return nullptr;
}

}  // namespace

std::string prefix_meaning(std::string_view prefix, std::string_view base) {
  const std::string letters = lower_case(base);
  const MeaningRow* row = row_of(prefix, letters);
  if (row == nullptr) row = row_of_form(prefix, letters);
  if (row == nullptr) row = row_of_end(prefix, letters);
  if (row == nullptr) return {};
  std::string meaning(row->meaning);
  if (const auto at = meaning.find("{}"); at != std::string::npos) {
    meaning.replace(at, 2, letters);
  }
  return meaning;
}

}  // namespace sheaf
