#include "lsp/places.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace sheaf {

namespace {

// How many bytes the character at a place has, by its first byte; a stray byte
// is one by itself.
std::size_t bytes_at(std::string_view text, std::size_t at) {
  const auto first = static_cast<unsigned char>(text[at]);
  const std::size_t size = first < 0xC0U   ? 1
                           : first < 0xE0U ? 2
                           : first < 0xF0U ? 3
                                           : 4;
  return std::min(size, text.size() - at);
}

// What one character counts as.
std::size_t width_of(std::size_t bytes, Units units) {
  if (units == Units::utf8) return bytes;
  return bytes == 4 ? 2 : 1;
}

std::size_t number(const Json& value, const char* key) {
  const auto found = value.find(key);
  if (found == value.end() || !found->is_number_unsigned()) return 0;
  return found->get<std::size_t>();
}

// Names of unsaved texts; no file is called so.
constexpr std::string_view kUnsaved = "/\x01unsaved/";
constexpr std::string_view kFile = "file://";

}  // namespace

std::uint32_t offset_of(std::string_view text, const Json& position,
                        Units units) {
  std::size_t at = 0;
  for (std::size_t line = number(position, "line"); line > 0; --line) {
    const std::size_t end = text.find('\n', at);
    if (end == std::string_view::npos) {
      return static_cast<std::uint32_t>(text.size());
    }
    at = end + 1;
  }
  std::size_t left = number(position, "character");
  while (left > 0 && at < text.size() && text[at] != '\n' && text[at] != '\r') {
    const std::size_t bytes = bytes_at(text, at);
    left -= std::min(left, width_of(bytes, units));
    at += bytes;
  }
  return static_cast<std::uint32_t>(at);
}

TextRange range_of(std::string_view text, const Json& range, Units units) {
  const auto at = [&](const char* key) {
    const auto found = range.find(key);
    return found == range.end() ? 0U : offset_of(text, *found, units);
  };
  const std::uint32_t begin = at("start");
  return {begin, std::max(begin, at("end"))};
}

Json position_of(std::string_view text, std::uint32_t offset, Units units) {
  const std::size_t end = std::min<std::size_t>(offset, text.size());
  const std::string_view before = text.substr(0, end);
  const auto line = std::ranges::count(before, '\n');
  const std::size_t begin = line == 0 ? 0 : before.rfind('\n') + 1;
  std::size_t character = 0;
  for (std::size_t at = begin; at < end; at += bytes_at(text, at)) {
    character += width_of(bytes_at(text, at), units);
  }
  return {{"line", line}, {"character", character}};
}

Json to_json(std::string_view text, TextRange range, Units units) {
  return {{"start", position_of(text, range.begin, units)},
          {"end", position_of(text, range.end, units)}};
}

std::string path_of_uri(std::string_view uri) {
  if (!uri.starts_with(kFile)) {
    std::string name(uri);
    std::ranges::replace(name, '/', '_');
    return std::string(kUnsaved) + name;
  }
  uri.remove_prefix(kFile.size());
  // A host before the path (`file://localhost/`) says nothing to us.
  uri.remove_prefix(std::min(uri.find('/'), uri.size()));
  std::string path;
  for (std::size_t i = 0; i < uri.size(); ++i) {
    const auto digit = [&](std::size_t at) {
      const char c = at < uri.size() ? uri[at] : ' ';
      if (c >= '0' && c <= '9') return c - '0';
      const int small = std::tolower(static_cast<unsigned char>(c));
      return small >= 'a' && small <= 'f' ? small - 'a' + 10 : -1;
    };
    if (uri[i] == '%' && digit(i + 1) >= 0 && digit(i + 2) >= 0) {
      path += static_cast<char>(digit(i + 1) * 16 + digit(i + 2));
      i += 2;
    } else {
      path += uri[i];
    }
  }
  return path;
}

std::string uri_of_path(std::string_view path) {
  std::string uri(kFile);
  for (const char c : path) {
    const bool plain =
        std::isalnum(static_cast<unsigned char>(c)) != 0 ||
        std::string_view("/-._~").find(c) != std::string_view::npos;
    if (plain) {
      uri += c;
    } else {
      uri += fmt::format("%{:02X}", static_cast<unsigned char>(c));
    }
  }
  return uri;
}

}  // namespace sheaf
