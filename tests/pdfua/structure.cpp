#include "pdfua/structure.h"

#include <qpdf/QPDFNumberTreeObjectHelper.hh>
#include <set>

namespace pdfua {

namespace {

// ISO 32000-1, 14.8.4.
const std::set<std::string>& standard_types() {
  static const std::set<std::string> types = {
      "Document", "Part",    "Art",   "Sect",  "Div",       "BlockQuote",
      "Caption",  "TOC",     "TOCI",  "Index", "NonStruct", "Private",
      "P",        "H",       "H1",    "H2",    "H3",        "H4",
      "H5",       "H6",      "L",     "LI",    "Lbl",       "LBody",
      "Table",    "TR",      "TH",    "TD",    "THead",     "TBody",
      "TFoot",    "Span",    "Quote", "Note",  "Reference", "BibEntry",
      "Code",     "Link",    "Annot", "Ruby",  "RB",        "RT",
      "RP",       "Warichu", "WT",    "WP",    "Figure",    "Formula",
      "Form"};
  return types;
}

std::string bare_name(QPDFObjectHandle name) {
  return name.isName() ? name.getName().substr(1) : "";
}

}  // namespace

bool is_standard_type(const std::string& type) {
  return standard_types().count(type) > 0;
}

QPDFObjectHandle attribute(QPDFObjectHandle element, const std::string& owner,
                           const std::string& key) {
  QPDFObjectHandle all = element.getKey("/A");
  const auto in = [&](QPDFObjectHandle one) {
    const bool found = one.isDictionary() && one.hasKey(key) &&
                       one.getKey("/O").isNameAndEquals(owner);
    return found ? one.getKey(key) : QPDFObjectHandle::newNull();
  };
  if (!all.isArray()) return in(all);
  for (const QPDFObjectHandle& one : all.aitems()) {
    QPDFObjectHandle value = in(one);
    if (!value.isNull()) return value;
  }
  return QPDFObjectHandle::newNull();
}

std::vector<std::string> StructureElement::kid_types() const {
  std::vector<std::string> types;
  for (const StructureElement* kid : kids) types.push_back(kid->type);
  return types;
}

StructureTree::StructureTree(QPDF& pdf, Report& report) : report_(report) {
  root_ = pdf.getRoot().getKey("/StructTreeRoot");
  exists_ = root_.isDictionary();
  if (!exists_) return;
  QPDFObjectHandle kids = root_.getKey("/K");
  if (kids.isArray()) {
    for (const QPDFObjectHandle& kid : kids.aitems()) {
      read(kid, nullptr, {});
    }
  } else {
    read(kids, nullptr, {});
  }
  for (const StructureElement& element : elements_) {
    by_object_[element.object.getObjGen()] = &element;
  }
}

void StructureTree::read(QPDFObjectHandle object, StructureElement* parent,
                         QPDFObjGen page) {
  if (!object.isDictionary() || !object.hasKey("/S")) return;
  for (const StructureElement* above = parent; above; above = above->parent) {
    if (above->object.getObjGen() == object.getObjGen()) return;
  }
  elements_.push_back(
      {object, parent, {}, bare_name(object.getKey("/S")), {}, false, {}});
  StructureElement* element = &elements_.back();
  element->type = standard_type(element->own_type);
  element->has_language =
      object.hasKey("/Lang") || (parent && parent->has_language);
  if (parent) {
    parent->kids.push_back(element);
    parent->order.push_back({element, {}, -1});
  }
  report_.require(object.hasKey("/P"), "7.1", 12,
                  "a tag " + element->own_type + " without /P");
  if (object.hasKey("/Pg")) page = object.getKey("/Pg").getObjGen();
  QPDFObjectHandle kids = object.getKey("/K");
  if (kids.isArray()) {
    for (const QPDFObjectHandle& kid : kids.aitems()) {
      read_kid(kid, element, page);
    }
  } else {
    read_kid(kids, element, page);
  }
}

void StructureTree::read_kid(QPDFObjectHandle kid, StructureElement* element,
                             QPDFObjGen page) {
  const auto holds = [&](QPDFObjectHandle mcid) {
    if (!mcid.isInteger()) return;
    content_[{page, mcid.getIntValueAsInt()}] = element;
    element->order.push_back({nullptr, page, mcid.getIntValueAsInt()});
  };
  if (kid.isInteger()) {
    holds(kid);
  } else if (kid.isDictionary() &&
             kid.getKey("/Type").isNameAndEquals("/MCR")) {
    if (kid.hasKey("/Pg")) page = kid.getKey("/Pg").getObjGen();
    holds(kid.getKey("/MCID"));
  } else {
    read(kid, element, page);
  }
}

std::string StructureTree::standard_type(const std::string& type) {
  QPDFObjectHandle map = root_.getKey("/RoleMap");
  if (map.isDictionary() && is_standard_type(type) && map.hasKey("/" + type)) {
    report_.fault("7.1", 7, "the role map changes " + type);
    return type;
  }
  std::string now = type;
  std::set<std::string> seen;
  while (!is_standard_type(now)) {
    if (!seen.insert(now).second) {
      report_.fault("7.1", 6, "the role map leads " + type + " in a circle");
      return "";
    }
    const std::string key = std::string("/").append(now);
    if (!map.isDictionary() || !map.hasKey(key)) {
      report_.fault("7.1", 5, type + " stands for no standard type");
      return "";
    }
    now = bare_name(map.getKey(key));
  }
  return now;
}

QPDFObjectHandle StructureTree::parent_tree_value(int key) {
  QPDFObjectHandle tree = root_.getKey("/ParentTree");
  if (!tree.isDictionary()) return QPDFObjectHandle::newNull();
  QPDFNumberTreeObjectHelper numbers(tree, *root_.getOwningQPDF(), false);
  QPDFObjectHandle value = QPDFObjectHandle::newNull();
  numbers.findObject(key, value);
  return value;
}

const StructureElement* StructureTree::owner(QPDFObjectHandle page, int mcid) {
  if (!exists_) return nullptr;
  QPDFObjectHandle key = page.getKey("/StructParents");
  if (!key.isInteger()) return nullptr;
  QPDFObjectHandle owners = parent_tree_value(key.getIntValueAsInt());
  if (!owners.isArray() || mcid < 0 || mcid >= owners.getArrayNItems()) {
    return nullptr;
  }
  const auto by_page = by_object_.find(owners.getArrayItem(mcid).getObjGen());
  const auto by_tree = content_.find({page.getObjGen(), mcid});
  const bool agree = by_page != by_object_.end() && by_tree != content_.end() &&
                     by_page->second == by_tree->second;
  return agree ? by_page->second : nullptr;
}

}  // namespace pdfua
