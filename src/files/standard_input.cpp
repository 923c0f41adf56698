#include "files/standard_input.h"

#include <unistd.h>

#include <array>

#include "files/system_calls.h"

namespace sheaf {

bool StandardInput::has_more() const {
  pollfd input{STDIN_FILENO, POLLIN, 0};
  return system_calls::wait(&input, 1, 0) > 0 && (input.revents & POLLIN) != 0;
}

bool StandardInput::read_into(std::string& bytes) {
  std::array<char, 65536> buffer;
  const ssize_t size =
      system_calls::read(STDIN_FILENO, buffer.data(), buffer.size());
  if (size <= 0) return false;
  bytes.append(buffer.data(), static_cast<std::size_t>(size));
  return true;
}

}  // namespace sheaf
