#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/word_record.h"

namespace sheaf {

/// What is known of a possible base.
struct BaseLookup {
  /// The records of a common plain word, or null.
  std::function<const std::vector<WordRecord>*(const std::string&)> find;
  std::function<std::string(const WordRecord&)> label;
};

/// Whether the dictionary says a regular form otherwise than its base: rarest
/// with the vowel of rat, breakups with that of breed. Much of the dictionary
/// was filled in by a machine, more carelessly for long words than for short
/// ones, so such forms are better made from the base anew. Forms that differ in
/// more than two sounds are taken for words of their own.
bool strays_from_base(const WordRecord& record, const Inventory& inventory,
                      const BaseLookup& bases);

}  // namespace sheaf
