#include "pdfua/xmp.h"

#include <map>

namespace pdfua {

namespace {

constexpr char kRdf[] = "http://www.w3.org/1999/02/22-rdf-syntax-ns#";
constexpr char kDublinCore[] = "http://purl.org/dc/elements/1.1/";

struct Tag {
  std::string name;
  std::vector<std::pair<std::string, std::string>> attributes;
  bool closes = false;    // </name>
  bool is_empty = false;  // <name/>
};

bool is_space(char c) {
  return c == ' ' || c == '\n' || c == '\r' || c == '\t';
}

// Reads what stands between < and >.
Tag read_tag(const std::string& text) {
  Tag tag;
  std::size_t i = 0;
  const auto name = [&] {
    std::string result;
    while (i < text.size() && !is_space(text[i]) && text[i] != '=' &&
           text[i] != '/') {
      result += text[i++];
    }
    return result;
  };
  if (i < text.size() && text[i] == '/') {
    tag.closes = true;
    ++i;
  }
  tag.name = name();
  while (i < text.size()) {
    if (text[i] == '/') tag.is_empty = true;
    if (is_space(text[i]) || text[i] == '/') {
      ++i;
      continue;
    }
    const std::string key = name();
    while (i < text.size() && (is_space(text[i]) || text[i] == '=')) ++i;
    if (i >= text.size() || (text[i] != '"' && text[i] != '\'')) break;
    const std::size_t end = text.find(text[i], i + 1);
    if (end == std::string::npos) break;
    tag.attributes.emplace_back(key, text.substr(i + 1, end - i - 1));
    i = end + 1;
  }
  return tag;
}

class Reader {
 public:
  explicit Reader(const std::string& text) : text_(text) {}

  Xmp read() {
    std::size_t at = 0;
    while ((at = text_.find('<', at)) != std::string::npos) {
      const std::size_t end = text_.find('>', at);
      if (end == std::string::npos) break;
      const char kind = text_[at + 1];
      if (kind != '?' && kind != '!') {
        const Tag tag = read_tag(text_.substr(at + 1, end - at - 1));
        const std::size_t next = text_.find('<', end);
        handle(tag,
               text_.substr(end + 1,
                            next == std::string::npos ? next : next - end - 1));
      }
      at = end + 1;
    }
    return xmp_;
  }

 private:
  struct Open {
    std::string space, name;
    std::map<std::string, std::string> spaces;  // by prefix
  };

  void handle(const Tag& tag, const std::string& content) {
    if (tag.closes) {
      if (!open_.empty()) open_.pop_back();
      return;
    }
    Open element;
    if (!open_.empty()) element.spaces = open_.back().spaces;
    for (const auto& [key, value] : tag.attributes) {
      if (key.rfind("xmlns:", 0) == 0) element.spaces[key.substr(6)] = value;
    }
    const Xmp::Property self = resolved(tag.name, content, element);
    element.space = self.space;
    element.name = self.name;
    xmp_.elements.push_back(self);
    note(tag, self, element);
    if (!tag.is_empty) open_.push_back(std::move(element));
  }

  void note(const Tag& tag, const Xmp::Property& self, const Open& element) {
    if (is_open(kRdf, "Description", 0)) xmp_.properties.push_back(self);
    if (self.space == kRdf && self.name == "Description") {
      for (const auto& [key, value] : tag.attributes) {
        xmp_.properties.push_back(resolved(key, value, element));
      }
    }
    const bool in_title = is_open(kDublinCore, "title", 1);
    if (self.space != kRdf || self.name != "li") return;
    if (in_title && !self.value.empty()) {
      xmp_.has_title = true;
      xmp_.title = self.value;
    }
    for (const auto& [key, value] : tag.attributes) {
      if (key == "xml:lang" && value == "x-default") {
        xmp_.has_default_language = true;
      }
    }
  }

  static Xmp::Property resolved(const std::string& name,
                                const std::string& value, const Open& element) {
    const std::size_t colon = name.find(':');
    if (colon == std::string::npos) return {"", "", name, value};
    const std::string prefix = name.substr(0, colon);
    const auto space = element.spaces.find(prefix);
    return {space == element.spaces.end() ? "" : space->second, prefix,
            name.substr(colon + 1), value};
  }

  // Whether the element `up` levels above the innermost open one is this.
  bool is_open(const std::string& space, const std::string& name,
               std::size_t up) const {
    if (open_.size() <= up) return false;
    const Open& element = open_[open_.size() - 1 - up];
    return element.space == space && element.name == name;
  }

  const std::string& text_;
  Xmp xmp_;
  std::vector<Open> open_;
};

}  // namespace

const Xmp::Property* Xmp::find(const std::string& space,
                               const std::string& name) const {
  for (const Property& property : properties) {
    if (property.space == space && property.name == name) return &property;
  }
  return nullptr;
}

Xmp read_xmp(const std::string& packet) { return Reader(packet).read(); }

}  // namespace pdfua
