#pragma once

#include <string>
#include <vector>

#include "json/json.h"

namespace sheaf {

/// JSON as it is printed on one line; a bad byte becomes U+FFFD.
std::string as_one_line(const Json& json);

/// Long lists of a document, each kept as the text that it is printed as: as
/// values they would take many times the memory. The document has signs in
/// their places, with which none of its own texts may begin: U+0001, which no
/// teacher's file can have.
class LongLists {
 public:
  class List {
   public:
    void push_back(const Json& value);
    /// Ends the list and gives it up.
    std::string take();

   private:
    std::string text_;
  };

  /// Keeps a value as it is printed; what stands for it in the document.
  Json sign_for(std::string printed);
  /// The document on one line with the values in it; to be called once.
  std::string printed(const Json& document);

 private:
  std::vector<std::string> values_;
};

}  // namespace sheaf
