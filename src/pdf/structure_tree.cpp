#include "pdf/structure_tree.h"

#include <algorithm>
#include <cassert>
#include <limits>

#include "pdf/operators.h"

namespace sheaf {

namespace {

// Pages to a leaf of the tree that leads from content to elements.
constexpr std::size_t kPagesPerLeaf = 32;

constexpr std::uint32_t kNowhere = std::numeric_limits<std::uint32_t>::max();

// The kind of a list after its first label (ISO 32000-1, table 347).
std::string_view numbering(char label) {
  if (label >= '0' && label <= '9') return "Decimal";
  if (label >= 'a' && label <= 'z') return "LowerAlpha";
  if (label >= 'A' && label <= 'Z') return "UpperAlpha";
  return "Disc";
}

}  // namespace

std::string_view structure_type(Role role) {
  switch (role) {
    case Role::document:
      return "Document";
    case Role::section:
      return "Sect";
    case Role::heading1:
      return "H1";
    case Role::heading2:
      return "H2";
    case Role::heading3:
      return "H3";
    case Role::paragraph:
      return "P";
    case Role::list:
      return "L";
    case Role::list_item:
      return "LI";
    case Role::list_label:
      return "Lbl";
    case Role::list_body:
      return "LBody";
    case Role::table:
      return "Table";
    case Role::table_row:
      return "TR";
    case Role::header_cell:
      return "TH";
    case Role::data_cell:
      return "TD";
    case Role::figure:
      return "Figure";
    case Role::span:
      return "Span";
  }
  return "Span";
}

StructureTree::Text StructureTree::keep(std::string_view text) {
  const auto begin = static_cast<std::uint32_t>(texts_.size());
  texts_ += text;
  return {begin, static_cast<std::uint32_t>(text.size())};
}

ElementId StructureTree::add(const std::vector<Element>& elements,
                             ElementId parent) {
  assert((parent == 0) == tags_.empty() && "there is one root");
  const auto shift = static_cast<ElementId>(tags_.size());
  for (const Element& element : elements) {
    assert(element.parent <= tags_.size() - shift && "parents come first");
    Tag added;
    added.role = element.role;
    if (parent != 0 && tags_.size() == shift) added.role = Role::section;
    added.scope = element.scope;
    added.columns = element.columns;
    added.rows = element.rows;
    added.parent = element.parent == 0 ? parent : element.parent + shift;
    added.alternative = keep(element.alternative);
    added.is_in_figure = added.role == Role::figure ||
                         (added.parent != 0 && tag(added.parent).is_in_figure);
    tags_.push_back(added);
    if (element.language.empty()) continue;
    languages_.emplace(static_cast<ElementId>(tags_.size()), element.language);
  }
  return shift;
}

std::uint32_t StructureTree::add_content(ElementId element,
                                         std::uint32_t page) {
  const auto begin = static_cast<std::uint32_t>(contents_.size());
  while (page_begins_.size() <= page) page_begins_.push_back(begin);
  const std::uint32_t mcid = begin - page_begins_[page];
  contents_.push_back({element, page, mcid});
  return mcid;
}

void StructureTree::cover(ElementId element, std::uint32_t page,
                          const Rect& area) {
  for (ElementId id = element; id != 0; id = tag(id).parent) {
    if (role(id) != Role::figure) continue;
    if (tag(id).area == 0) {
      areas_.push_back({page, area.x, area.y, area.right(), area.bottom()});
      tag(id).area = static_cast<std::uint32_t>(areas_.size());
      continue;
    }
    Area& covered = areas_[tag(id).area - 1];
    if (covered.page == page) {
      covered.left = std::min(covered.left, area.x);
      covered.bottom = std::min(covered.bottom, area.y);
      covered.right = std::max(covered.right, area.right());
      covered.top = std::max(covered.top, area.bottom());
    }
  }
}

void StructureTree::label(ElementId element, std::string_view text) {
  const Tag& label = tag(element);
  if (label.role != Role::list_label || label.parent == 0 || text.empty()) {
    return;
  }
  const ElementId list = tag(label.parent).parent;
  if (list == 0 || tag(list).first_label != 0) return;
  tag(list).first_label = text[0];
}

std::string_view StructureTree::replacement(ElementId id) const {
  return role(id) == Role::span ? text(tag(id).alternative)
                                : std::string_view();
}

bool StructureTree::has_content(std::uint32_t page) const {
  return page < page_begins_.size() && page_begins_[page] < contents_.size();
}

std::size_t StructureTree::parent_tree_nodes() const {
  const std::size_t leaves =
      (page_begins_.size() + kPagesPerLeaf - 1) / kPagesPerLeaf;
  return leaves + 1;
}

ObjectId StructureTree::object_count() const {
  return static_cast<ObjectId>(1 + tags_.size() + parent_tree_nodes());
}

ObjectId StructureTree::element_object(ObjectId first, ElementId id) const {
  return first + id;
}

// Sorts contents and children by element without changing their order.
void StructureTree::order_contents() {
  const std::size_t count = tags_.size();
  content_begins_.assign(count + 1, 0);
  child_begins_.assign(count + 1, 0);
  for (const Content& content : contents_) ++content_begins_[content.element];
  for (const Tag& element : tags_) {
    if (element.parent != 0) ++child_begins_[element.parent];
  }
  for (std::size_t i = 1; i <= count; ++i) {
    content_begins_[i] += content_begins_[i - 1];
    child_begins_[i] += child_begins_[i - 1];
  }
  content_order_.resize(contents_.size());
  children_.resize(child_begins_[count]);
  first_contents_.assign(count, kNowhere);
  std::vector<std::uint32_t> next = content_begins_;
  for (std::uint32_t i = 0; i < contents_.size(); ++i) {
    const ElementId id = contents_[i].element;
    content_order_[next[id - 1]++] = i;
    first_contents_[id - 1] = std::min(first_contents_[id - 1], i);
  }
  next = child_begins_;
  for (ElementId id = 1; id <= count; ++id) {
    const ElementId parent = tag(id).parent;
    if (parent != 0) children_[next[parent - 1]++] = id;
  }
  for (auto id = static_cast<ElementId>(count); id > 0; --id) {
    const ElementId parent = tag(id).parent;
    if (parent == 0) continue;
    first_contents_[parent - 1] =
        std::min(first_contents_[parent - 1], first_contents_[id - 1]);
  }
}

void StructureTree::write(FileWriter& file, ObjectId first,
                          const std::vector<Objects::PageObjects>& pages) {
  order_contents();
  write_root(file, first);
  for (ElementId id = 1; id <= tags_.size(); ++id) {
    write_element(file.begin_plain(element_object(first, id)), id, first,
                  pages);
  }
  write_parent_tree(file, first);
}

void StructureTree::write_root(FileWriter& file, ObjectId first) const {
  std::string& out = file.begin_plain(first);
  out += "<</Type/StructTreeRoot/K ";
  append_reference(out, element_object(first, kDocumentElement));
  out += "/ParentTree ";
  append_reference(out, first + static_cast<ObjectId>(tags_.size()) + 1);
  out += "/ParentTreeNextKey ";
  append_integer(out, static_cast<std::int64_t>(page_begins_.size()));
  out += ">>";
}

void StructureTree::write_element(
    std::string& out, ElementId id, ObjectId first,
    const std::vector<Objects::PageObjects>& pages) const {
  const Tag& element = tag(id);
  out += "<</S/";
  out += structure_type(element.role);
  out += "/P ";
  append_reference(
      out, element.parent == 0 ? first : element_object(first, element.parent));
  append_kids(out, id, first, pages);
  if (element.alternative.length != 0) {
    out += element.role == Role::span ? "/ActualText" : "/Alt";
    std::string stated(text(element.alternative));
    if (element.has_space_after) stated += ' ';
    append_text_string(out, stated);
  }
  if (const auto language = languages_.find(id); language != languages_.end()) {
    out += "/Lang";
    append_text_string(out, language->second);
  }
  append_attributes(out, id);
  out += ">>";
}

// Children keep the order of their ids; an element's own content stands before
// the first child that comes later on the pages.
void StructureTree::append_kids(
    std::string& out, ElementId id, ObjectId first,
    const std::vector<Objects::PageObjects>& pages) const {
  std::uint32_t content = content_begins_[id - 1];
  const std::uint32_t content_end = content_begins_[id];
  std::uint32_t child = child_begins_[id - 1];
  const std::uint32_t child_end = child_begins_[id];
  const std::uint32_t count = content_end - content + child_end - child;
  if (count == 0) return;
  std::uint32_t home = kNowhere;
  if (content != content_end) {
    home = contents_[content_order_[content]].page;
    out += "/Pg ";
    append_reference(out, pages[home].page);
  }
  out += count == 1 ? "/K " : "/K[";
  while (content != content_end || child != child_end) {
    const bool takes_child =
        content == content_end ||
        (child != child_end &&
         first_contents_[children_[child] - 1] < content_order_[content]);
    if (takes_child) {
      append_reference(out, element_object(first, children_[child++]));
    } else {
      const Content& own = contents_[content_order_[content++]];
      if (own.page == home) {
        append_integer(out, own.mcid);
      } else {
        out += "<</Type/MCR/Pg ";
        append_reference(out, pages[own.page].page);
        out += "/MCID ";
        append_integer(out, own.mcid);
        out += ">>";
      }
    }
    if (content != content_end || child != child_end) out += ' ';
  }
  if (count != 1) out += ']';
}

// What a table's reader must know of a cell (ISO 32000-1, table 349).
void StructureTree::append_cell(std::string& out, const Tag& cell) {
  const bool has_scope =
      cell.role == Role::header_cell && cell.scope != Scope::none;
  if (!has_scope && cell.columns == 1 && cell.rows == 1) return;
  out += "/A<</O/Table";
  if (has_scope)
    out += cell.scope == Scope::row ? "/Scope/Row" : "/Scope/Column";
  if (cell.columns != 1) {
    out += "/ColSpan ";
    append_integer(out, cell.columns);
  }
  if (cell.rows != 1) {
    out += "/RowSpan ";
    append_integer(out, cell.rows);
  }
  out += ">>";
}

void StructureTree::append_attributes(std::string& out, ElementId id) const {
  const Tag& element = tag(id);
  if (element.role == Role::header_cell || element.role == Role::data_cell) {
    append_cell(out, element);
  } else if (element.role == Role::list && element.first_label != 0) {
    out += "/A<</O/List/ListNumbering/";
    out += numbering(element.first_label);
    out += ">>";
  } else if (element.role == Role::figure && element.area != 0) {
    const Area& area = areas_[element.area - 1];
    out += "/A<</O/Layout/BBox[";
    append_operand(out, area.left);
    append_operand(out, area.bottom);
    append_operand(out, area.right);
    append_length(out, area.top);
    out += "]>>";
  }
}

void StructureTree::write_parent_tree(FileWriter& file, ObjectId first) const {
  const ObjectId root = first + static_cast<ObjectId>(tags_.size()) + 1;
  const std::size_t page_count = page_begins_.size();
  std::string kids;
  for (std::size_t begin = 0; begin < page_count; begin += kPagesPerLeaf) {
    const std::size_t end = std::min(begin + kPagesPerLeaf, page_count);
    const ObjectId leaf =
        root + 1 + static_cast<ObjectId>(begin / kPagesPerLeaf);
    append_reference(kids, leaf);
    kids += ' ';
    std::string& out = file.begin_plain(leaf);
    out += "<</Limits[";
    append_integer(out, static_cast<std::int64_t>(begin));
    out += ' ';
    append_integer(out, static_cast<std::int64_t>(end - 1));
    out += "]/Nums[";
    for (std::size_t page = begin; page < end; ++page) {
      const std::uint32_t last =
          page + 1 < page_count ? page_begins_[page + 1]
                                : static_cast<std::uint32_t>(contents_.size());
      append_integer(out, static_cast<std::int64_t>(page));
      out += '[';
      for (std::uint32_t i = page_begins_[page]; i < last; ++i) {
        append_reference(out, element_object(first, contents_[i].element));
        out += ' ';
      }
      out += ']';
    }
    out += "]>>";
  }
  file.begin_plain(root).append("<</Kids[").append(kids).append("]>>");
}

}  // namespace sheaf
