#pragma once

#include <functional>
#include <span>
#include <string_view>
#include <vector>

#include "phonics/guesser.h"
#include "phonics/word_record.h"

namespace sheaf {

/// What a guess may lean on: the words that are known.
struct GuessSources {
  const Inventory* inventory = nullptr;
  std::span<const GuessStep> steps;
  std::function<std::vector<WordRecord>(std::string_view)> find;
};

/// The likeliest reading of a word that nobody knows. Two known words, one
/// behind the other, are taken for a compound; a prefix before a known word
/// and a regular ending are taken off, and what is left is guessed by what is
/// usual (`guess_segments`). `letters` are a to z. Never empty.
WordRecord guess_word(std::string_view letters, const GuessSources& sources);

}  // namespace sheaf
