#include "layout/heard.h"

#include <fmt/format.h>

namespace sheaf {

ElementId add_heard(Composer& composer, ElementId parent, std::string text) {
  return composer.add(Role::span, parent, std::move(text));
}

ElementId add_blank(Composer& composer, ElementId parent) {
  return add_heard(composer, parent, "blank");
}

ElementId add_tick_boxes(Composer& composer, ElementId parent, int count) {
  return composer.add(
      Role::figure, parent,
      count == 1 ? "tick box" : fmt::format("{} tick boxes", count));
}

ElementId add_writing_lines(Composer& composer, ElementId parent, int count) {
  return composer.add(Role::figure, parent,
                      count == 1 ? "a line to write on"
                                 : fmt::format("{} lines to write on", count));
}

}  // namespace sheaf
