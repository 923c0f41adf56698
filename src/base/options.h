#pragma once

#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/diagnostics.h"
#include "base/length.h"
#include "base/value.h"

namespace sheaf {

/// One thing that a layout file may set. Limits and the default are written as
/// a teacher would write them, so that the same table checks the file, fills
/// what is left out and prints the manual.
struct OptionSpec {
  enum class Kind {
    length,  ///< a number with mm, cm, in or pt
    count,   ///< a whole number
    number,  ///< a number such as 1.5
    flag,    ///< yes or no
    choice,  ///< one of `choices`
    text,
    letters,  ///< a to z, A to Z and _, blanks between groups; may be empty
  };
  std::string_view name;
  Kind kind = Kind::text;
  std::string_view fallback;
  std::string_view help;
  std::string_view least = {};
  std::string_view most = {};
  /// Separated by spaces.
  std::string_view choices = {};
  /// Of a sheet's option: the layout's setting of the same name holds where
  /// the sheet's own entry does not say.
  bool from_layout = false;
};

using OptionTable = std::span<const OptionSpec>;

/// A number with its unit, as in "15 mm", "0.6in", "28 pt"; nothing where the
/// text is not one. A decimal comma is not read.
std::optional<Length> read_length(std::string_view text);
std::optional<double> read_number(std::string_view text);
std::optional<int> read_count(std::string_view text);
/// yes, no, on, off, true, false.
std::optional<bool> read_flag(std::string_view text);

/// The values of a table's options: what the file gives, checked, else the
/// defaults. Asking for a name or a kind that the table lacks is our mistake.
class OptionValues {
 public:
  OptionValues() = default;
  /// All defaults.
  explicit OptionValues(OptionTable table);

  Length length(std::string_view name) const;
  int count(std::string_view name) const;
  double number(std::string_view name) const;
  bool flag(std::string_view name) const;
  const std::string& choice(std::string_view name) const;
  const std::string& text(std::string_view name) const;  ///< letters too

  /// Where the file set it; no span for a default.
  Span span(std::string_view name) const;
  OptionTable table() const { return table_; }

  /// Sets one option from a file; reports what does not fit and leaves it
  /// then. `name` must be in the table.
  void set(std::string_view name, const Value& value, Diagnostics& diagnostics);
  /// Sets a choice from elsewhere (the command line); `value` must be one.
  void set_choice(std::string_view name, std::string value);
  /// Sets a length from elsewhere (a class file), or the nearest that the
  /// table allows.
  void set_length(std::string_view name, Length value);

 private:
  using Setting = std::variant<Length, int, double, bool, std::string>;
  struct Slot {
    Setting setting;
    Span span;
  };
  std::size_t index_of(std::string_view name) const;
  const Slot& slot(std::string_view name) const {
    return slots_[index_of(name)];
  }

  OptionTable table_;
  std::vector<Slot> slots_;
};

/// Reads `given` (keys with values, or null or nothing for all defaults)
/// against the table. `owner` names what the options belong to, for messages:
/// "the sheet `discovery`".
OptionValues read_options(OptionTable table, const Value* given,
                          std::string_view owner, Diagnostics& diagnostics);

}  // namespace sheaf
