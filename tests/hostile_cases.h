#pragma once

#include <gtest/gtest.h>

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {

#if defined(NDEBUG)
// KiB of address space, seconds of one core.
inline constexpr const char* kLimits = "ulimit -v 262144; ulimit -t 1; ";
#else
// Under the checks all takes longer and more.
inline constexpr const char* kLimits = "ulimit -t 60; ulimit -c 0; ";
#endif

inline std::string repeated(std::string_view text, int count) {
  std::string all;
  all.reserve(text.size() * static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) all += text;
  return all;
}

inline std::string numbered(const std::string& before, int count,
                            const std::string& after) {
  std::string all;
  for (int i = 0; i < count; ++i) all += before + std::to_string(i) + after;
  return all;
}

/// Different words of letters alone, each behind a blank.
inline std::string many_words(int count, const std::string& start) {
  std::string all;
  for (int i = 0; i < count; ++i) {
    all += ' ' + start;
    for (int n = i + 1; n > 0; n /= 26) all += static_cast<char>('a' + n % 26);
  }
  return all;
}

/// Lists of lists by reference, which come to 8 to the power of 12 parts.
inline std::string alias_bomb(std::string_view rest) {
  std::string text = "a0: &a0 [x, x, x, x, x, x, x, x]\n";
  for (int i = 1; i < 12; ++i) {
    const std::string before = std::to_string(i - 1);
    text += "a" + std::to_string(i) + ": &a" + std::to_string(i) + " [" +
            repeated("*a" + before + ", ", 8) + "x]\n";
  }
  return text.append(rest);
}

/// Runs Sheaf in a folder within the limits.
inline testing_support::Outcome run_within_limits(
    const testing_support::TemporaryFolder& folder,
    const std::vector<std::string>& arguments) {
  std::vector<std::string> all = {
      "sh", "-c", std::string(kLimits) + "cd \"$0\" && exec \"$@\"",
      folder.path(), SHEAF_PROGRAM};
  all.insert(all.end(), arguments.begin(), arguments.end());
  return testing_support::run_program(all);
}

/// Code 1, a message that names `blamed`, no flood, and nothing written.
inline void expect_refusal(const testing_support::TemporaryFolder& folder,
                           const testing_support::Outcome& outcome,
                           const std::string& blamed) {
  const std::string start = outcome.out.substr(0, 600);
  EXPECT_EQ(outcome.status, 1) << start;
  EXPECT_NE(outcome.out.find(blamed), std::string::npos) << start;
  EXPECT_NE(outcome.out.find("error: "), std::string::npos) << start;
  EXPECT_LE(outcome.out.size(), 64U << 10) << "a flood of messages";
  EXPECT_FALSE(std::filesystem::exists(folder.path() + "/owned"));
  // Nothing is left lying about either.
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator(folder.path())) {
    EXPECT_NE(entry.path().extension(), ".pdf") << entry.path();
  }
}

}  // namespace sheaf::test
