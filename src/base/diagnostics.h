#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic_names.h"
#include "base/source.h"

namespace sheaf {

enum class Severity { error, warning, note };

/// A remark that belongs to a message, with a place of its own if it has one.
struct Remark {
  Span span;
  std::string text;
};

/// A mend that can be put into the file: `replacement` takes the place of
/// `span`, which has no bytes where something is only put in, and no file
/// where it is that of the message. `label` says what has changed then, for
/// the teacher, as "Ship is now ship".
struct Fix {
  Span span;
  std::string replacement;
  std::string label;
  /// Putting it in cannot change what the teacher meant.
  bool certain = false;
};

/// What to do about a message, said to the teacher and, where the mend is
/// known exactly, as text to put into the file.
struct Help {
  Help() = default;
  Help(std::string said, std::vector<Fix> mends = {})
      : text(std::move(said)), fixes(std::move(mends)) {}
  Help(const char* said) : text(said) {}

  bool empty() const { return text.empty(); }

  std::string text;
  std::vector<Fix> fixes;
};

/// One message about a teacher's file, as data. `text` says what was found, in
/// lower case, without a full stop, with the teacher's own words in backticks;
/// only `help` says what to do about it.
struct Diagnostic {
  Severity severity = Severity::error;
  const DiagnosticName* name = nullptr;
  Span span;
  std::string text;
  std::string help;
  std::vector<Remark> remarks;
  /// Mends, the likeliest first. All that are certain belong together; of the
  /// others one is to be chosen.
  std::vector<Fix> fixes;
  /// What it is about where that must not be shown: it may be a name. Never
  /// printed.
  Span unshown;
};

/// Collects messages while a stage works. A stage reports all it can find; the
/// next stage runs only if no error stands.
class Diagnostics {
 public:
  Diagnostic& error(const DiagnosticName& name, Span span, std::string text,
                    Help help = {});
  Diagnostic& warning(const DiagnosticName& name, Span span, std::string text,
                      Help help = {});
  Diagnostic& note(const DiagnosticName& name, Span span, std::string text,
                   Help help = {});

  bool has_errors() const { return errors_ > 0; }
  int error_count() const { return errors_; }
  int warning_count() const { return warnings_; }

  /// The messages by file (in order of first mention), then by place. Messages
  /// without a place come first.
  std::vector<const Diagnostic*> sorted() const;

 private:
  Diagnostic& add(Severity severity, const DiagnosticName& name, Span span,
                  std::string text, Help help);

  std::vector<std::unique_ptr<Diagnostic>> all_;
  int errors_ = 0;
  int warnings_ = 0;
};

/// The label of a fix that puts `right` where `wrong` stood; for `Diagnostics`
/// alone, as `as_written`.
std::string is_now(std::string_view wrong, std::string_view right);

/// Puts a teacher's own text into a message: in backticks, unprintable
/// characters made visible, and cut short if it is long.
std::string quoted(std::string_view text);
/// The same for what stands in the file that a message is about, in its text,
/// its help or a fix's label: it is left out where the file is about learners
/// and the text may be a name. For `Diagnostics` alone, which takes out the
/// signs by which it knows the text again.
std::string as_written(std::string_view text);
/// A message in which `quoted(written)` was put already, as if it had been
/// `as_written(written)`.
std::string as_written_in(std::string message, std::string_view written);

struct PrintOptions {
  bool colour = false;
  /// How many messages to print before saying how many more there are.
  int limit = 100;
};

/// The messages as a teacher reads them:
///     file:line:column: error: text [name]
///       3 | the line of the file
///         |     ^~~~
///       help: what to do
std::string to_text(const Diagnostics& diagnostics,
                    const PrintOptions& options = {});

}  // namespace sheaf
