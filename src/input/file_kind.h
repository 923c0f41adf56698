#pragma once

#include <optional>
#include <string_view>

#include "base/diagnostics.h"
#include "base/value.h"

namespace sheaf {

/// The kinds of files that teachers write. They are told apart by their keys,
/// whatever a file is called and wherever it lies; only sentences, which are
/// plain text, are known by their name's end as well.
enum class FileKind { lesson, layout, sequence, learners, record, sentences };

/// "a lesson", "a layout" and so on, for messages.
std::string_view describe(FileKind kind);

/// The kind whose own keys the file has; a lesson where it has none of any.
FileKind kind_of(const Value& keys);
/// The same from a file's text; nothing where it cannot be read as keys, which
/// reading it as a lesson will tell.
std::optional<FileKind> kind_of(const SourceFile& file);

/// Whether a file has a key that only files of the kind have.
bool has_key_of(FileKind kind, const Value& keys);
/// The same of any text: where it cannot be read as keys, the first line that
/// begins with a key of one kind tells. A file about learners must be known as
/// one before a message shows what stands in it. A file whose name ends in
/// `.txt` holds sentences if none of its lines begins with such a key.
FileKind likely_kind(const SourceFile& file);

/// The key of any kind of file that a text begins with, behind comments and
/// empty lines; a list of sentences begins with none.
std::optional<Span> key_at_head(const SourceFile& file);

/// Whether a file is of the kind wanted; reports it where it is clearly of
/// another.
bool is_kind(FileKind wanted, const Value& keys, Diagnostics& diagnostics);

/// Whether some kind of file has a key of this name.
bool is_key_of_a_file(std::string_view name);

}  // namespace sheaf
