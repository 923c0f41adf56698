#pragma once

#include <string>
#include <vector>

namespace heard {

/// A structure element as a screen reader tells it.
struct Element {
  std::string type;      ///< the standard type: "H1", "P", "TH"
  std::string language;  ///< its own, where the file states one
  std::string scope;     ///< of a header cell: "Row", "Column", "Both"
  int columns = 1, rows = 1;

  /// What it holds, in order: texts and elements.
  struct Kid {
    std::string text;
    std::vector<Element> element;  ///< one, or none: then it is text
  };
  std::vector<Kid> kids;

  bool is_replaced = false;  ///< its kids are one text: /ActualText or /Alt
  bool has_drawing = false;  ///< content of its own that is no letters
};

struct Document {
  std::string title, language;
  std::vector<std::string> bookmarks;  ///< "Learner > Sheet" where one is below
  std::vector<Element> elements;       ///< at the top of the tree
};

/// Reads a PDF as a screen reader does: by the structure tree, with the words
/// that stand for what has no letters, and without artifacts. Texts that
/// follow each other are joined as they stand in the file; where there is no
/// space, none is made up. Throws std::runtime_error where it cannot be read.
Document read(const std::string& bytes);

/// All that is heard of an element, on one line. A picture is told as
/// "picture: a ship.".
std::string text_of(const Element& element);
/// The same of its own text alone, without that of the blocks in it.
std::string own_text_of(const Element& element);

/// Whether an element begins a new line (a paragraph, not a span).
bool is_block(const Element& element);
/// Level of a heading, 0 for anything else.
int heading_level(const Element& element);

/// A line that is heard: how the screen reader announces it, and its words.
struct Line {
  const Element* element = nullptr;
  int depth = 0;
  std::string announced;  ///< "heading 1", "column head, 2 columns"
  std::string text;
};
std::vector<Line> lines_of(const Document& document);

/// The document as lines, two spaces deeper for each level:
///     heading 1: Sound boxes
///     list of 2
///       item 1: picture: ship. 3 empty boxes
/// With a `heading`, only the parts under headings of level 1 of that text.
std::string as_text(const Document& document, const std::string& heading = {});

}  // namespace heard
