#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "input/record_file.h"
#include "layout/block.h"
#include "layout/text_block.h"

namespace sheaf {

/// What reports are made with. All must outlive the making.
struct ReportMaker {
  Shaper& shaper;
  const Style& style;
  Document& document;
};

/// Stands under the heading of every page about a learner's progress.
inline constexpr std::string_view kPageCaution =
    "Scores describe the words dictated; they diagnose nothing.";

/// What stands at the head and at the foot of a report, and how it looks.
struct ReportHead {
  std::string heading;
  std::string title;  ///< at its right, may be empty
  std::string code;   ///< in the footer: a date
  /// The bookmark, and the heading as it is heard: no two of a file are alike.
  std::string bookmark;
  /// Under the heading of every page; empty for the caution of all scores.
  std::string_view caution = {};
  Length text_size = Length::from_pt(9);
  /// Says so at its right; else it is for whoever it is given to.
  bool for_teacher = true;
};

/// Whether what is composed takes one page. Nothing is added to the document.
bool fits_one_page(const ReportMaker& maker, const ReportHead& head,
                   const std::function<void(Composer&)>& compose);

/// What is left of the first page below what was composed so far.
Length room_left(Composer& composer);

/// A day of a school year for narrow places: "12 Jan".
std::string short_date(const Date& date);

/// Adds a report to the document, with the caution about scores under the
/// heading on every page.
void add_report(const ReportMaker& maker, ReportHead head,
                const std::function<void(Composer&)>& compose);

/// A text of our own whose counts are heard: "13/14" as "13 of 14".
std::vector<TextPiece> with_counts(const TextStyle& style,
                                   std::string_view text);

/// A heading inside a report.
void add_report_heading(Composer& composer, std::string_view text);

/// A cell of a grid: a figure, a word beneath it, and how grey it is. A
/// ground has a frame, heavy or thin, which is left of it on a photocopy.
struct GridCell {
  std::string figure;
  std::string below;
  Ink ground = kWhite;
  bool heavy_frame = false;
  /// Too few to tell: a dashed frame.
  bool few = false;
  /// The figure as it is said, "3 of 4", or what is said where there is none.
  /// Where it is empty, the figure stands for itself.
  std::string heard = {};
};
struct GridRow {
  std::string head;
  std::vector<GridCell> cells;
};

/// Adds a table of small cells; rows that do not fit beside each other go into
/// a second table. `heads` are over the cells, `corner` over the rows' heads.
void add_grid(Composer& composer, const std::string& corner,
              const std::vector<std::string>& heads,
              const std::vector<GridRow>& rows, Length head_width,
              Length least_cell);

}  // namespace sheaf
