#pragma once

#include <algorithm>
#include <array>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>

#include "files/disk_files.h"
#include "phonics/phonics.h"

namespace sheaf {

/// The word list that the build compiled, loaded once.
inline const Phonics& shared_phonics() {
  static const Phonics phonics(disk(), SHEAF_WORD_LIST);
  return phonics;
}

/// A file of tests/data, whole.
inline std::string test_data(const std::string& name) {
  std::ifstream file(std::string(SHEAF_TEST_DATA) + "/" + name,
                     std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The plain words (a to z) of the SCOWL lists english-words and
/// american-words up to a size.
inline std::set<std::string> scowl_words(int largest) {
  std::set<std::string> words;
  for (const int size : {10, 20, 35, 40, 50, 55, 60, 70}) {
    if (size > largest) break;
    for (const char* list : {"english-words", "american-words"}) {
      std::ifstream file(std::string(SHEAF_SCOWL) + "/" + list + "." +
                         std::to_string(size));
      for (std::string word; std::getline(file, word);) {
        if (!word.empty() &&
            word.find_first_not_of("abcdefghijklmnopqrstuvwxyz") ==
                std::string::npos) {
          words.insert(word);
        }
      }
    }
  }
  return words;
}

/// All words of SCOWL in lower case, of every list and size.
inline const std::set<std::string>& every_scowl_word() {
  static const std::set<std::string> words = [] {
    std::set<std::string> all;
    for (const auto& entry : std::filesystem::directory_iterator(SHEAF_SCOWL)) {
      const std::string name = entry.path().filename();
      if (name.find("-words.") == std::string::npos &&
          name.find("-upper.") == std::string::npos &&
          name.find("-proper-names.") == std::string::npos) {
        continue;
      }
      std::ifstream file(entry.path());
      for (std::string word; std::getline(file, word);) {
        std::ranges::transform(word, word.begin(), [](unsigned char c) {
          return static_cast<char>(std::tolower(c));
        });
        all.insert(std::move(word));
      }
    }
    return all;
  }();
  return words;
}

}  // namespace sheaf
