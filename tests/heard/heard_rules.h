#pragma once

#include <set>
#include <string>
#include <vector>

#include "heard/heard.h"

namespace heard {

/// Our own rules for what is heard; the standard says nothing about them.
/// figure-without-words   a picture of which nothing is said
/// generic-picture        a picture that is only called one
/// picture-twice          a picture whose words call it one, which a screen
///                        reader does by itself: "picture: ship"
/// empty-cell             a row or column of a table in which nothing is heard:
///                        it is there to be written in; or a head without words
/// empty-item             an item, a paragraph or a heading without a word
/// heading-alone          a heading with nothing below it before the next
/// drawn-and-silent       something drawn that no words stand for
/// run-together           two words without a space between them
/// lone-sign              a full stop, comma or their like by itself: speech
/// drops
///                        it, or a blank before it is not heard
/// bad-sign               a sign that speech drops or calls by its name, in the
///                        title and the bookmarks too
/// heading-twice          two headings of level 1 with the same words
struct Fault {
  std::string rule;
  std::string place;  ///< the heading of level 1 above; "" before the first
  std::string found;  ///< the text at fault
};

/// A sign that speech does not say as it is meant, and where it may stand all
/// the same.
struct Sign {
  std::string sign;
  std::string allowed;  ///< a regular expression; "" for nowhere
};

struct Knowledge {
  /// Lower-case words of English: what is in here is one word.
  std::set<std::string> words;
  std::set<std::string> everyday;  ///< the common ones among them
  std::vector<Sign> signs;
};

/// The names of all rules, in the order above.
const std::vector<std::string>& rule_names();

std::vector<Fault> faults_of(const Document& document,
                             const Knowledge& knowledge);

/// Tables as tests/heard/signs.tsv: a head line, then columns parted by tabs;
/// lines that begin with "# " are comments. Throws std::runtime_error where the
/// file is not there.
std::vector<std::vector<std::string>> read_table(const std::string& path);
std::vector<Sign> read_signs(const std::string& path);

}  // namespace heard
