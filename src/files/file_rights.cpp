#include "files/file_rights.h"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <optional>
#include <string>
#include <string_view>

#include "files/system_calls.h"

namespace sheaf {

namespace {

constexpr const char* kAccessList = "system.posix_acl_access";

// Empty where there is none, or the file system has no attributes; nothing
// where it cannot be known.
std::optional<std::string> attribute(int file, const char* name) {
  const auto nothing = [] {
    const bool none =
        errno == ENODATA || errno == EOPNOTSUPP || errno == ENOSYS;
    return none ? std::optional(std::string()) : std::nullopt;
  };
  const ssize_t size = system_calls::get_attribute(file, name, nullptr, 0);
  if (size < 0) return nothing();
  std::string value(static_cast<std::size_t>(size), '\0');
  const ssize_t got =
      system_calls::get_attribute(file, name, value.data(), value.size());
  if (got < 0) return nothing();
  value.resize(static_cast<std::size_t>(got));
  return value;
}

bool set_attribute(int file, const char* name, const std::string& value) {
  return system_calls::set_attribute(file, name, value.data(), value.size()) ==
         0;
}

// The program's and the user's own notes on a file; those of the system are
// not for us to give.
void keep_attributes(int old_file, int new_file) {
  const ssize_t size = system_calls::list_attributes(old_file, nullptr, 0);
  if (size <= 0) return;
  std::string names(static_cast<std::size_t>(size), '\0');
  const ssize_t got =
      system_calls::list_attributes(old_file, names.data(), names.size());
  names.resize(got < 0 ? 0 : static_cast<std::size_t>(got));
  for (std::size_t at = 0; at < names.size();) {
    const std::string name = names.c_str() + at;
    at += name.size() + 1;
    if (!name.starts_with("user.")) continue;
    const auto value = attribute(old_file, name.c_str());
    if (value) set_attribute(new_file, name.c_str(), *value);
  }
}

mode_t without_group(mode_t mode) {
  return (mode & ~mode_t{S_IRWXG | S_ISGID}) | (mode & S_IRWXO) << 3U;
}

// False where a file cannot have a mode that it should have. A drive that keeps
// no modes says that it knows no such call, or that the file, which was made a
// moment ago, is somebody else's; what it calls a mode means nothing then.
bool set_mode(int file, mode_t mode) {
  if (system_calls::chmod(file, mode) == 0) return true;
  if (errno == ENOSYS || errno == EOPNOTSUPP) return true;
  if (errno != EPERM) return false;
  struct stat about {};
  const bool known = system_calls::fstat(file, &about) == 0;
  errno = EPERM;
  return known && about.st_uid != ::geteuid();
}

}  // namespace

bool keep_rights(int old_file, int new_file) {
  struct stat old_about {
  }, new_about{};
  if (system_calls::fstat(old_file, &old_about) != 0 ||
      system_calls::fstat(new_file, &new_about) != 0) {
    return false;
  }
  mode_t mode = old_about.st_mode & mode_t{07777};
  const bool same_owner = old_about.st_uid == new_about.st_uid;
  const bool same_group = old_about.st_gid == new_about.st_gid;
  if ((!same_owner || !same_group) &&
      system_calls::chown(new_file, old_about.st_uid, old_about.st_gid) != 0) {
    if (!same_owner) mode &= ~mode_t{S_ISUID};
    if (!same_group && system_calls::chown(new_file, static_cast<uid_t>(-1),
                                           old_about.st_gid) != 0) {
      mode = without_group(mode);
    }
  }
  keep_attributes(old_file, new_file);
  // The folder may have given the new file an access list of its own.
  const auto list = attribute(old_file, kAccessList);
  if (!list || list->empty()) {
    system_calls::remove_attribute(new_file, kAccessList);
  }
  if (!set_mode(new_file, mode)) return false;
  if (list && (list->empty() || set_attribute(new_file, kAccessList, *list))) {
    return true;
  }
  return set_mode(new_file, without_group(mode));
}

bool give_usual_rights(int new_file) {
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return set_mode(new_file, 0666 & ~mask);
}

}  // namespace sheaf
