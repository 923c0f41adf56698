#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/aligner.h"
#include "phonics/guesser.h"
#include "phonics/word_record.h"

namespace sheaf {

/// A word ready to be aligned.
struct TrainingWord {
  std::string letters;
  std::vector<Phoneme> phonemes;
  int ending_ed = -1;

  AlignTask task() const { return {letters, phonemes, ending_ed}; }
};

/// Sets the cost of each correspondence from how often it is used when all
/// the words are aligned, over and over until little changes, and puts them
/// in the order of use, the commonest first. Words that cannot be aligned are
/// passed over. (Expectation and maximization over best paths.)
void train(std::vector<Correspondence>& correspondences,
           std::span<const TrainingWord> words);

/// How often one correspondence follows another in the words, as costs.
std::vector<GuessStep> count_steps(std::span<const WordRecord> records);

}  // namespace sheaf
