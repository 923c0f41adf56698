#include "phonics/key_word_fit.h"

#include <array>
#include <set>
#include <string>

#include "base/utf8.h"
#include "phonics/endings.h"
#include "phonics/table_text.h"
#include "phonics/tables.h"

namespace sheaf {

namespace {

const std::set<std::string_view>& unfit_words() {
  static const std::set<std::string_view> words = [] {
    std::set<std::string_view> all;
    for (const TableRow& row : table_rows(not_key_words_table())) {
      if (row.cell(0) == "why") continue;
      for (const std::string_view word : split_at(row.cell(1), ' ')) {
        if (!word.empty()) all.insert(word);
      }
    }
    return all;
  }();
  return words;
}

}  // namespace

bool may_be_key_word(std::string_view word) {
  const std::string wanted = lower_case(word);
  if (unfit_words().contains(wanted)) return false;
  constexpr std::array kForms = {Ending::s,   Ending::es, Ending::ed,
                                 Ending::ing, Ending::er, Ending::est};
  for (const Ending ending : kForms) {
    for (const EndingAnalysis& form : possible_bases(wanted, ending)) {
      if (unfit_words().contains(form.base)) return false;
    }
  }
  return true;
}

}  // namespace sheaf
