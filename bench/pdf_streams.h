#pragma once

#include <cstdlib>
#include <string>
#include <string_view>

namespace sheaf::bench {

/// Calls `visit(dictionary, data)` for each stream of a PDF that Sheaf wrote,
/// in the order of the file; data as it is packed.
template <typename Visit>
void for_each_stream(const std::string& pdf, Visit visit) {
  constexpr std::string_view kBegin = ">>\nstream\n", kLength = "/Length ";
  for (std::size_t at = 0; (at = pdf.find(kBegin, at)) != std::string::npos;) {
    const std::size_t begin = pdf.rfind(" obj\n", at);
    const std::string dictionary = pdf.substr(begin, at - begin);
    const std::size_t length = std::strtoul(
        dictionary.c_str() + dictionary.rfind(kLength) + kLength.size(),
        nullptr, 10);
    at += kBegin.size();
    visit(dictionary, std::string_view(pdf).substr(at, length));
    at += length;
  }
}

}  // namespace sheaf::bench
