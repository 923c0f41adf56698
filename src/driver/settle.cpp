// A lesson with every choice written out, so that one file makes the same pages
// elsewhere.

#include "driver/settle.h"

#include <fmt/format.h>

#include <deque>

#include "base/base64.h"
#include "base/utf8.h"
#include "driver/settle_text.h"
#include "files/files.h"
#include "pdf/pdf_writer.h"
#include "pictures/decode_image.h"
#include "pictures/emoji.h"

namespace sheaf {

namespace {

// What fits into a lesson file with all else that stands there.
constexpr std::size_t kMostPictureBytes = std::size_t{2} << 20U;

using Pictures = std::vector<std::pair<std::string, std::string>>;

std::string kind_of_picture(std::string_view bytes) {
  return bytes.starts_with("\x89PNG") ? "png" : "jpeg";
}

// The lesson's pictures as text that can stand in it.
std::optional<Pictures> embedded(const Workspace& workspace,
                                 const LessonRequest& request,
                                 const Lesson& lesson, const FilePath& folder,
                                 std::string& why) {
  Pictures pictures;
  std::size_t size = 0;
  // With a structured binding clang-tidy 16 falls over.
  for (const auto& picture : lesson.pictures) {
    const PlacedWord& word = picture.first;
    const PlacedWord& name = picture.second;
    if (looks_like_emoji(name.value) ||
        name.value.starts_with(kEmbeddedPicture)) {
      pictures.emplace_back(word.value, name.value);
      continue;
    }
    const auto path =
        find_named_file(workspace.files(), name.value, folder,
                        workspace.shipped(), request.allowed_folders);
    if (!path) return std::nullopt;  // said before
    const std::string bytes = workspace.files().read(*path, kMaxImageBytes);
    size += bytes.size();
    if (size > kMostPictureBytes) {
      why = fmt::format(
          "{} and the pictures before it are over {} MB together, too much to "
          "be put into a lesson; make them smaller",
          printable(path->string()), kMostPictureBytes >> 20U);
      return std::nullopt;
    }
    pictures.emplace_back(
        word.value, fmt::format("{}{};base64,{}", kEmbeddedPicture,
                                kind_of_picture(bytes), to_base64(bytes)));
  }
  return pictures;
}

// The bytes of both packets; the teacher's are left out where the learner's
// are not those of `wanted`.
struct PageBytes {
  std::string learner, teacher;
  bool operator==(const PageBytes&) const = default;
};

PageBytes pages_of(Workspace& workspace, const PreparedLesson& lesson,
                   Diagnostics& diagnostics,
                   const PageBytes* wanted = nullptr) {
  const Packet packet =
      make_packet(lesson.analyzed, lesson.layout, *lesson.pictures,
                  lesson.style, workspace.shaper(), {}, diagnostics);
  const auto written = [](const Document& document) {
    return document.pages.empty() ? std::string() : write_pdf(document);
  };
  PageBytes bytes{written(packet.learner), {}};
  if (wanted != nullptr && bytes.learner != wanted->learner) return bytes;
  bytes.teacher = written(packet.teacher);
  return bytes;
}

// Typefaces that stand in files of their own.
std::vector<std::string> typeface_files(const PreparedLesson& lesson) {
  std::vector<std::string> files;
  for (const char* option : {"typeface", "bold-typeface"}) {
    const std::string& name = lesson.layout.settings.text(option);
    if (!name.ends_with(".ttf") && !name.ends_with(".otf")) continue;
    files.push_back(name);
  }
  return files;
}

class Settling {
 public:
  Settling(Workspace& workspace, const LessonRequest& request,
           const PreparedLesson& lesson, PageBytes pages, FilePath folder)
      : workspace_(workspace),
        request_(request),
        lesson_(lesson),
        pages_(std::move(pages)),
        folder_(std::move(folder)) {}

  // The fullest text that makes the same pages; nothing where none does.
  std::optional<std::string> run(const Pictures& pictures, std::string& why) {
    for (const bool splits : {true, false}) {
      for (const bool sort_words : {true, false}) {
        auto text = settled_text(lesson_, pictures, {splits, sort_words}, why);
        if (!text) return std::nullopt;
        if (comes_out_the_same(*text)) return text;
      }
    }
    why = "its pages would not come out the same";
    return std::nullopt;
  }

 private:
  bool comes_out_the_same(const std::string& text) {
    const SourceFile& file =
        texts_.emplace_back(lesson_.lesson.file->name(), text);
    LessonRequest own = request_;
    own.layout.clear();
    Diagnostics unheard;
    const auto settled = prepare_text(workspace_, own, file, folder_, unheard);
    return settled != nullptr &&
           pages_of(workspace_, *settled, unheard, &pages_) == pages_;
  }

  Workspace& workspace_;
  const LessonRequest& request_;
  const PreparedLesson& lesson_;
  PageBytes pages_;
  FilePath folder_;
  std::deque<SourceFile> texts_;
};

}  // namespace

Settled settle(Workspace& workspace, const LessonRequest& request,
               const std::string& path, Diagnostics& diagnostics) {
  Settled settled;
  const FilePath folder = FilePath(path).parent_path();
  const auto lesson = prepare(workspace, request, path, diagnostics);
  PageBytes pages;
  if (lesson != nullptr) pages = pages_of(workspace, *lesson, diagnostics);
  if (diagnostics.has_errors()) return settled;
  if (lesson->lesson.placement.given()) {
    settled.why =
        "a placement check has nothing left to choose; send it as it is, with "
        "its sequence";
    return settled;
  }
  const auto pictures =
      embedded(workspace, request, lesson->lesson, folder, settled.too_large);
  if (!pictures) return settled;
  settled.text = Settling(workspace, request, *lesson, std::move(pages), folder)
                     .run(*pictures, settled.why);
  settled.typefaces = typeface_files(*lesson);
  return settled;
}

}  // namespace sheaf
