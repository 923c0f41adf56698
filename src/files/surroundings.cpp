#include "files/surroundings.h"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <cstring>

#include <fmt/format.h>

#include "base/error.h"
#include "files/interrupt.h"
#include "files/system_calls.h"

namespace sheaf {

void fill_closed_streams() {
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    if (::fcntl(stream, F_GETFD) >= 0 || errno != EBADF) continue;
    const int flags = stream == STDIN_FILENO ? O_WRONLY : O_RDONLY;
    if (::open("/dev/null", flags) < 0) return;
  }
}

std::string read_standard_input(std::size_t limit) {
  std::string text;
  std::array<char, 65536> part;
  while (text.size() <= limit) {
    const ssize_t got =
        system_calls::read(STDIN_FILENO, part.data(),
                           std::min(part.size(), limit + 1 - text.size()));
    if (got < 0) {
      throw MachineError(
          fmt::format("cannot read standard input: {}", std::strerror(errno)));
    }
    if (got == 0) break;
    text.append(part.data(), static_cast<std::size_t>(got));
  }
  return text;
}

std::optional<std::string> InputLines::next() {
  std::size_t end = waiting_.find('\n');
  while (end == std::string::npos && !ended_) {
    if (CatchInterrupts::came()) {
      ended_ = true;
      break;
    }
    char part[1024];
    const ssize_t got =
        system_calls::read_typed(STDIN_FILENO, part, sizeof part);
    if (got < 0 && errno == EINTR && !CatchInterrupts::came()) continue;
    if (got <= 0) {
      ended_ = true;
      break;
    }
    waiting_.append(part, static_cast<std::size_t>(got));
    end = waiting_.find('\n');
    // What nobody could have typed is not kept.
    if (end == std::string::npos && waiting_.size() > 2 * kLongest) {
      waiting_.resize(kLongest);
    }
  }
  if (end == std::string::npos && waiting_.empty()) return std::nullopt;
  std::string line = waiting_.substr(0, end);
  waiting_.erase(0, end == std::string::npos ? end : end + 1);
  if (line.ends_with('\r')) line.pop_back();
  line.resize(std::min(line.size(), kLongest));
  return line;
}

bool messages_go_to_terminal() { return ::isatty(STDERR_FILENO) != 0; }

bool messages_may_have_colour() {
  return messages_go_to_terminal() && std::getenv("NO_COLOR") == nullptr;
}

}  // namespace sheaf
