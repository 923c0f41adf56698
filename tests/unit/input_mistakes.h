#pragma once

#include <gtest/gtest.h>

#include <span>
#include <string>

#include "base/diagnostics.h"
#include "base/source.h"

namespace sheaf {

/// A mistake that a tired teacher makes, and all that Sheaf says about it:
/// read the messages as a teacher would.
struct Mistake {
  const char* what;
  std::string text;
  const char* messages;
};

/// Reads each text with `read` and compares what is printed.
template <typename Read>
void expect_messages(const char* file_name, std::span<const Mistake> mistakes,
                     Read read) {
  for (const Mistake& mistake : mistakes) {
    const SourceFile file(file_name, mistake.text);
    Diagnostics diagnostics;
    read(file, diagnostics);
    EXPECT_EQ(to_text(diagnostics), mistake.messages) << mistake.what;
  }
}

}  // namespace sheaf
