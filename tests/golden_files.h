#pragma once

#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cctype>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "project_files.h"

namespace sheaf::test {

/// What goldens are made of, for every test that has some: the program run as
/// a teacher would, and files that are compared or, with SHEAF_UPDATE=1,
/// written again. SHEAF_PROGRAM and SHEAF_PROJECT are set by the build.

inline std::filesystem::path goldens() { return project() / "tests/golden"; }

/// The files of goldens as a teacher could write them: YAML, and lists of
/// sentences.
inline std::vector<std::filesystem::path> golden_inputs() {
  return files_below(goldens(), {".yaml", ".txt"});
}

struct Outcome {
  int exit_code = -1;
  std::string results, messages;
};

/// Runs the program in the goldens' folder, as a teacher would beside a file.
/// What it prints is kept in the folder `out`.
inline Outcome run(const std::string& arguments,
                   const std::filesystem::path& out) {
  const std::string command = "cd '" + goldens().string() + "' && '" +
                              SHEAF_PROGRAM "' " + arguments + " >'" +
                              (out / "results").string() + "' 2>'" +
                              (out / "messages").string() + "'";
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read(out / "results"),
          read(out / "messages")};
}

/// The rest of the first line that begins so; "" if none does.
inline std::string line_with(const std::string& text,
                             const std::string& start) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with(start)) return line.substr(start.size());
  }
  return {};
}

/// Whether a file holds what it should; if it is to be written again, it is,
/// which counts as a failure once, so that nobody mistakes a rewrite for a
/// pass.
inline void compare(const std::filesystem::path& expected,
                    const std::string& now) {
  constexpr std::size_t kMost = 24576;
  EXPECT_LT(now.size(), kMost) << "a golden is to be read: make it smaller";
  const bool is_there = std::filesystem::exists(expected);
  if (now.empty() ? !is_there : is_there && now == read(expected)) return;
  if (std::getenv("SHEAF_UPDATE") != nullptr) {
    if (now.empty()) {
      std::filesystem::remove(expected);
    } else {
      std::ofstream(expected, std::ios::binary) << now;
    }
    ADD_FAILURE() << "rewritten: " << expected.filename() << "; read the diff";
    return;
  }
  EXPECT_EQ(now, is_there ? read(expected) : "") << expected.filename();
}

/// A file's name as a name of a test.
inline std::string test_name(std::string name) {
  for (char& c : name) {
    if (std::isalnum(static_cast<unsigned char>(c)) == 0) c = '_';
  }
  return name;
}

}  // namespace sheaf::test
