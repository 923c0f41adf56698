#pragma once

#include <string>
#include <vector>

namespace pdfua {

/// What a metadata packet says, as far as the rules ask. Written for this
/// checker: it reads elements, attributes and namespaces, and no more of XML.
struct Xmp {
  struct Property {
    std::string space;   ///< the namespace's address
    std::string prefix;  ///< as it is written
    std::string name;
    std::string value;
  };
  /// Properties of rdf:Description, written as elements or as attributes.
  std::vector<Property> properties;
  /// Every element in its order, whatever it stands in; rdf:li and the like
  /// as well.
  std::vector<Property> elements;
  bool has_title = false;
  std::string title;
  /// An alternative in the language "x-default".
  bool has_default_language = false;

  const Property* find(const std::string& space, const std::string& name) const;
};

Xmp read_xmp(const std::string& packet);

}  // namespace pdfua
