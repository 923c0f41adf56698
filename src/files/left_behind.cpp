#include "files/left_behind.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>

namespace sheaf {

namespace {

// Room for every file of a large class.
std::array<char, 1U << 15U> told;
std::size_t told_size = 0;

void tell(std::string_view part) noexcept {
  const std::size_t fits = std::min(part.size(), told.size() - told_size);
  std::memcpy(told.data() + told_size, part.data(), fits);
  told_size += fits;
}

// A name as it can be shown: no line break or other control character.
void tell_name(std::string_view name) noexcept {
  for (const char c : name) {
    const bool shown = static_cast<unsigned char>(c) >= ' ' && c != '\x7F';
    tell(shown ? std::string_view(&c, 1) : std::string_view("?"));
  }
}

void tell_line(std::string_view before, const char* path, std::string_view what,
               std::string_view then) noexcept {
  const int fault = errno;
  tell("sheaf: ");
  tell(before);
  tell_name(path);
  tell(what);
  tell(std::strerror(fault));
  tell(then);
  errno = fault;
}

}  // namespace

void note_left_behind(const char* path) noexcept {
  tell_line("", path, " is left behind and cannot be removed: ",
            "; the next run that writes there removes it\n");
}

void note_not_put_back(const char* path) noexcept {
  tell_line("", path, " is new already and cannot be put back: ",
            "; the same command again puts that right\n");
}

void note_not_deleted(const char* path) noexcept {
  tell_line("", path,
            " is still there: ", "; the same command again deletes it\n");
}

void note_may_be_lost(const char* folder) noexcept {
  tell_line("the folder ", folder, " may lose what was just written to it: ",
            "; all of it is there now, so copy it to another disk\n");
}

std::string_view left_behind() noexcept { return {told.data(), told_size}; }
void forget_left_behind() noexcept { told_size = 0; }

}  // namespace sheaf
