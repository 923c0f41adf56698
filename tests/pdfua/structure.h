#pragma once

#include <deque>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "pdfua/report.h"

#include <qpdf/QPDF.hh>

namespace pdfua {

struct StructureElement;

/// What an element holds, in order: another element, or content of a page.
struct StructureKid {
  const StructureElement* element = nullptr;  ///< null: content
  QPDFObjGen page;                            ///< of content
  int mcid = -1;
};

/// One structure element of the file.
struct StructureElement {
  QPDFObjectHandle object;
  StructureElement* parent = nullptr;
  std::vector<StructureElement*> kids;
  std::string own_type;  ///< as the file names it
  std::string type;      ///< the standard type it stands for, or ""
  /// Language of itself or the nearest element above that states one.
  bool has_language = false;
  std::vector<StructureKid> order;  ///< kids and content as the file has them

  std::vector<std::string> kid_types() const;
};

/// The structure tree, read from the root down by /K.
class StructureTree {
 public:
  StructureTree(QPDF& pdf, Report& report);

  bool exists() const { return exists_; }
  const std::deque<StructureElement>& elements() const { return elements_; }
  /// The element that content `mcid` of a page belongs to, where the tree and
  /// the page agree on it; else null.
  const StructureElement* owner(QPDFObjectHandle page, int mcid);

 private:
  void read(QPDFObjectHandle object, StructureElement* parent, QPDFObjGen page);
  void read_kid(QPDFObjectHandle kid, StructureElement* element,
                QPDFObjGen page);
  std::string standard_type(const std::string& type);
  QPDFObjectHandle parent_tree_value(int key);

  bool exists_ = false;
  Report& report_;
  QPDFObjectHandle root_;
  std::deque<StructureElement> elements_;
  std::map<QPDFObjGen, const StructureElement*> by_object_;
  std::map<std::pair<QPDFObjGen, int>, const StructureElement*> content_;
};

bool is_standard_type(const std::string& type);

/// The value of an attribute of an owner ("/Table", "/Scope"), or null.
QPDFObjectHandle attribute(QPDFObjectHandle element, const std::string& owner,
                           const std::string& key);

/// RFC 3066 as the profile states it.
bool is_language_tag(const std::string& text);

/// Rules of tags alone: nesting, alternatives, languages.
void check_structure(const StructureTree& tree, bool document_has_language,
                     Report& report);
void check_tables(const StructureTree& tree, Report& report);
void check_headings(const StructureTree& tree, Report& report);

}  // namespace pdfua
