#include "files/replacement.h"

#include <sys/file.h>

#include <cerrno>
#include <cstdio>
#include <string_view>

#include "files/left_behind.h"
#include "files/system_calls.h"

namespace sheaf {

namespace {

// The file system knows no such way of renaming.
bool is_unknown(int fault) {
  return fault == EINVAL || fault == ENOSYS || fault == EOPNOTSUPP;
}

// Gives a file a second name, which is the first with another last sign.
bool link_beside(const char* file, std::string& name) {
  constexpr std::string_view kSigns = "0123456789abcdefghijklmnopqrstuvwxyz";
  for (const char sign : kSigns) {
    name.back() = sign;
    if (system_calls::link(file, name.c_str()) == 0) return true;
    if (errno != EEXIST) return false;
  }
  return false;
}

}  // namespace

Replacement::Replacement(FilePath temporary, FilePath target)
    : temporary_(std::move(temporary)),
      target_(std::move(target)),
      second_(temporary_.string()),
      has_temporary_(true) {}

bool Replacement::place_new() {
  const char* from = temporary_.c_str();
  const char* to = target_.c_str();
  way_ = Way::fresh;
  has_temporary_ = false;
  if (system_calls::rename_with(from, to, RENAME_NOREPLACE) == 0) return true;
  // Not every file system knows how; some (FAT) know no second names either.
  if (is_unknown(errno)) {
    if (system_calls::link(from, to) == 0) {
      has_temporary_ = true;
      return true;
    }
    const bool no_links = errno == EPERM || is_unknown(errno);
    if (no_links) {
      if (system_calls::look_for(to) == 0) {
        errno = EEXIST;
      } else if (errno == ENOENT && system_calls::rename(from, to) == 0) {
        return true;
      }
    }
  }
  way_ = Way::none;
  has_temporary_ = true;
  return false;
}

// Where names cannot be exchanged: the old file has a second one meanwhile.
bool Replacement::place_by_second_name() {
  const char* from = temporary_.c_str();
  const char* to = target_.c_str();
  const bool kept = link_beside(to, second_);
  if (!kept && errno != EPERM && errno != EMLINK && !is_unknown(errno)) {
    return false;
  }
  if (system_calls::rename(from, to) == 0) {
    way_ = kept ? Way::renamed : Way::moved;
    has_temporary_ = false;
    return true;
  }
  const int fault = errno;
  if (kept && system_calls::unlink(second_.c_str()) != 0) {
    note_left_behind(second_.c_str());
  }
  errno = fault;
  return false;
}

bool Replacement::place(Descriptor old, Undo undo) {
  if (!old) return place_new();
  const char* from = temporary_.c_str();
  const char* to = target_.c_str();
  if (undo == Undo::never) {
    if (system_calls::rename(from, to) != 0) return false;
    way_ = Way::moved;
    has_temporary_ = false;
    return true;
  }
  // A lock that another has keeps the file just as well.
  system_calls::lock(old.number(), LOCK_EX | LOCK_NB);
  old_ = std::move(old);
  if (system_calls::rename_with(from, to, RENAME_EXCHANGE) == 0) {
    way_ = Way::exchanged;
    return true;
  }
  return is_unknown(errno) && place_by_second_name();
}

bool Replacement::put_back() {
  const char* to = target_.c_str();
  bool done = false;
  switch (way_) {
    case Way::none:
      return true;
    case Way::fresh:
      done = system_calls::unlink(to) == 0;
      break;
    case Way::moved:
      errno = EOPNOTSUPP;
      return false;
    case Way::exchanged:
      done = system_calls::rename_with(temporary_.c_str(), to,
                                       RENAME_EXCHANGE) == 0;
      break;
    case Way::renamed:
      done = system_calls::rename(second_.c_str(), to) == 0;
      break;
  }
  if (done) way_ = Way::none;
  return done;
}

const char* Replacement::leftover() const {
  return way_ == Way::renamed ? second_.c_str() : temporary_.c_str();
}

bool Replacement::remove_leftover() {
  if (way_ != Way::renamed && !has_temporary_) return true;
  return system_calls::unlink(leftover()) == 0 || errno == ENOENT;
}

}  // namespace sheaf
