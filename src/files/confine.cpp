#include "files/confine.h"

#ifdef __linux__

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <cerrno>
#include <cstdint>
#include <cstring>
#include <system_error>

#include "base/error.h"
#include "files/confine_calls.h"
#include "files/disk_names.h"
#include "files/system_calls.h"
#include "files/used_folder.h"

namespace sheaf {

namespace {

// Landlock, as Linux describes it in landlock(7) and
// Documentation/userspace-api/landlock.rst. What is named here is newer than
// the headers of some systems that Sheaf is built on, and the C library has no
// functions for it.

constexpr std::uint64_t bit(int number) { return std::uint64_t{1} << number; }

constexpr std::uint64_t kExecute = bit(0), kWriteFile = bit(1),
                        kReadFile = bit(2), kReadFolder = bit(3),
                        kRemoveFolder = bit(4), kRemoveFile = bit(5),
                        kMakeFolder = bit(7), kMakeFile = bit(8);
// From version 2 of the rules on, 3, and 5.
constexpr std::uint64_t kTruncate = bit(14);
// What the first version knows, and what each later one does.
constexpr std::uint64_t kRightsOfFirst = bit(13) - 1;
struct Later {
  int version;
  std::uint64_t right;
};
constexpr Later kLaterRights[] = {
    {2, bit(13)},    // moving to another folder
    {3, kTruncate},  // cutting a file short
    {5, bit(15)},    // commands to devices
};

constexpr std::uint64_t kToRead = kReadFile | kReadFolder;
constexpr std::uint64_t kToWrite = kToRead | kWriteFile | kRemoveFolder |
                                   kRemoveFile | kMakeFolder | kMakeFile |
                                   kTruncate;
// Of these, what a rule for a file may say.
constexpr std::uint64_t kOfFiles =
    kExecute | kWriteFile | kReadFile | kTruncate;

// Version 4 knows TCP, version 6 other processes; neither is ever needed.
constexpr int kVersionOfNet = 4, kVersionOfScope = 6;
struct Ruleset {
  std::uint64_t files = 0;
  std::uint64_t net = 0;
  std::uint64_t scoped = 0;
};
constexpr std::size_t size_for(int version) {
  return sizeof(std::uint64_t) * (version >= kVersionOfScope ? 3
                                  : version >= kVersionOfNet ? 2
                                                             : 1);
}

struct [[gnu::packed]] Below {
  std::uint64_t allowed = 0;
  std::int32_t parent = -1;
};
constexpr int kRuleBelow = 1;
constexpr unsigned kAskVersion = 1;

#if defined(__NR_landlock_create_ruleset)
constexpr long kCreate = __NR_landlock_create_ruleset;
constexpr long kAddRule = __NR_landlock_add_rule;
constexpr long kRestrict = __NR_landlock_restrict_self;
#else  // the same numbers on all machines but alpha
constexpr long kCreate = 444, kAddRule = 445, kRestrict = 446;
#endif

std::uint64_t rights_of(int version) {
  std::uint64_t rights = kRightsOfFirst;
  for (const Later& later : kLaterRights) {
    if (version >= later.version) rights |= later.right;
  }
  return rights;
}

[[noreturn]] void refuse_to_begin(const char* what, const FilePath& path) {
  throw MachineError(
      fmt::format("{} {}: {}", what, path.string(), std::strerror(errno)));
}

// Whether it lies with the place and not with the machine: whoever comes to
// read or write there meets the same and says it.
bool is_told_later() {
  const std::error_code fault = last_fault();
  check_memory(fault);
  return is_nothing_there(fault) || errno == EACCES || errno == EROFS;
}

// What is not there needs no right, and what the user may not open, nobody can
// give. A rule that is missing for another reason would later be told as a
// right that the user lacks.
void allow(int ruleset, const FilePath& path, std::uint64_t rights) {
  const Descriptor place(system_calls::open(path.c_str(), O_PATH | O_CLOEXEC));
  struct stat about {};
  if (!place || system_calls::fstat(place.number(), &about) != 0) {
    if (is_told_later()) return;
    refuse_to_begin("cannot look at", path);
  }
  if (!S_ISDIR(about.st_mode)) rights &= kOfFiles;
  const Below rule{rights, place.number()};
  ::syscall(kAddRule, ruleset, kRuleBelow, &rule, 0U);
}

FilePath folder_with(const FilePath& path) {
  const FilePath parent = path.parent_path();
  return parent.empty() ? FilePath(".") : parent;
}

// The version of the rules that hold from now on; 0 where none do. What was
// made may be removed again.
int hold_to_folders(const Needs& needs, const std::vector<FilePath>& made) {
#ifdef SHEAF_COVERAGE  // counts of lines are written when the program ends
  return 0;
#endif
  const auto version = static_cast<int>(
      ::syscall(kCreate, nullptr, std::size_t{0}, kAskVersion));
  if (version < 1) return 0;
  const Ruleset all{.files = rights_of(version), .net = 3, .scoped = 3};
  const Descriptor ruleset(
      static_cast<int>(::syscall(kCreate, &all, size_for(version), 0U)));
  if (!ruleset) return 0;
  for (const FilePath& path : needs.read) {
    allow(ruleset.number(), path, kToRead & all.files);
  }
  for (const FilePath& path : needs.write) {
    allow(ruleset.number(), path, kToWrite & all.files);
  }
  for (const FilePath& path : made) {
    allow(ruleset.number(), folder_with(path), kRemoveFolder);
    allow(ruleset.number(), path, kReadFolder);  // to see whether it is in use
  }
  // The checks for lost memory look at the process itself when it ends.
  if (kHasChecks) allow(ruleset.number(), "/proc", kToRead);
  const bool held = ::syscall(kRestrict, ruleset.number(), 0U) == 0;
  return held ? version : 0;
}

// Makes a folder with those that it is to be in; a place for files can be named
// to the kernel only once it is there.
void make_folder(const FilePath& folder, std::vector<FilePath>& made) {
  std::vector<FilePath> missing;
  for (FilePath at = folder; !at.empty(); at = at.parent_path()) {
    if (system_calls::look_for(at.c_str()) == 0) break;
    if (errno != ENOENT) {
      if (is_told_later()) return;
      refuse_to_begin("cannot look at", at);
    }
    missing.push_back(at);
  }
  for (; !missing.empty(); missing.pop_back()) {
    made.reserve(made.size() + 1);
    if (system_calls::mkdir(missing.back().c_str()) == 0) {
      made.push_back(std::move(missing.back()));
    } else if (errno != EEXIST && errno != ENOENT && !is_told_later()) {
      // A name that ends in a slash is that of the folder before it.
      refuse_to_begin("cannot make the folder", missing.back());
    }
  }
}

// Another run may take it away before it is kept.
Descriptor make_and_use(const FilePath& folder, std::vector<FilePath>& made) {
  constexpr int kMost = 100;
  for (int tries = 0; tries < kMost; ++tries) {
    make_folder(folder, made);
    Descriptor file = use_folder(folder);
    if (file || errno != ENOENT) return file;
  }
  return {};
}

}  // namespace

Confinement::Confinement(const Needs& needs) {
  // Without this only root may ask for either; no program that Sheaf starts
  // gains rights by its file, and it starts none.
  if (::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0) return;
  try {
    if (needs.only_these_files) {
      for (const FilePath& folder : needs.write) {
        used_.push_back(make_and_use(folder, made_));
      }
      rules_for_files_ = hold_to_folders(needs, made_);
    }
    filters_calls_ = refuse_calls();
  } catch (...) {
    remove_made();
    throw;
  }
}

Confinement::~Confinement() { remove_made(); }

void Confinement::remove_made() {
  used_.clear();
  for (; !made_.empty(); made_.pop_back()) remove_unused(made_.back());
}

}  // namespace sheaf

#else

namespace sheaf {

Confinement::Confinement(const Needs&) {}
Confinement::~Confinement() = default;

}  // namespace sheaf

#endif
