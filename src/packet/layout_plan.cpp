#include "packet/layout_plan.h"

#include <fmt/format.h>

#include "base/nearest.h"
#include "layout/style.h"

namespace sheaf {

namespace {

// What the sheet's own entry does not say and the layout's settings do.
void take_from_layout(OptionValues& options, const OptionValues& settings) {
  for (const OptionSpec& spec : options.table()) {
    if (!spec.from_layout || options.span(spec.name)) continue;
    options.set_length(spec.name, settings.length(spec.name));
  }
}

}  // namespace

OptionValues default_options(const SheetKind& kind,
                             const OptionValues& settings) {
  OptionValues options(kind.options);
  take_from_layout(options, settings);
  return options;
}

LayoutPlan plan_layout(const LayoutFile& file, Diagnostics& diagnostics) {
  LayoutPlan plan;
  plan.settings =
      read_options(page_options(), &file.settings, "a layout", diagnostics);
  std::vector<std::string_view> names;
  for (const SheetKind* kind : sheet_kinds()) names.push_back(kind->name);
  for (const LayoutFile::SheetEntry& entry : file.sheets) {
    const SheetKind* kind = find_sheet_kind(entry.kind.value);
    if (kind == nullptr) {
      Help nearest =
          did_you_mean(entry.kind.value, names, Suggests::fixed_choice);
      diagnostics.error(
          diagnostic::unknown_sheet, entry.kind.span,
          fmt::format("there is no sheet called {}",
                      as_written(entry.kind.value)),
          nearest.empty() ? "`sheaf sheets` lists them" : std::move(nearest));
      continue;
    }
    OptionValues options =
        read_options(kind->options, &entry.options,
                     fmt::format("the sheet `{}`", kind->name), diagnostics);
    take_from_layout(options, plan.settings);
    plan.sheets.push_back({kind, std::move(options), entry.kind.span});
  }
  return plan;
}

}  // namespace sheaf
