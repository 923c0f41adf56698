#include "text/font_library.h"

#include <algorithm>

#include "base/diagnostics.h"
#include "base/error.h"
#include "base/shuffle.h"
#include "base/utf8.h"
#include "text/font_face.h"

#include <fmt/format.h>

namespace sheaf {

namespace {

constexpr std::string_view kPictureRole = "picture";

// A line of the manifest, or a face that a layout brought.
struct Face {
  std::string family;
  FontRole role = FontRole::regular;
  std::string path;  // empty for a face that was added
  std::unique_ptr<Font> font;
  bool is_picture = false;
  std::uint64_t hash = 0;  // of the bytes of one that was added
};

// A stream would take want of memory for the end of the list.
std::vector<std::string_view> pieces_of(std::string_view text, char separator) {
  std::vector<std::string_view> pieces;
  for (;;) {
    const std::size_t end = text.find(separator);
    pieces.push_back(text.substr(0, end));
    if (end == std::string_view::npos) return pieces;
    text.remove_prefix(end + 1);
  }
}

// Family, role and file are the first three columns; the others are there for
// people and for the test of the checksums.
Face read_line(const std::string& folder, std::string_view line) {
  const std::vector<std::string_view> cells = pieces_of(line, '\t');
  const bool whole = cells.size() >= 3 && !cells[0].empty() &&
                     (cells[1] == "regular" || cells[1] == "bold" ||
                      cells[1] == kPictureRole) &&
                     !cells[2].empty() &&
                     cells[2].find('/') == std::string::npos;
  if (!whole) {
    throw MachineError(
        fmt::format("a line of {}/manifest.tsv does not name a font: {}",
                    folder, sheaf::quoted(line)));
  }
  return {std::string(cells[0]),
          cells[1] == "bold" ? FontRole::bold : FontRole::regular,
          fmt::format("{}/{}", folder, cells[2]), nullptr,
          cells[1] == kPictureRole};
}

std::unique_ptr<Font> open(const ByteSource& source, const Face& face) {
  HbOwner<hb_blob_t> blob = font_blob(source.keep(face.path));
  std::string why;
  std::unique_ptr<Font> font = make_font(face.family, std::move(blob), why);
  if (!font) {
    throw MachineError(
        fmt::format("the font {} cannot be used: {}", face.path, why));
  }
  return font;
}

}  // namespace

struct FontLibrary::Impl {
  const ByteSource& source;
  std::string manifest;
  std::vector<Face> faces;
  std::string picture_file;  // empty where none is listed
  std::unique_ptr<GlyphOutlines> pictures;
  std::vector<std::string> files_read;
};

FontLibrary::FontLibrary(const ByteSource& source, const std::string& folder)
    : impl_(std::make_unique<Impl>(source)) {
  const std::string manifest = folder + "/manifest.tsv";
  if (!source.has_file(manifest)) {
    throw MachineError("cannot read the list of fonts " + manifest);
  }
  const KeptBytes list = source.keep(manifest);
  impl_->manifest = manifest;
  impl_->files_read.push_back(manifest);
  std::vector<std::string_view> lines = pieces_of(list.bytes, '\n');
  lines.erase(lines.begin());  // the names of the columns
  for (const std::string_view line : lines) {
    if (line.empty() || line[0] == '#') continue;
    Face face = read_line(folder, line);
    if (!source.has_file(face.path)) {
      throw MachineError(fmt::format("the font {}, which {} names, is missing",
                                     face.path, manifest));
    }
    if (face.is_picture) {
      impl_->picture_file = face.path;
    } else {
      impl_->faces.push_back(std::move(face));
    }
  }
  if (impl_->faces.empty()) {
    throw MachineError(fmt::format(
        "the list of fonts {} names no typeface; build or install Sheaf again",
        manifest));
  }
}

FontLibrary::~FontLibrary() = default;

const Font* FontLibrary::find(std::string_view family, FontRole role) {
  const std::string wanted = lower_case(family);
  Face* found = nullptr;
  for (Face& face : impl_->faces) {
    if (lower_case(face.family) != wanted) continue;
    if (!found || (found->role != role && face.role == role)) found = &face;
  }
  if (!found) return nullptr;
  if (!found->font) {
    found->font = open(impl_->source, *found);
    impl_->files_read.push_back(found->path);
  }
  return found->font.get();
}

std::vector<std::string> FontLibrary::families() const {
  std::vector<std::string> names;
  for (const Face& face : impl_->faces) {
    if (std::find(names.begin(), names.end(), face.family) == names.end()) {
      names.push_back(face.family);
    }
  }
  return names;
}

const Font* FontLibrary::add(std::string family, FontRole role,
                             std::string bytes, std::string& why) {
  // In an editor the same layout is read again and again.
  const std::uint64_t hash = text_hash(bytes);
  for (const Face& face : impl_->faces) {
    if (face.hash == hash && face.family == family && face.role == role) {
      return face.font.get();
    }
  }
  HbOwner<hb_blob_t> blob = font_blob(kept(std::move(bytes)));
  Face face{std::move(family), role, {}, nullptr, false, hash};
  face.font = make_font(face.family, std::move(blob), why);
  if (!face.font) return nullptr;
  // The newest comes first, so that a teacher's own face wins over a shipped
  // one of the same name.
  impl_->faces.insert(impl_->faces.begin(), std::move(face));
  return impl_->faces.front().font.get();
}

const GlyphOutlines& FontLibrary::pictures() {
  if (impl_->picture_file.empty()) {
    throw MachineError(impl_->manifest + " lists no font for pictures");
  }
  if (!impl_->pictures) {
    impl_->pictures = std::make_unique<GlyphOutlines>(
        impl_->source.keep(impl_->picture_file), impl_->picture_file);
    impl_->files_read.push_back(impl_->picture_file);
  }
  return *impl_->pictures;
}

std::vector<std::string> FontLibrary::files_read() const {
  return impl_->files_read;
}

}  // namespace sheaf
