#pragma once

#include <set>
#include <string>
#include <vector>

#include "base/byte_source.h"
#include "phonics/sound_alikes.h"

namespace sheaf {

/// What is told of words beside the word list itself.
struct HomophoneWords {
  /// Those that only the lists of American or of British English have.
  std::set<std::string> american;
  std::set<std::string> british;
  /// Those that learners meet although no list of common words has them, and
  /// those of the lists that do not count.
  std::set<std::string> met;
  std::set<std::string> not_met;
};

/// The section `sound_alikes`: the common words whose key some other word of
/// the list has as well. Made from the finished rest of the word list, which
/// stands in `file` already.
std::vector<SoundAlike> index_sound_alikes(const ByteSource& source,
                                           const std::string& file,
                                           const HomophoneWords& words);

}  // namespace sheaf
