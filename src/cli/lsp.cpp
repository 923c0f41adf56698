// `sheaf lsp`: an editor asks over standard input and output while somebody
// writes.

#include <fmt/format.h>

#include <cstdio>

#include "base/error.h"
#include "cli/exit_codes.h"
#include "cli/requests.h"
#include "cli/verbs.h"
#include "files/disk_files.h"
#include "files/standard_input.h"
#include "lsp/language_server.h"
#include "lsp/transport.h"
#include "service/service.h"

namespace sheaf {

namespace {

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
  StandardInput input;
  while (!server.ended()) {
    if (const auto message = reader.next()) {
      send(server.handle(*message, reader.has_next() || input.has_more()));
      continue;
    }
    if (!reader.fault().empty()) {
      fmt::print(stderr, "sheaf: {}\n", reader.fault());
      return kMachineFault;
    }
    if (!input.has_more()) send(server.settle());
    std::string bytes;
    if (!input.read_into(bytes)) return kDone;
    reader.add(bytes);
  }
  return server.exit_code();
}

}  // namespace sheaf
