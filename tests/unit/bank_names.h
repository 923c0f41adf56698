#pragma once

#include <cctype>
#include <set>
#include <string>

#include "base/utf8.h"
#include "unit/phonics_data.h"

namespace sheaf {

/// Whether a word of a text that comes with Sheaf, capital included, is a name
/// of a person or place that is not one of those used there.
inline bool is_foreign_name(const std::string& word) {
  static const std::set<std::string> kNames = {
      "Kim",  "Sam",  "Jan",  "Ben",  "Meg",  "Tom",  "Pat",  "Dan",
      "Nell", "Max",  "Ash",  "Beth", "Jack", "Ned",  "Ines", "Lee",
      "Kay",  "June", "Rose", "Noah", "Omar", "Mira", "Leo",  "Zoe"};
  const std::string base = word.substr(0, word.find('\''));
  const auto info = shared_phonics().info(lower_case(base));
  const bool is_name = info && info->name && !info->everyday;
  const bool is_day = base.find("day") != std::string::npos;
  return std::isupper(static_cast<unsigned char>(word[0])) != 0 && is_name &&
         !is_day && !kNames.contains(base);
}

}  // namespace sheaf
