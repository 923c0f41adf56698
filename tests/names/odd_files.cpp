#include "names/odd_files.h"

#include "base/utf8.h"

namespace sheaf::test {

std::string obeyed(const std::string& text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = at;
    const char32_t c = next_code_point(text, at);
    // Lines of a table for spreadsheets end so (RFC 4180).
    if (c == '\r' && at < text.size() && text[at] == '\n') continue;
    const bool control =
        (c < 0x20 && c != '\n' && c != '\t') || (c >= 0x7F && c <= 0x9F) ||
        (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
    const bool broken = text.compare(begin, 4, "d\nna") == 0;
    if (control || broken) {
      const std::size_t from = text.rfind('\n', begin == 0 ? 0 : begin - 1);
      return text.substr(from == std::string::npos ? 0 : from, 300);
    }
  }
  return {};
}

}  // namespace sheaf::test
