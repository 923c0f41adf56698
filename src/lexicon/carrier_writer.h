#pragma once

#include <string>
#include <vector>

#include "base/byte_source.h"
#include "lexicon/bank_writer.h"
#include "phonics/carriers.h"

namespace sheaf {

/// The sections of the word list that hold the sentences to say dictated words
/// in.
struct CarrierSections {
  std::string texts;
  std::vector<CarrierRecord> records;
};

/// Reads them from their file (its form is told in src/data/README.md). The
/// reading that a sentence is about is the first that has the pattern of its
/// section. The rest of the word list stands in `file` already. Throws
/// MachineError, with file and line, where a line is not of that form, its word
/// is not known, has not the pattern or is not in its sentence, or where it has
/// a sentence already.
CarrierSections index_carriers(const ByteSource& source,
                               const std::string& file,
                               const BankSource& carriers);

}  // namespace sheaf
