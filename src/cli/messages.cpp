#include "cli/messages.h"

#include <fmt/format.h>

#include <cstdio>

#include "base/utf8.h"
#include "files/left_behind.h"
#include "files/surroundings.h"

namespace sheaf {

void print(const Diagnostics& diagnostics) {
  const std::string text =
      to_text(diagnostics, {.colour = messages_may_have_colour()});
  std::fwrite(text.data(), 1, text.size(), stderr);
}

bool print_faults(std::span<const std::string> faults) {
  for (const std::string& fault : faults) {
    fmt::print(stderr, "sheaf: {}\n", printable(fault));
  }
  return faults.empty();
}

bool print_left_behind() {
  const std::string_view text = left_behind();
  std::fwrite(text.data(), 1, text.size(), stderr);
  const bool any = !text.empty();
  forget_left_behind();
  return any;
}

void print_nobody_marked() {
  fmt::print(stderr, "sheaf: nobody is marked in these records\n");
}

}  // namespace sheaf
