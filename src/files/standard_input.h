#pragma once

#include <string>

namespace sheaf {

/// What another program sends over standard input, as it comes.
class StandardInput {
 public:
  /// Whether something has come that nobody has read.
  bool has_more() const;
  /// Waits for more and puts it behind `bytes`; false at the end.
  bool read_into(std::string& bytes);
};

}  // namespace sheaf
