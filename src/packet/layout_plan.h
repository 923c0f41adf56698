#pragma once

#include <vector>

#include "base/options.h"
#include "input/layout_file.h"
#include "sheets/sheet.h"

namespace sheaf {

/// A layout file read against the tables of the sheets that it names.
struct LayoutPlan {
  struct Sheet {
    const SheetKind* kind = nullptr;
    OptionValues options;
    Span span;
    /// More practice for one learner: printed after the week's sheets, on no
    /// day.
    bool extra = false;
  };
  OptionValues settings;
  std::vector<Sheet> sheets;
};

/// Reports unknown sheets and options, and values that do not fit.
LayoutPlan plan_layout(const LayoutFile& file, Diagnostics& diagnostics);

/// The options of a sheet that the layout does not list: as they come, with
/// what sheets take from the layout's settings.
OptionValues default_options(const SheetKind& kind,
                             const OptionValues& settings);

}  // namespace sheaf
