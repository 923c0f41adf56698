#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

namespace sheaf {

/// A PDF file as `write_pdf` or `PdfWriter` made it.
struct OwnPdf {
  /// Empty in files from before the title stood at the head of the file.
  std::string title;
};

/// Gives the bytes of a file from `begin` on, at most `size` of them.
using ReadPart =
    std::function<std::string(std::uint64_t begin, std::size_t size)>;

/// Whether a file of `size` bytes is a PDF that Sheaf made and that nobody has
/// changed the end of since: a program that adds remarks to a PDF writes behind
/// what was there, and then it is no longer Sheaf's alone. At most three parts
/// of the file are read, a few kilobytes in all; nothing is unpacked.
std::optional<OwnPdf> read_own_pdf(std::uint64_t size, const ReadPart& read);

}  // namespace sheaf
