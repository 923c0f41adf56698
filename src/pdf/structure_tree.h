#pragma once

#include <cstdint>
#include <deque>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "layout/page.h"
#include "pdf/file_writer.h"
#include "pdf/objects.h"

namespace sheaf {

/// The standard structure type of a role (ISO 32000-1, 14.8.4).
std::string_view structure_type(Role role);

/// The document's elements as structure tags. They are added part by part, and
/// what stands on which page is collected while pages are written; the tree
/// itself is written at the end. Of the elements nothing is needed once they
/// are added.
class StructureTree {
 public:
  /// Adds the elements of a part. Its first stands beneath `parent`, as a
  /// section; without a parent it is the root, which is added first. Returns
  /// what is added to an element's id in the part to get its id here.
  ElementId add(const std::vector<Element>& elements, ElementId parent = 0);

  /// A new piece of content of an element on a page; pages come in order.
  /// Returns its number on that page (the MCID).
  std::uint32_t add_content(ElementId element, std::uint32_t page);
  Role role(ElementId id) const { return tag(id).role; }
  /// Whether the element is a figure or stands in one.
  bool is_in_figure(ElementId id) const { return tag(id).is_in_figure; }
  /// What the content of an element covers, for its figure's box. y grows
  /// upwards, as PDF counts.
  void cover(ElementId element, std::uint32_t page, const Rect& area);
  /// The first character of a list label, for the kind of the list.
  void label(ElementId element, std::string_view text);

  /// The text that the content of an element stands for, if it is not that of
  /// its letters.
  std::string_view replacement(ElementId element) const;
  /// Says that a word space follows the element's replacement.
  void follow_with_space(ElementId element) {
    tag(element).has_space_after = true;
  }
  bool has_space_after(ElementId element) const {
    return tag(element).has_space_after;
  }

  bool has_content(std::uint32_t page) const;

  /// How many objects `write` makes, numbered from `first` on. The root of the
  /// tree is the first.
  ObjectId object_count() const;
  void write(FileWriter& file, ObjectId first,
             const std::vector<Objects::PageObjects>& pages);

 private:
  // A piece of `texts_`.
  struct Text {
    std::uint32_t begin = 0, length = 0;
  };
  // What is kept of an element: a class's packets have tens of thousands.
  struct Tag {
    Role role : 6 = Role::paragraph;
    Scope scope : 2 = Scope::none;
    char first_label = 0;  // of a list
    bool is_in_figure : 1 = false;
    bool has_space_after : 1 = false;
    std::uint16_t columns = 1, rows = 1;  // of a cell
    ElementId parent = 0;
    Text alternative;
    std::uint32_t area = 0;  // of a figure: index into areas_, plus one
  };
  struct Content {
    ElementId element;
    std::uint32_t page;
    std::uint32_t mcid;
  };
  struct Area {
    std::uint32_t page = 0;
    Length left, bottom, right, top;
  };
  struct Order;
  void write_root(FileWriter& file, ObjectId first) const;
  void write_element(std::string& out, ElementId id, ObjectId first,
                     const std::vector<Objects::PageObjects>& pages) const;
  void append_kids(std::string& out, ElementId id, ObjectId first,
                   const std::vector<Objects::PageObjects>& pages) const;
  static void append_cell(std::string& out, const Tag& cell);
  void append_attributes(std::string& out, ElementId id) const;
  void write_parent_tree(FileWriter& file, ObjectId first) const;
  void order_contents();
  ObjectId element_object(ObjectId first, ElementId id) const;
  std::size_t parent_tree_nodes() const;
  const Tag& tag(ElementId id) const { return tags_[id - 1]; }
  Tag& tag(ElementId id) { return tags_[id - 1]; }
  Text keep(std::string_view text);
  std::string_view text(const Text& place) const {
    return std::string_view(texts_).substr(place.begin, place.length);
  }

  std::deque<Tag> tags_;                        // by element
  std::map<ElementId, std::string> languages_;  // where one is stated
  std::string texts_;
  std::deque<Content> contents_;            // in the order of drawing
  std::vector<std::uint32_t> page_begins_;  // into contents_, by page
  std::vector<Area> areas_;                 // of figures
  // By element: its contents and its children, each in order.
  std::vector<std::uint32_t> content_begins_, content_order_;
  std::vector<std::uint32_t> child_begins_, children_;
  // By element: the first content of it or of what is in it.
  std::vector<std::uint32_t> first_contents_;
};

}  // namespace sheaf
