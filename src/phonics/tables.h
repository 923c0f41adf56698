#pragma once

#include <string_view>

namespace sheaf {

/// Files of src/data that are built into the program, as they stand there.
std::string_view pattern_texts_table();
std::string_view sound_ways_table();
std::string_view pattern_terms_table();
std::string_view contrasts_table();
std::string_view irregular_forms_table();
std::string_view prefix_meanings_table();
std::string_view sound_making_table();
std::string_view not_key_words_table();

}  // namespace sheaf
