#pragma once

#include <cstddef>
#include <string_view>

namespace sheaf::fuzz {

/// What can be seen of a PDF file of ours from outside, read by none of what
/// wrote it: its head and end, that its table of objects leads to each of them
/// (ISO 32000-1, 7.5.8), and that it has so many pages. Ends the run where that
/// is not so.
void check_pdf(std::string_view bytes, std::size_t pages);

}  // namespace sheaf::fuzz
