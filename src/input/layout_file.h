#pragma once

#include <string>
#include <vector>

#include "base/diagnostics.h"
#include "base/value.h"
#include "input/convention_settings.h"

namespace sheaf {

/// A layout file as it was written: page settings and an ordered list of
/// sheets, each with options that only its kind can read. All are handed on
/// unread; `input` knows the form of the file, not what a sheet is made of.
struct LayoutFile {
  struct SheetEntry {
    Spanned<std::string> kind;
    /// Keys with values, or nothing where the sheet has no options of its own.
    Value options;
  };
  const SourceFile* file = nullptr;
  /// Every key of the file but `sheaf`, `sheets`, `accent` and `conventions`,
  /// as keys with values.
  Value settings;
  /// For the lessons that are printed in it.
  ConventionSettings conventions;
  std::vector<SheetEntry> sheets;
};

/// Reads a layout file. Reports what is wrong with its form.
LayoutFile read_layout_file(const SourceFile& file, Diagnostics& diagnostics);

/// The same of a layout whose keys stand in `file`, a lesson, under `layout:`.
LayoutFile read_layout_keys(const SourceFile& file, Value keys,
                            Diagnostics& diagnostics);

}  // namespace sheaf
