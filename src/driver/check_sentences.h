#pragma once

#include <string>
#include <vector>

#include "driver/workspace.h"

namespace sheaf {

/// What a teacher's own sentences are good for.
struct SentenceReport {
  struct Row {
    std::string pattern;  ///< its id
    /// The step that teaches it; -1 where no sequence says so.
    int step = -1;
    int having = 0;    ///< sentences with a word that has it
    int readable = 0;  ///< of them, those that can be read at that step
  };
  int sentences = 0;
  /// Those with more words than Sheaf takes unless it is asked for such.
  int long_ones = 0;
  /// The sequence beside the file; empty where there is none.
  std::string sequence;
  std::vector<Taught::Step> steps;  ///< of the sequence
  /// Every pattern that the sequence teaches; without one every pattern that a
  /// sentence has. Those with the most sentences first.
  std::vector<Row> rows;
};

/// Reads a file of sentences and says what there is to say of it: what is put
/// right, words that no list knows, sentences that stand there twice. The
/// sequence is the one beside the file. The report is to be used only if no
/// error stands.
SentenceReport check_sentences(Workspace& workspace, const FilePath& path,
                               const SourceFile& file,
                               Diagnostics& diagnostics);

}  // namespace sheaf
