#include "files/output_files.h"

#include <fmt/format.h>

#include "base/error.h"

namespace sheaf {

void fail_to_write(const FilePath& target, std::string_view why) {
  throw MachineError(fmt::format("cannot write {}: {}", target.string(), why));
}

void check_in_the_way(const FilePath& target, const InTheWay& allowed,
                      bool is_there, const OpenFile* there) {
  if (!is_there) {
    if (!allowed.before) return;
    throw FileChanged(
        fmt::format("{} has gone since it was read", target.string()));
  }
  if (allowed.form) {
    if (there != nullptr && allowed.form->is_own(*there)) return;
    throw MachineError(
        fmt::format("{} is there already and is {}, so it is left alone; {}",
                    target.string(), allowed.form->why_not, allowed.way_out));
  }
  if (!allowed.before) {
    throw FileChanged(
        fmt::format("{} is there already, and is left alone", target.string()));
  }
  if (there == nullptr) fail_to_write(target, "it cannot be read");
  const std::string& before = *allowed.before;
  if (there->size() == before.size() &&
      there->read(0, before.size()) == before) {
    return;
  }
  throw FileChanged(
      fmt::format("{} was changed by someone else in the meantime, and is left "
                  "as it is; run the command again",
                  target.string()));
}

}  // namespace sheaf
