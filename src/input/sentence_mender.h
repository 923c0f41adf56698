#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostics.h"
#include "base/value.h"

namespace sheaf {

/// Whether a sentence is over at the end of `text`, quotes behind its mark or
/// not.
bool ends_sentence(std::string_view text);

/// What a line begins with that a list would need and a text does not: the dash
/// of a list under `|`, or a word processor's bullet. Empty for a plain line.
std::string_view bullet_of(std::string_view line);

/// Makes sentences what is to be printed, without numbers, with capitals and
/// end marks, and says so once for all of a key or a file.
class SentenceMender {
 public:
  /// `may_be_split`: a missing end mark was said to be a comma's work.
  PlacedText mend(PlacedText line, bool may_be_split);
  /// Says what was put right, in notes with a certain fix for each place.
  void report(Diagnostics& diagnostics) const;

 private:
  struct Found {
    int times = 0;
    Span first;
    std::string text;  // of the first
    std::vector<Fix> fixes;

    void count(const Span& span, std::string sentence, Fix fix);
  };
  static void report(const Found& found, const DiagnosticName& name,
                     std::string_view one, std::string_view several,
                     std::string_view help, Diagnostics& diagnostics);
  Found numbers_, small_, ends_;
};

}  // namespace sheaf
