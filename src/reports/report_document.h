#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "layout/block.h"

namespace sheaf {

/// What reports are made with. All must outlive the making.
struct ReportMaker {
  Shaper& shaper;
  const Style& style;
  Document& document;
};

/// Adds a report to the document: `heading` at its head, the caution about
/// scores under it on every page, `code` in the footer (a date).
void add_report(const ReportMaker& maker, std::string heading,
                std::string title, std::string code,
                const std::function<void(Composer&)>& compose);

/// A heading inside a report.
void add_report_heading(Composer& composer, std::string_view text);

/// A cell of a grid: a figure, a word beneath it, and how grey it is.
struct GridCell {
  std::string figure;
  std::string below;
  Ink ground = kWhite;
  /// Too few to tell: a dashed frame.
  bool few = false;
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
