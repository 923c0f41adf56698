#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/byte_source.h"
#include "phonics/sentence_bank.h"

namespace sheaf {

/// The sections of the word list that hold the sentences and passages.
struct BankSections {
  std::string texts;
  std::vector<BankRecord> records;
  std::vector<BankWord> words;
  std::string spellings;
  std::vector<std::uint8_t> patterns;
};

/// One file of the bank.
struct BankSource {
  std::string name;
  std::string text;
};

/// Reads the files of the bank (their form is told in src/data/README.md) and
/// finds which patterns their words have. The rest of the word list stands in
/// `file` already. Throws MachineError, with file and line, where a line is
/// none of theirs.
BankSections index_bank(const ByteSource& source, const std::string& file,
                        const std::vector<BankSource>& sentences,
                        const std::vector<BankSource>& passages);

}  // namespace sheaf
