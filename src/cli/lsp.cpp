// `sheaf lsp`: an editor asks over standard input and output while somebody
// writes.

#include <fmt/format.h>
#include <poll.h>
#include <unistd.h>

#include <array>
#include <cerrno>

#include "base/error.h"
#include "cli/exit_codes.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "files/disk_files.h"
#include "lsp/language_server.h"
#include "lsp/transport.h"
#include "service/service.h"

namespace sheaf {

namespace {

// Whether the editor has sent more that nobody has read.
bool is_more_coming() {
  pollfd input{STDIN_FILENO, POLLIN, 0};
  return ::poll(&input, 1, 0) > 0 && (input.revents & POLLIN) != 0;
}

// False at the end of input.
bool read_more(MessageReader& reader) {
  std::array<char, 65536> buffer;
  ssize_t size = 0;
  do {
    size = ::read(STDIN_FILENO, buffer.data(), buffer.size());
  } while (size < 0 && errno == EINTR);
  if (size <= 0) return false;
  reader.add({buffer.data(), static_cast<std::size_t>(size)});
  return true;
}

void send(const std::vector<std::string>& messages) {
  for (const std::string& message : messages) {
    const std::string bytes = framed(message);
    if (std::fwrite(bytes.data(), 1, bytes.size(), stdout) != bytes.size()) {
      throw MachineError("the editor does not read any more");
    }
  }
  if (std::fflush(stdout) != 0) {
    throw MachineError("the editor does not read any more");
  }
}

}  // namespace

int run_lsp(const CommandLine& line) {
  Service service(disk(), shipped_folder(), lesson_request(line));
  LanguageServer server(service);
  MessageReader reader;
  while (!server.ended()) {
    if (const auto message = reader.next()) {
      send(server.handle(*message, reader.has_next() || is_more_coming()));
      continue;
    }
    if (!reader.fault().empty()) {
      fmt::print(stderr, "sheaf: {}\n", reader.fault());
      return kMachineFault;
    }
    if (!is_more_coming()) send(server.settle());
    if (!read_more(reader)) return server.ended() ? server.exit_code() : kDone;
  }
  return server.exit_code();
}

}  // namespace sheaf
