#pragma once

#include <memory>
#include <string>
#include <vector>

#include "driver/workspace.h"
#include "packet/packet.h"

namespace sheaf::test {

/// A lesson made into pages within the test's own process.
struct Made {
  std::unique_ptr<PreparedLesson> lesson;
  Packet packet;
  std::string about;
  std::string faults;  ///< messages, where some are errors
};

/// `lesson` and `layout` are files, or `layout` is the name of one of ours.
/// Where it cannot be read the test fails and `lesson` stays empty.
Made make(Workspace& workspace, const std::string& lesson,
          const std::string& layout, const std::string& paper,
          const std::vector<std::string>& only);

/// Small letters of a text: from the base line up by half its size.
Rect ink_of_text(const GlyphMark& text);

/// All that is inked of a text.
Rect exact_ink(const GlyphMark& text);

/// Texts and pictures do not stand on each other.
void check_overlaps(const Page& page, const std::string& where);
/// No line runs through letters, but the one that they stand on.
void check_lines(const Page& page, const std::string& where);
/// Nothing is nearer to the edge than printers reach.
void check_edges(const Page& page, const std::string& where);
/// Type and rules are not smaller than readers and copiers can take.
void check_type(const Page& page, const Style& style, bool for_learner,
                const std::string& where);

}  // namespace sheaf::test
