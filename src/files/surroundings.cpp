#include "files/surroundings.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <iostream>

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
  for (char c = 0; text.size() <= limit && std::cin.get(c);) text += c;
  return text;
}

bool messages_go_to_terminal() { return ::isatty(STDERR_FILENO) != 0; }

bool messages_may_have_colour() {
  return messages_go_to_terminal() && std::getenv("NO_COLOR") == nullptr;
}

}  // namespace sheaf
