#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// How a text is said where a screen reader would spell out its signs: "/sh/"
/// is "the sound sh", "/sh/ /i/ /p/" are "the sounds sh, i, p", "a_e" and
/// "a–e" are "a-blank-e", and "rab · bit" is "rab, bit". The wordings are ours.

/// A stretch of words that is said in other words than it shows.
struct HeardStretch {
  std::size_t begin, end;  ///< of the words
  std::string text;
};

/// Finds those stretches among the words of a text, each with what stands
/// around it: quotation marks, commas, the blank that follows.
std::vector<HeardStretch> heard_stretches(
    std::span<const std::string_view> words);

/// A whole text as it is heard.
std::string heard_text(std::string_view text);

/// Graphemes that stand apart: "sh a_e k" is "sh, a-blank-e, k".
std::string heard_graphemes(std::string_view parted);

/// How a count is said: "13/14" is "13 of 14", with what stands around it.
/// Empty where a word is no count. For texts of our own only: a teacher's 1/2
/// may be a half.
std::string heard_count(std::string_view word);

/// What somebody wrote, which may sound like the word that was meant: "kight:
/// k, i, g, h, t".
std::string heard_spelling(std::string_view written);

/// One stretch of a key's text: shown on a band or not.
struct BandedText {
  std::string_view text;
  bool marked = false;
};
/// What is said behind a text for those who do not see its bands: "Marked:
/// fish, dish." or, where only letters of words are marked, "Marked: sh." and
/// "Marked: ai in rain; ay in play."; empty where nothing is marked.
std::string marked_text(std::span<const BandedText> pieces);

}  // namespace sheaf
