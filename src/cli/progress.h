#pragma once

#include <chrono>
#include <string>

namespace sheaf {

/// A bar on the terminal for work that takes more than a second. Nothing is
/// shown where standard error is no terminal. It is wiped out when done.
class Progress {
 public:
  /// `total` steps, each of which is one of `what` ("learners").
  Progress(std::size_t total, std::string what);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  /// One more step is done.
  void step();

 private:
  void draw();

  std::size_t total_;
  std::size_t done_ = 0;
  std::string what_;
  bool on_terminal_;
  bool shown_ = false;
  std::chrono::steady_clock::time_point start_;
};

}  // namespace sheaf
