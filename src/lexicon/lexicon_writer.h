#pragma once

#include <string>

#include "files/files.h"

namespace sheaf {

/// Where the sources of the word list lie.
struct LexiconPaths {
  std::string dictionary;  ///< Festival's cmudict file
  std::string scowl;       ///< folder of the SCOWL lists
  std::string wordnet;     ///< folder of WordNet's database
  std::string data;        ///< src/data
};

/// Builds the word list and writes it. Gives a short
/// report. `debug_list`, if given, gets the words that could not be aligned.
/// Throws MachineError where a source is missing or faulty.
std::string build_lexicon(Files& files, const LexiconPaths& paths,
                          const std::string& out,
                          const std::string& debug_list = {});

}  // namespace sheaf
