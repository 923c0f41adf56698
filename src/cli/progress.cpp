#include "cli/progress.h"

#include <fmt/format.h>

#include <cstdio>

#include "files/surroundings.h"

namespace sheaf {

Progress::Progress(std::size_t total, std::string what)
    : total_(total),
      what_(std::move(what)),
      on_terminal_(messages_go_to_terminal()),
      start_(std::chrono::steady_clock::now()) {}

Progress::~Progress() {
  // To the start of the line, and everything after it away.
  if (shown_) fmt::print(stderr, "\r\x1b[K");
}

void Progress::step() {
  ++done_;
  if (!on_terminal_) return;
  const auto passed = std::chrono::steady_clock::now() - start_;
  if (shown_ || passed > std::chrono::seconds(1)) draw();
}

void Progress::draw() {
  constexpr std::size_t kWidth = 30;
  const std::size_t filled = total_ == 0 ? kWidth : kWidth * done_ / total_;
  fmt::print(stderr, "\r[{:#<{}}{:.<{}}] {} of {} {}", "", filled, "",
             kWidth - filled, done_, total_, what_);
  std::fflush(stderr);
  shown_ = true;
}

}  // namespace sheaf
