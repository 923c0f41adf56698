// Messages and their mends as data that outlives the text they are about.

#include <algorithm>

#include "service/state.h"

namespace sheaf {

namespace {

std::optional<TextRange> range_of(const Span& span) {
  if (!span || span.is_whole()) return std::nullopt;
  return TextRange{span.begin, span.end};
}

std::string path_of(const Span& span, const SourceFile& file) {
  return span ? span.file->name() : file.name();
}

// A mend without a place stands where its message does.
ServiceFix fix_of(const Fix& fix, const Diagnostic& message,
                  const SourceFile& file) {
  const Span& span = fix.span ? fix.span : message.span;
  ServiceFix result{.label = fix.label, .certain = fix.certain};
  if (const auto range = range_of(span)) {
    result.files.push_back({path_of(span, file), {{*range, fix.replacement}}});
  }
  return result;
}

}  // namespace

std::vector<ServiceMessage> messages_of(const Diagnostics& diagnostics,
                                        const SourceFile& file) {
  std::vector<ServiceMessage> messages;
  for (const Diagnostic* d : diagnostics.sorted()) {
    ServiceMessage message{.severity = d->severity,
                           .name = std::string(d->name->name),
                           .path = path_of(d->span, file),
                           .range = range_of(d->span),
                           .text = d->text,
                           .help = d->help};
    for (const Remark& remark : d->remarks) {
      message.remarks.push_back(
          {path_of(remark.span, file), range_of(remark.span), remark.text});
    }
    for (const Fix& fix : d->fixes) {
      ServiceFix made = fix_of(fix, *d, file);
      if (!made.files.empty()) message.fixes.push_back(std::move(made));
    }
    messages.push_back(std::move(message));
  }
  return messages;
}

}  // namespace sheaf
