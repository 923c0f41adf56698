#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "layout/page.h"
#include "layout/style.h"
#include "packet/layout_plan.h"

namespace sheaf {

struct CardEvidence;
class SharedMemory;

/// What one lesson prints: the learner's pages and the teacher's.
struct Packet {
  Document learner;
  Document teacher;
  /// The sheets of the learner's week, by day, whichever of them are printed.
  struct Sheet {
    const SheetKind* kind = nullptr;
    int day = 0;  ///< 0: when there is time
    int last_day = 0;
    bool cards = false;  ///< something is cut out for it
  };
  std::vector<Sheet> sheets;
  int days = 0;
};

/// Whom pages are for, where they are for learners of a class.
struct PacketFor {
  /// Their short codes: one for a learner's packet, all who share them for the
  /// teacher's pages.
  std::vector<std::string> learners = {};
  bool learner_pages = true;
  bool teacher_pages = true;
  /// The leaf with what the learner cuts out.
  bool cut_leaf = true;
  /// What their records say, if they are read (see SheetInput).
  const CardEvidence* cards = nullptr;
  /// What was worked out for others with the same words; null: for nobody else.
  SharedMemory* shared = nullptr;
};

/// Chooses the layout's sheets that the lesson has something for, gives each
/// its day, composes them and puts them on pages: sheets to be cut on leaves of
/// their own. `only` keeps the named kinds, and adds those that the layout
/// lacks; empty keeps all of the layout. Notes say which
/// sheets were left out and why. What does not fit the paper is an error, and
/// so are more pages than a packet may have (page_limit.h); the packet is not
/// to be used then.
Packet make_packet(const AnalyzedLesson& lesson, const LayoutPlan& layout,
                   const LessonPictures& pictures, const Style& style,
                   Shaper& shaper, const std::vector<std::string>& only,
                   Diagnostics& diagnostics, const PacketFor& whom = {});

/// The packets of several learners as one job of the printer.
class PrintRun {
 public:
  /// Readies a packet to follow those before: it begins a leaf of its own, and
  /// its outline and labels bear the learner's code.
  void add(Document& packet, std::string_view learner);

 private:
  std::size_t pages_ = 0;
  Size last_size_;
};

/// Reports text of the lesson that the typefaces cannot print. To be called,
/// and found without errors, before `make_packet`.
void check_typefaces(const Lesson& lesson, const OptionValues& settings,
                     const Style& style, Diagnostics& diagnostics);

}  // namespace sheaf
