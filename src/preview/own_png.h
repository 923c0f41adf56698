#pragma once

#include <cstdint>
#include <functional>
#include <string>

namespace sheaf {

/// Whether a file of `size` bytes is a PNG file with the very parts that
/// `write_png` makes, in its order: size, sRGB, resolution, the text "Software:
/// Sheaf", pixels, end. A program in which somebody drew on a preview writes
/// parts of its own or leaves some out, and then the picture is no longer
/// Sheaf's. `read` gives at most `size` bytes from `begin` on; of every part,
/// only the head is read.
bool is_own_png(std::uint64_t size,
                const std::function<std::string(std::uint64_t begin,
                                                std::size_t size)>& read);

}  // namespace sheaf
