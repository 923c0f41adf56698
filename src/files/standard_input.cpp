#include "files/standard_input.h"

#include <poll.h>
#include <unistd.h>

#include <array>
#include <cerrno>

namespace sheaf {

bool StandardInput::has_more() const {
  pollfd input{STDIN_FILENO, POLLIN, 0};
  return ::poll(&input, 1, 0) > 0 && (input.revents & POLLIN) != 0;
}

bool StandardInput::read_into(std::string& bytes) {
  std::array<char, 65536> buffer;
  ssize_t size = 0;
  do {
    size = ::read(STDIN_FILENO, buffer.data(), buffer.size());
  } while (size < 0 && errno == EINTR);
  if (size <= 0) return false;
  bytes.append(buffer.data(), static_cast<std::size_t>(size));
  return true;
}

}  // namespace sheaf
