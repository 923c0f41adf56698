#include "lsp/transport.h"

#include <fmt/format.h>

#include <charconv>

#include "base/utf8.h"

namespace sheaf {

namespace {

constexpr std::string_view kLength = "content-length:";
// A header has two short lines.
constexpr std::size_t kLongestHeader = 4096;

}  // namespace

// Takes the header off, if all of it is there.
bool MessageReader::read_header() {
  const std::size_t end = bytes_.find("\r\n\r\n");
  if (end == std::string::npos) {
    if (bytes_.size() > kLongestHeader) {
      fault_ = "a message has no header that says how long it is";
    }
    return false;
  }
  std::string_view header = std::string_view(bytes_).substr(0, end);
  std::optional<std::size_t> length;
  while (!header.empty()) {
    const std::size_t stop = std::min(header.find("\r\n"), header.size());
    std::string line = lower_case(header.substr(0, stop));
    header.remove_prefix(std::min(stop + 2, header.size()));
    if (!line.starts_with(kLength)) continue;
    const std::size_t begin = line.find_first_not_of(' ', kLength.size());
    if (begin == std::string::npos) continue;
    std::size_t number = 0;
    const char* const last = line.data() + line.size();
    const auto [at, fault] = std::from_chars(line.data() + begin, last, number);
    if (fault == std::errc() && at == last) length = number;
  }
  if (!length) {
    fault_ = "a message's header does not say how long it is";
    return false;
  }
  if (*length > kLongest) {
    fault_ = fmt::format("a message of {} bytes is too long; at most {}",
                         *length, kLongest);
    return false;
  }
  bytes_.erase(0, end + 4);
  length_ = length;
  return true;
}

bool MessageReader::has_next() {
  if (!fault_.empty()) return false;
  if (!length_ && !read_header()) return false;
  return bytes_.size() >= *length_;
}

std::optional<std::string> MessageReader::next() {
  if (!has_next()) return std::nullopt;
  std::string message = bytes_.substr(0, *length_);
  bytes_.erase(0, *length_);
  length_.reset();
  return message;
}

std::string framed(std::string_view json) {
  return fmt::format("Content-Length: {}\r\n\r\n{}", json.size(), json);
}

}  // namespace sheaf
