#include "input/layout_file.h"

#include <fmt/format.h>

#include "input/fields.h"
#include "input/file_kind.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostSheets = 200;
constexpr std::string_view kLayoutExample = "sheets: [discovery, sound-boxes]";
constexpr std::string_view kHelp =
    "write one sheet on each line, as in `- discovery`; if a sheet has "
    "options, end its line with a colon, as in `- sound-boxes:`, and write "
    "them on the lines below it, two spaces further right";

// A sheet with options: one key whose value holds them.
bool read_entry(const Value& item, LayoutFile::SheetEntry& entry,
                Diagnostics& diagnostics) {
  if (item.kind == Value::Kind::text) {
    const PlacedText kind = item.text.squeezed();
    entry.kind = {kind.text(), kind.span()};
    entry.options.span = kind.span();
    return true;
  }
  if (item.kind == Value::Kind::keys && item.entries.size() == 1) {
    entry.kind = item.entries.front().key;
    entry.options = item.entries.front().value;
    return true;
  }
  if (item.kind == Value::Kind::keys && item.entries.size() > 1) {
    diagnostics.error(
        diagnostic::wrong_indentation, item.entries[1].key.span,
        fmt::format("{} is level with the sheet {}, not under it",
                    as_written(item.entries[1].key.value),
                    as_written(item.entries[0].key.value)),
        "begin the options of a sheet two spaces further right than its name");
  } else {
    diagnostics.error(
        diagnostic::wrong_value, item.span,
        fmt::format("there is {} where a sheet should be",
                    item.kind == Value::Kind::keys ? "an empty pair of braces"
                                                   : describe(item.kind)),
        std::string(kHelp));
  }
  return false;
}

void read_sheets(const Value& value, LayoutFile& layout,
                 Diagnostics& diagnostics) {
  if (value.kind != Value::Kind::list || value.items.empty()) {
    report_wrong_kind({"sheets", value, kLayoutExample}, diagnostics);
    return;
  }
  for (const Value& item : value.items) {
    if (layout.sheets.size() == kMostSheets) {
      diagnostics.error(diagnostic::too_many, item.span,
                        fmt::format("there are more than {} sheets before this "
                                    "one",
                                    kMostSheets),
                        "split them into several layouts");
      return;
    }
    LayoutFile::SheetEntry entry;
    if (read_entry(item, entry, diagnostics)) {
      layout.sheets.push_back(std::move(entry));
    }
  }
}

}  // namespace

LayoutFile read_layout_file(const SourceFile& file, Diagnostics& diagnostics) {
  auto keys = read_keys(file, "a layout", kLayoutExample, diagnostics);
  if (!keys || !is_kind(FileKind::layout, *keys, diagnostics)) {
    LayoutFile layout;
    layout.file = &file;
    layout.settings.kind = Value::Kind::keys;
    return layout;
  }
  return read_layout_keys(file, std::move(*keys), diagnostics);
}

LayoutFile read_layout_keys(const SourceFile& file, Value keys,
                            Diagnostics& diagnostics) {
  LayoutFile layout;
  layout.file = &file;
  layout.settings.kind = Value::Kind::keys;
  layout.settings.span = keys.span;
  if (keys.find("sheets") == nullptr) {
    diagnostics.error(diagnostic::missing_key,
                      keys.entries.empty() ? Span{&file, 0, 0}
                                           : keys.entries.front().key.span,
                      "the layout names no sheets",
                      fmt::format("add a line such as `{}`", kLayoutExample));
  }
  for (ValueEntry& entry : keys.entries) {
    if (entry.key.value == "sheaf") {
      Spanned<int> version{.value = 1};
      read_version(entry.value, version, diagnostics);
    } else if (entry.key.value == "sheets") {
      read_sheets(entry.value, layout, diagnostics);
    } else if (entry.key.value == "accent") {
      layout.conventions.accent = read_short_text(
          {"accent", entry.value, "accent: british"}, diagnostics);
    } else if (entry.key.value == "conventions") {
      layout.conventions.conventions = read_pairs(
          {"conventions", entry.value, "conventions: {qu: one}"}, diagnostics);
    } else {
      layout.settings.entries.push_back(std::move(entry));
    }
  }
  return layout;
}

}  // namespace sheaf
