#include "files/file_rights.h"

#include <sys/stat.h>
#include <sys/xattr.h>
#include <unistd.h>

#include <cerrno>
#include <string>
#include <string_view>

namespace sheaf {

namespace {

constexpr const char* kAccessList = "system.posix_acl_access";

// Nothing where there is none, or none can be read.
std::string attribute(int file, const char* name) {
  const ssize_t size = ::fgetxattr(file, name, nullptr, 0);
  if (size <= 0) return {};
  std::string value(static_cast<std::size_t>(size), '\0');
  const ssize_t got = ::fgetxattr(file, name, value.data(), value.size());
  value.resize(got < 0 ? 0 : static_cast<std::size_t>(got));
  return value;
}

bool set_attribute(int file, const char* name, const std::string& value) {
  return ::fsetxattr(file, name, value.data(), value.size(), 0) == 0;
}

// The program's and the user's own notes on a file; those of the system are
// not for us to give.
void keep_attributes(int old_file, int new_file) {
  const ssize_t size = ::flistxattr(old_file, nullptr, 0);
  if (size <= 0) return;
  std::string names(static_cast<std::size_t>(size), '\0');
  const ssize_t got = ::flistxattr(old_file, names.data(), names.size());
  names.resize(got < 0 ? 0 : static_cast<std::size_t>(got));
  for (std::size_t at = 0; at < names.size();) {
    const std::string name = names.c_str() + at;
    at += name.size() + 1;
    if (!name.starts_with("user.")) continue;
    set_attribute(new_file, name.c_str(), attribute(old_file, name.c_str()));
  }
}

mode_t without_group(mode_t mode) {
  return (mode & ~mode_t{S_IRWXG | S_ISGID}) | (mode & S_IRWXO) << 3U;
}

}  // namespace

bool keep_rights(int old_file, int new_file) {
  struct stat old_about {
  }, new_about{};
  if (::fstat(old_file, &old_about) != 0 ||
      ::fstat(new_file, &new_about) != 0) {
    return false;
  }
  mode_t mode = old_about.st_mode & mode_t{07777};
  const bool same_owner = old_about.st_uid == new_about.st_uid;
  const bool same_group = old_about.st_gid == new_about.st_gid;
  if ((!same_owner || !same_group) &&
      ::fchown(new_file, old_about.st_uid, old_about.st_gid) != 0) {
    if (!same_owner) mode &= ~mode_t{S_ISUID};
    if (!same_group &&
        ::fchown(new_file, static_cast<uid_t>(-1), old_about.st_gid) != 0) {
      mode = without_group(mode);
    }
  }
  keep_attributes(old_file, new_file);
  // The folder may have given the new file an access list of its own.
  const std::string list = attribute(old_file, kAccessList);
  if (list.empty()) ::fremovexattr(new_file, kAccessList);
  if (::fchmod(new_file, mode) != 0) return false;
  if (list.empty() || set_attribute(new_file, kAccessList, list)) return true;
  return ::fchmod(new_file, without_group(mode)) == 0;
}

bool give_usual_rights(int new_file) {
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return ::fchmod(new_file, 0666 & ~mask) == 0;
}

}  // namespace sheaf
