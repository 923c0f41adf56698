#pragma once

#include <optional>
#include <string_view>

#include "files/files.h"
#include "pdf/own_pdf.h"
#include "planning/block_list.h"

namespace sheaf {

/// The kinds of files that Sheaf writes anew each time. Only one that it made
/// itself may be in the way.
enum class OwnKind {
  pdf,           ///< known by its first and its last object
  preview,       ///< a PNG file, known by its parts and their order
  dependencies,  ///< what `--deps` writes, known by its whole form
  review,        ///< what `review` writes, known by the comment at its head
  made_from,     ///< what packets were made from; a damaged one is one too
  blocked_words  ///< a list for `block`: its head, or nothing but such lines
};

/// Whether a text is of a kind that Sheaf writes. PDF and PNG are no texts.
bool is_own_text(OwnKind kind, std::string_view text);

/// Whether an open file is of the kind. Of a text, up to 4 MiB are read; what
/// is longer is not Sheaf's.
bool is_own(OwnKind kind, const OpenFile& file);
/// The same by name; a file that cannot be read is not Sheaf's.
bool is_own(OwnKind kind, const Files& files, const FilePath& path);
/// The PDF that Sheaf made, if it is one.
std::optional<OwnPdf> own_pdf(const Files& files, const FilePath& path);

/// What the writer of files knows of the kind.
const OwnForm& own_form(OwnKind kind);

/// The way out where `--pdf` names a file that is not Sheaf's. It names the
/// slip that is easily made: `--pdf records/*.yaml`.
inline constexpr std::string_view kPdfWayOut =
    "write the name of a PDF right after `--pdf`, as in `--pdf pages.pdf`";

/// The same of a picture of pages.
inline constexpr std::string_view kPreviewWayOut =
    "name another file with `--out`";

/// The same for packets.
inline constexpr std::string_view kPacketWayOut =
    "rename it, or name another folder with `--out`";

/// What a list of words that are not to be suggested begins with.
inline constexpr std::string_view kBlockedHead =
    "# Words that Sheaf does not suggest, as numbers made from them. Add some\n"
    "# with `sheaf block WORD`, or write a word here as it is.\n";
/// What the comment at the head of each file of `review` says.
inline constexpr std::string_view kByReview = "Written by `sheaf review`";

}  // namespace sheaf
