#pragma once

#include <string_view>
#include <vector>

namespace sheaf {

/// Files of src/data that are built into the program, as they stand there.
std::string_view pictures_table();
std::string_view picture_drawings_table();
std::string_view blocked_pictures_table();
std::string_view letter_strokes_table();

/// The lines that hold something: no blank ones, no comments (`#`). The views
/// point into `text`.
std::vector<std::string_view> table_lines(std::string_view text);
/// The cells of a line, which are parted by tabs.
std::vector<std::string_view> table_cells(std::string_view line);

}  // namespace sheaf
