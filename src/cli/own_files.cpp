#include "cli/own_files.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <string>

#include "base/utf8.h"
#include "files/descriptor.h"
#include "planning/block_list.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kLargestText = std::size_t{4} << 20U;

// The line that a text begins with is taken off it.
std::string_view take_line(std::string_view& text) {
  const std::size_t end = std::min(text.find('\n'), text.size());
  std::string_view line = text.substr(0, end);
  text.remove_prefix(std::min(end + 1, text.size()));
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

// Where the next name in a line for make ends: at a blank without a backslash.
std::size_t end_of_name(std::string_view line) {
  std::size_t at = 0;
  while (at < line.size() && line[at] != ' ') {
    at += line[at] == '\\' ? 2 : 1;
  }
  return std::min(at, line.size());
}

// A name in a line for make without its marks, which differ between targets and
// sources.
std::string unmarked(std::string_view name) {
  std::string result;
  for (const char c : name) {
    if (c != '\\') result += c;
  }
  return result;
}

// Targets, a colon that stands alone and the sources in one line, then a line
// for each source, in the same order, and nothing else.
bool is_dependencies(std::string_view text) {
  std::string_view first = take_line(text);
  int targets = 0;
  while (!first.starts_with(':')) {
    const std::size_t end = end_of_name(first);
    if (end == 0 || end == first.size()) return false;
    first.remove_prefix(end + 1);
    ++targets;
  }
  first.remove_prefix(1);
  while (first.starts_with(' ')) {
    first.remove_prefix(1);
    const std::size_t end = end_of_name(first);
    const std::string_view line = take_line(text);
    if (end == 0 || !line.ends_with(':') ||
        unmarked(line.substr(0, line.size() - 1)) !=
            unmarked(first.substr(0, end))) {
      return false;
    }
    first.remove_prefix(end);
  }
  return targets > 0 && first.empty() && text.empty();
}

bool is_by_review(std::string_view text) {
  while (text.starts_with('#')) {
    if (take_line(text).find(kByReview) != std::string_view::npos) return true;
  }
  return false;
}

bool is_blocked_words(std::string_view text) {
  if (text.starts_with(kBlockedHead)) return true;
  if (find_bad_utf8(text)) return false;
  while (!text.empty()) {
    if (!BlockList::reads(take_line(text))) return false;
  }
  return true;
}

std::string read_part(int file, std::uint64_t begin, std::size_t size) {
  std::string part(size, '\0');
  std::size_t done = 0;
  while (done < size) {
    const ssize_t got = ::pread(file, part.data() + done, size - done,
                                static_cast<off_t>(begin + done));
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) break;
    done += static_cast<std::size_t>(got);
  }
  part.resize(done);
  return part;
}

std::optional<std::uint64_t> size_of(int file) {
  struct stat about {};
  if (::fstat(file, &about) != 0 || !S_ISREG(about.st_mode)) {
    return std::nullopt;
  }
  return static_cast<std::uint64_t>(about.st_size);
}

// Opening without blocking keeps a named pipe from holding Sheaf up.
Descriptor opened(const fs::path& path) {
  return Descriptor(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
}

}  // namespace

bool is_own_text(OwnKind kind, std::string_view text) {
  switch (kind) {
    case OwnKind::dependencies:
      return is_dependencies(text);
    case OwnKind::review:
      return is_by_review(text);
    case OwnKind::made_from:
      return true;
    case OwnKind::blocked_words:
      return is_blocked_words(text);
    case OwnKind::pdf:
      break;
  }
  return false;
}

std::optional<OwnPdf> own_pdf(int file) {
  const auto size = size_of(file);
  if (!size) return std::nullopt;
  return read_own_pdf(*size, [file](std::uint64_t begin, std::size_t most) {
    return read_part(file, begin, most);
  });
}

bool is_own(OwnKind kind, int file) {
  if (kind == OwnKind::pdf) return own_pdf(file).has_value();
  const auto size = size_of(file);
  return size && *size <= kLargestText &&
         is_own_text(kind, read_part(file, 0, kLargestText));
}

bool is_own(OwnKind kind, const fs::path& path) {
  const Descriptor file = opened(path);
  return file && is_own(kind, file.number());
}

std::optional<OwnPdf> own_pdf(const fs::path& path) {
  const Descriptor file = opened(path);
  return file ? own_pdf(file.number()) : std::nullopt;
}

std::string_view why_not_own(OwnKind kind) {
  switch (kind) {
    case OwnKind::pdf:
      return "not a PDF as Sheaf made it";
    case OwnKind::dependencies:
      return "not a dependency file that Sheaf made";
    case OwnKind::review:
      return "not a file that `sheaf review` wrote";
    case OwnKind::made_from:
      return "not a record of `sheaf build`";
    case OwnKind::blocked_words:
      break;
  }
  return "not a list of words that are not to be suggested";
}

}  // namespace sheaf
