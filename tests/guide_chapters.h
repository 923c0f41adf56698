#pragma once

#include <string>
#include <vector>

namespace sheaf::test {

/// A fenced block of a chapter of docs/guide.
struct GuideBlock {
  int line = 0;      ///< of its first fence, from 1
  std::string kind;  ///< the first word after the fence: yaml, sh or text
  std::string rest;  ///< what follows it there: a file's name, or "fails"
  std::string text;  ///< what is inside, with a line break at its end
};

/// The blocks of a chapter in their order.
std::vector<GuideBlock> guide_blocks(const std::string& markdown);

/// Follows a chapter in a fresh folder, as a reader would: saves its files,
/// gives its commands to a shell where `sheaf` is the program under test, and
/// lays what they print against what the chapter shows. A line of "…" there
/// stands for any lines. Returns what is wrong, each with its line; nothing
/// where all is well.
std::vector<std::string> follow_chapter(const std::string& markdown);

/// Whether lines are as shown, where a line of "…" stands for any lines.
bool is_as_shown(const std::string& shown, const std::string& printed);

}  // namespace sheaf::test
