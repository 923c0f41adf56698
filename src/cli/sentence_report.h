#pragma once

#include <string>
#include <string_view>

#include "driver/check_sentences.h"

namespace sheaf {

/// What `sheaf check` says of a list of sentences, on less than a screen: how
/// many there are, and the patterns that most of them have.
std::string sentence_report(std::string_view path,
                            const SentenceReport& report);

}  // namespace sheaf
