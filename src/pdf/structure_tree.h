#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "layout/page.h"
#include "pdf/file_writer.h"
#include "pdf/objects.h"

namespace sheaf {

/// The standard structure type of a role (ISO 32000-1, 14.8.4).
std::string_view structure_type(Role role);

/// The document's elements as structure tags: what stands on which page is
/// collected while pages are written, the tree itself is written at the end.
class StructureTree {
 public:
  explicit StructureTree(const Document& document);

  /// A new piece of content of an element on a page; pages come in order.
  /// Returns its number on that page (the MCID).
  std::uint32_t add_content(ElementId element, std::uint32_t page);
  Role role(ElementId id) const { return document_.element(id).role; }
  /// Whether the element is a figure or stands in one.
  bool is_in_figure(ElementId element) const { return in_figure_[element]; }
  /// What the content of an element covers, for its figure's box. y grows
  /// upwards, as PDF counts.
  void cover(ElementId element, std::uint32_t page, const Rect& area);
  /// The first character of a list label, for the kind of the list.
  void label(ElementId element, std::string_view text);

  /// The text that the content of an element stands for, if it is not that of
  /// its letters.
  std::string_view replacement(ElementId element) const;

  bool has_content(std::uint32_t page) const;

  /// How many objects `write` makes, numbered from `first` on. The root of the
  /// tree is the first.
  ObjectId object_count() const;
  void write(FileWriter& file, ObjectId first,
             const std::vector<Objects::PageObjects>& pages);

 private:
  struct Content {
    ElementId element;
    std::uint32_t page;
    std::uint32_t mcid;
  };
  struct Area {
    std::uint32_t page = 0;
    bool is_set = false;
    Length left, bottom, right, top;
  };
  struct Order;
  void write_root(FileWriter& file, ObjectId first) const;
  void write_element(std::string& out, ElementId id, ObjectId first,
                     const std::vector<Objects::PageObjects>& pages) const;
  void append_kids(std::string& out, ElementId id, ObjectId first,
                   const std::vector<Objects::PageObjects>& pages) const;
  void append_attributes(std::string& out, ElementId id) const;
  void write_parent_tree(FileWriter& file, ObjectId first) const;
  void order_contents();
  ObjectId element_object(ObjectId first, ElementId id) const;
  std::size_t parent_tree_nodes() const;

  const Document& document_;
  std::vector<Content> contents_;           // in the order of drawing
  std::vector<std::uint32_t> page_begins_;  // into contents_, by page
  std::vector<bool> in_figure_;             // by ElementId
  std::vector<Area> areas_;                 // of figures, by element
  std::vector<char> first_labels_;          // of lists, by element
  // By element: its contents and its children, each in order.
  std::vector<std::uint32_t> content_begins_, content_order_;
  std::vector<std::uint32_t> child_begins_, children_;
  // By element: the first content of it or of what is in it.
  std::vector<std::uint32_t> first_contents_;
};

}  // namespace sheaf
