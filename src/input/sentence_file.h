#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/diagnostics.h"
#include "base/value.h"

namespace sheaf {

/// A teacher's own sentences: plain text, one sentence a line. `#` at the
/// beginning of a line or after a space begins a comment; empty lines count for
/// nothing.
struct SentenceFile {
  const SourceFile* file = nullptr;
  /// As they are printed: trimmed, with capitals and end marks.
  std::vector<PlacedText> sentences;
};

/// What is read of such a file: bytes, lines and characters in a line.
inline constexpr std::size_t kLargestSentenceFile = std::size_t{1} << 20U;
inline constexpr int kMostSentenceLines = 10'000;
inline constexpr int kLongestSentenceLine = 300;

/// Whether small slips that are put right (a missing capital or end mark, a
/// number in front) and lines without words are told: where the file itself is
/// looked at they are, where a lesson takes sentences from it they are not.
enum class TellSlips { yes, no };

/// Reads a file of sentences. Reports all that is wrong with its form; the
/// result is to be used only if no error stands. `file` must outlive it.
SentenceFile read_sentence_file(const SourceFile& file, TellSlips slips,
                                Diagnostics& diagnostics);

/// The sentence that a line of such a file holds, without its comment and as it
/// is printed; empty where the line would not be read as a sentence.
std::string sentence_in_line(const std::string& line);

}  // namespace sheaf
