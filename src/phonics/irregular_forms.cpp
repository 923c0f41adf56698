#include "phonics/irregular_forms.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <map>
#include <tuple>

#include "phonics/table_text.h"
#include "phonics/tables.h"

namespace sheaf {
namespace {

// Prefixes behind which a verb keeps its own forms: retake, withstand.
constexpr std::array<std::string_view, 15> kVerbPrefixes = {
    "under", "inter", "over", "fore", "with", "down", "out", "mis",
    "pre",   "off",   "un",   "re",   "up",   "by",   "in"};

Ending as_asked(Ending ending) {
  return ending == Ending::es ? Ending::s : ending;
}

struct Table {
  std::vector<IrregularRow> rows;
  /// Rows of each form, by the form.
  std::multimap<std::string_view, const IrregularRow*> by_form;
};

Table read_table() {
  Table table;
  for (const TableRow& row : table_rows(irregular_forms_table())) {
    if (row.cell(0) == "base") continue;  // the head
    IrregularRow read;
    read.tail = row.cell(0).starts_with('+');
    read.base = row.cell(0).substr(read.tail ? 1 : 0);
    read.ending = ending_of_text(row.cell(1));
    for (const std::string_view form : split_at(row.cell(2), ' ')) {
      read.forms.emplace_back(form);
    }
    assert(read.ending != Ending::none && !read.forms.empty());
    table.rows.push_back(std::move(read));
  }
  std::ranges::sort(table.rows, {}, [](const IrregularRow& row) {
    return std::tuple(std::string_view(row.base), row.ending);
  });
  for (const IrregularRow& row : table.rows) {
    for (const std::string& form : row.forms) {
      table.by_form.emplace(form, &row);
    }
  }
  return table;
}

const Table& table() {
  static const Table read = read_table();
  return read;
}

const IrregularRow* find_row(std::string_view base, Ending ending) {
  const std::vector<IrregularRow>& rows = table().rows;
  const std::tuple key(base, ending);
  const auto at =
      std::ranges::lower_bound(rows, key, {}, [](const IrregularRow& row) {
        return std::tuple(std::string_view(row.base), row.ending);
      });
  const bool found =
      at != rows.end() && at->base == base && at->ending == ending;
  return found ? &*at : nullptr;
}

bool is_verb_prefix(std::string_view text) {
  return std::ranges::find(kVerbPrefixes, text) != kVerbPrefixes.end();
}

// Whether a row about the end of a word is about the whole of it, by what
// stands before: a verb's prefix, or anything before a `+`.
bool reaches(const IrregularRow& row, std::string_view before) {
  if (before.empty()) return true;
  const bool verb = row.ending == Ending::ed;
  return verb ? is_verb_prefix(before) : row.tail && before.size() > 1;
}

}  // namespace

std::span<const IrregularRow> irregular_rows() { return table().rows; }

std::vector<std::string> irregular_forms(std::string_view base, Ending ending) {
  ending = as_asked(ending);
  for (std::size_t at = 0; at + 1 < base.size(); ++at) {
    const IrregularRow* row = find_row(base.substr(at), ending);
    const std::string_view before = base.substr(0, at);
    if (row == nullptr || !reaches(*row, before)) continue;
    std::vector<std::string> forms = row->forms;
    for (std::string& form : forms) form.insert(0, before);
    return forms;
  }
  return {};
}

std::vector<std::string> bases_of_irregular(std::string_view form,
                                            Ending ending) {
  ending = as_asked(ending);
  std::vector<std::string> bases;
  for (std::size_t at = 0; at + 1 < form.size(); ++at) {
    const auto [begin, end] = table().by_form.equal_range(form.substr(at));
    for (auto found = begin; found != end; ++found) {
      const IrregularRow& row = *found->second;
      const std::string_view before = form.substr(0, at);
      if (row.ending != ending || !reaches(row, before)) continue;
      std::string base = std::string(before) + row.base;
      // misgo is not of the verb if it has a row of its own.
      if (at > 0 && find_row(base, ending) != nullptr) continue;
      bases.push_back(std::move(base));
    }
  }
  return bases;
}

}  // namespace sheaf
