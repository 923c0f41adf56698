#include "cli/shell_words.h"

#include <algorithm>

#include "base/utf8.h"

namespace sheaf {

namespace {

bool is_plain(unsigned char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
         (c >= '0' && c <= '9') || c == '/' || c == '.' || c == '_' ||
         c == '-' || c == '=' || c == ',' || c == '+' || c == ':';
}

std::string quoted_word(const std::string& word) {
  if (!word.empty() && std::ranges::all_of(word, is_plain)) return word;
  std::string text = "'";
  for (const char c : word) {
    if (c == '\'') {
      text += "'\\''";
    } else {
      text += c;
    }
  }
  return text + "'";
}

}  // namespace

std::string shell_command(const std::vector<std::string>& words) {
  std::string command;
  for (const std::string& word : words) {
    if (printable(word) != word) return {};
    command += (command.empty() ? "" : " ") + quoted_word(word);
  }
  return command;
}

std::string as_argument(std::string_view path) {
  return (path.starts_with('-') ? "./" : "") + std::string(path);
}

}  // namespace sheaf
