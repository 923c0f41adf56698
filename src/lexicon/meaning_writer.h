#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "files/files.h"
#include "phonics/word_meanings.h"

namespace sheaf {

/// A word whose senses are wanted: its spelling and its place in the list.
using MeantWords = std::map<std::string, std::uint32_t, std::less<>>;

/// The sections of the word list about what words mean.
struct MeaningSections {
  std::vector<WordSense> senses;
  std::vector<Concept> concepts;
  std::vector<OppositeConcepts> opposites;
};

/// Reads the files of WordNet 3.0 (wndb(5WN): index.*, data.*, cntlist.rev) in
/// a folder and keeps the commonest senses of the words. Throws MachineError
/// where a file is missing or is none of these.
MeaningSections read_meanings(const Files& files, const std::string& folder,
                              const MeantWords& words);

}  // namespace sheaf
