#include "base/diagnostics.h"

#include <algorithm>
#include <array>

#include "base/private_text.h"
#include "base/utf8.h"
#include "base/written_text.h"

namespace sheaf {

namespace {

#define SHEAF_DIAGNOSTIC_INDEX(id, meaning) k_##id,
enum { SHEAF_DIAGNOSTIC_NAMES(SHEAF_DIAGNOSTIC_INDEX) kNameCount };
#undef SHEAF_DIAGNOSTIC_INDEX

// Names are written with underscores in C++ and with hyphens for people.
template <std::size_t size>
struct Hyphenated {
  std::array<char, size> text{};
  explicit constexpr Hyphenated(const char (&id)[size]) {
    for (std::size_t i = 0; i < size; ++i) text[i] = id[i] == '_' ? '-' : id[i];
  }
};

#define SHEAF_DIAGNOSTIC_TEXT(id, meaning) \
  constexpr Hyphenated k_text_##id(#id);
SHEAF_DIAGNOSTIC_NAMES(SHEAF_DIAGNOSTIC_TEXT)
#undef SHEAF_DIAGNOSTIC_TEXT

#define SHEAF_DIAGNOSTIC_ENTRY(id, meaning) \
  DiagnosticName{k_text_##id.text.data(), meaning},
constexpr std::array<DiagnosticName, kNameCount> kNames = {
    SHEAF_DIAGNOSTIC_NAMES(SHEAF_DIAGNOSTIC_ENTRY)};
#undef SHEAF_DIAGNOSTIC_ENTRY

}  // namespace

namespace diagnostic {
#define SHEAF_DIAGNOSTIC_CONSTANT(id, meaning) \
  const DiagnosticName& id = kNames[k_##id];
SHEAF_DIAGNOSTIC_NAMES(SHEAF_DIAGNOSTIC_CONSTANT)
#undef SHEAF_DIAGNOSTIC_CONSTANT
}  // namespace diagnostic

std::span<const DiagnosticName> diagnostic_names() { return kNames; }

namespace {

// Around what stands in the file; no text that is shown has them.
constexpr char kWrittenBegin = '\x02';
constexpr char kWrittenEnd = '\x03';

bool has_written(std::string_view text) {
  return text.find(kWrittenBegin) != std::string_view::npos;
}

// A text without the signs and, where it is to be `hidden`, without what may be
// a name between them.
std::string resolved(std::string text, bool hidden) {
  if (!has_written(text)) return text;
  std::string result;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin =
        std::min(text.find(kWrittenBegin, at), text.size());
    const std::size_t end =
        std::min(text.find(kWrittenEnd, begin), text.size());
    result.append(text, at, begin - at);
    if (begin == text.size()) break;
    std::string part = text.substr(begin + 1, end - begin - 1);
    if (hidden) part = without_names(part);
    result += result.empty() && part == "`…`" ? "this" : part;
    at = end + 1;
  }
  return result;
}

void resolve(Fix& fix) {
  const bool hidden = fix.span && fix.span.file->is_private();
  if (hidden && has_written(fix.label)) {
    fix.label = "what stood here is put right";
  } else {
    fix.label = resolved(std::move(fix.label), hidden);
  }
}

}  // namespace

Diagnostic& Diagnostics::add(Severity severity, const DiagnosticName& name,
                             Span span, std::string text, Help help) {
  for (Fix& fix : help.fixes) {
    if (!fix.span) fix.span = span;
  }
  std::erase_if(help.fixes, [](const Fix& fix) {
    return !fix.span || fix.span.is_whole();
  });
  for (Fix& fix : help.fixes) resolve(fix);
  const bool hidden = span && span.file->is_private();
  text = resolved(std::move(text), hidden);
  help.text = resolved(std::move(help.text), hidden);
  all_.push_back(std::make_unique<Diagnostic>(Diagnostic{severity,
                                                         &name,
                                                         span,
                                                         std::move(text),
                                                         std::move(help.text),
                                                         {},
                                                         std::move(help.fixes),
                                                         {}}));
  return *all_.back();
}

Diagnostic& Diagnostics::error(const DiagnosticName& name, Span span,
                               std::string text, Help help) {
  ++errors_;
  return add(Severity::error, name, span, std::move(text), std::move(help));
}

Diagnostic& Diagnostics::warning(const DiagnosticName& name, Span span,
                                 std::string text, Help help) {
  ++warnings_;
  return add(Severity::warning, name, span, std::move(text), std::move(help));
}

Diagnostic& Diagnostics::note(const DiagnosticName& name, Span span,
                              std::string text, Help help) {
  return add(Severity::note, name, span, std::move(text), std::move(help));
}

std::vector<const Diagnostic*> Diagnostics::sorted() const {
  std::vector<const SourceFile*> files = {nullptr};
  const auto file_order = [&](const SourceFile* file) {
    const auto found = std::ranges::find(files, file);
    if (found != files.end()) return found - files.begin();
    files.push_back(file);
    return static_cast<std::ptrdiff_t>(files.size()) - 1;
  };
  struct Ranked {
    std::ptrdiff_t file;
    const Diagnostic* diagnostic;
  };
  std::vector<Ranked> ranked;
  ranked.reserve(all_.size());
  for (const auto& d : all_) {
    ranked.push_back({file_order(d->span.file), d.get()});
  }
  std::ranges::stable_sort(ranked, {}, [](const Ranked& r) {
    return std::pair(r.file, r.diagnostic->span.begin);
  });
  std::vector<const Diagnostic*> result;
  result.reserve(ranked.size());
  for (const Ranked& r : ranked) result.push_back(r.diagnostic);
  return result;
}

namespace {

// Without what no terminal should show, and cut short.
std::string shortened(std::string_view text) {
  constexpr int kLongest = 40;
  const std::string shown =
      printable(text.substr(0, std::size_t{8} * kLongest));
  const auto parts = characters(shown);
  if (static_cast<int>(parts.size()) <= kLongest) return shown;
  std::string cut;
  for (int i = 0; i < kLongest - 1; ++i) cut += parts[i];
  return cut + "…";
}

}  // namespace

std::string quoted(std::string_view text) {
  return "`" + shortened(text) + "`";
}

std::string written(std::string_view text) {
  return kWrittenBegin + std::string(text) + kWrittenEnd;
}

std::string as_written(std::string_view text) { return written(quoted(text)); }

std::string as_written_in(std::string message, std::string_view written) {
  const std::string shown = quoted(written);
  if (const auto at = message.find(shown); at != std::string::npos) {
    message.replace(at, shown.size(), as_written(written));
  }
  return message;
}

std::string is_now(std::string_view wrong, std::string_view right) {
  return written(shortened(wrong)) + " is now " + written(shortened(right));
}

}  // namespace sheaf
