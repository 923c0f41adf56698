#pragma once

#include <fstream>
#include <iterator>
#include <string>

#include "phonics/phonics.h"

namespace sheaf {

/// The word list that the build compiled, loaded once.
inline const Phonics& shared_phonics() {
  static const Phonics phonics(SHEAF_WORD_LIST);
  return phonics;
}

/// A file of tests/data, whole.
inline std::string test_data(const std::string& name) {
  std::ifstream file(std::string(SHEAF_TEST_DATA) + "/" + name,
                     std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace sheaf
