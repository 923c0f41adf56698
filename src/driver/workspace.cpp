#include "driver/workspace.h"

#include <fmt/format.h>

#include "analysis/capitals.h"
#include "analysis/lesson_conventions.h"
#include "analysis/placement_check.h"
#include "analysis/word_games.h"
#include "base/base64.h"
#include "base/error.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "driver/find_layout.h"
#include "driver/planning_ground.h"
#include "driver/tell_words.h"
#include "files/files.h"
#include "input/sentence_file.h"
#include "phonics/own_pattern.h"
#include "pictures/decode_image.h"
#include "pictures/emoji.h"
#include "planning/chain_search.h"
#include "planning/near_pairs.h"

namespace sheaf {

namespace {
// A font larger than this is not one for a worksheet.
constexpr std::size_t kLargestFont = std::size_t{16} << 20U;
constexpr std::size_t kLargestFile = std::size_t{4} << 20U;
}  // namespace

// What is costly to read and the same for all texts. Each is read when it is
// first asked for.
struct Workspace::Shelf {
  std::unique_ptr<Phonics> phonics;
  std::unique_ptr<FontLibrary> fonts;
  std::unique_ptr<PictureBook> pictures;
  Shaper shaper;
};

Workspace::Workspace(Files& files, FilePath shipped)
    : files_(files),
      shipped_(std::move(shipped)),
      shelf_(std::make_shared<Shelf>()) {}
Workspace::Workspace(const Workspace& other)
    : files_(other.files_), shipped_(other.shipped_), shelf_(other.shelf_) {}
Workspace::~Workspace() = default;

Shaper& Workspace::shaper() { return shelf_->shaper; }

const Phonics& Workspace::phonics() {
  if (shelf_->phonics == nullptr) {
    shelf_->phonics = std::make_unique<Phonics>(files_, word_list());
  }
  return *shelf_->phonics;
}

std::unique_ptr<Phonics> Workspace::phonics_with_own(const Lesson& lesson,
                                                     Diagnostics& diagnostics) {
  std::vector<std::string> own;
  for (const PlacedWord& pattern : lesson.patterns) {
    if (!is_own_pattern(pattern.value)) continue;
    const std::string fault = phonics().fault_of_own_pattern(pattern.value);
    if (fault.empty()) {
      own.push_back(pattern.value);
      continue;
    }
    diagnostics.error(diagnostic::unknown_pattern, pattern.span,
                      fmt::format("this is not a pattern: {}", fault),
                      "write each grapheme with its sound between slashes, as "
                      "in `ch=/k/ que=/k/`");
  }
  if (own.empty()) return nullptr;
  return std::make_unique<Phonics>(files_, word_list(), own);
}

FontLibrary& Workspace::fonts() {
  if (shelf_->fonts == nullptr) {
    shelf_->fonts =
        std::make_unique<FontLibrary>(files_, (shipped_ / "fonts").string());
  }
  return *shelf_->fonts;
}

PictureBook& Workspace::pictures() {
  if (shelf_->pictures == nullptr) {
    shelf_->pictures = std::make_unique<PictureBook>(fonts());
  }
  return *shelf_->pictures;
}

std::optional<FilePath> Workspace::find_file(
    std::string_view name, const FilePath& folder,
    const std::vector<std::string>& allowed_folders) {
  const auto found =
      find_named_file(files_, name, folder, shipped_, allowed_folders);
  std::vector<FilePath> places = {folder, shipped_};
  places.insert(places.end(), allowed_folders.begin(), allowed_folders.end());
  for (const FilePath& place : places) {
    if (found == place / name) break;
    files_read_.add_missing((place / name).string());
  }
  return found;
}

bool Workspace::has_file(const FilePath& path) {
  if (files_.is_file(path)) return true;
  files_read_.add_missing(path.string());
  return false;
}

std::string Workspace::read(const FilePath& path, std::size_t limit) {
  std::string bytes = files_.read(path, limit);
  files_read_.add(path.string(), bytes);
  return bytes;
}

const SourceFile& Workspace::open(const FilePath& path) {
  std::string text = read(path, kLargestFile);
  return sources_.emplace_back(path.string(), std::move(text));
}

namespace {

// What `read` makes of a file, kept where it has no errors; null where it has.
template <typename File, typename Read>
const File* read_once(Workspace& workspace, const FilePath& path,
                      std::map<FilePath, std::unique_ptr<File>>& kept,
                      Diagnostics& diagnostics, Read read) {
  auto& file = kept[path];
  if (file != nullptr) {
    workspace.files_read().add_again(path.string());
    return file.get();
  }
  const int errors = diagnostics.error_count();
  file = std::make_unique<File>(read(workspace.open(path), diagnostics));
  if (diagnostics.error_count() == errors) return file.get();
  kept.erase(path);
  return nullptr;
}

}  // namespace

const SequenceFile* Workspace::sequence(const FilePath& path,
                                        Diagnostics& diagnostics) {
  return read_once(*this, path, sequences_, diagnostics, read_sequence);
}

const LayoutFile* Workspace::layout(const FilePath& path,
                                    Diagnostics& diagnostics) {
  return read_once(*this, path, layouts_, diagnostics, read_layout_file);
}

const OwnSentences* Workspace::sentences(const FilePath& path,
                                         Diagnostics& diagnostics) {
  return read_once(*this, path, sentences_, diagnostics,
                   [](const SourceFile& file, Diagnostics& found) {
                     const SentenceFile read =
                         read_sentence_file(file, TellSlips::no, found);
                     OwnSentences own;
                     for (const PlacedText& line : read.sentences) {
                       own.add(line.text());
                     }
                     return own;
                   });
}

std::vector<std::string> Workspace::shared_files() {
  std::vector<std::string> files = fonts().files_read();
  files.push_back(word_list());
  return files;
}

namespace {

// The layout that the command line or the lesson asks for.
std::optional<FilePath> layout_of(Workspace& workspace,
                                  const LessonRequest& request,
                                  const Lesson& lesson, const FilePath& folder,
                                  Diagnostics& diagnostics) {
  if (request.layout.ends_with(".yaml")) return FilePath(request.layout);
  PlacedWord name = lesson.layout;
  if (!request.layout.empty()) name = {request.layout, {}};
  if (name.value.empty()) name.value = "week";
  return find_layout(workspace, request.allowed_folders, name, folder,
                     diagnostics);
}

// What Sheaf's own words on the pages are written with.
std::string_view lacking(const Font& font) {
  constexpr std::string_view kNeeded =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 "
      ".,:;!?'\"()+-/=%&\u201C\u201D\u2019\u2013\u00B7";
  for (const std::string_view character : characters(kNeeded)) {
    if (!font.covers(character)) return character;
  }
  return {};
}

// Kinds of font files that Sheaf does not read, by the ends of their names.
struct OtherFontFile {
  std::string_view end, what, help;
};
constexpr std::string_view kTakeDesktopFont =
    "use the typeface's .ttf or .otf file instead, which its maker offers "
    "for desktops, or leave this out for Andika";
constexpr std::string_view kTakeOneFace =
    "use a .ttf or .otf file with the one typeface that you want, or leave "
    "this out for Andika";
constexpr OtherFontFile kOtherFontFiles[] = {
    {".ttc", "it is a collection of several typefaces", kTakeOneFace},
    {".otc", "it is a collection of several typefaces", kTakeOneFace},
    {".woff", "it is a font packed for web pages", kTakeDesktopFont},
    {".woff2", "it is a font packed for web pages", kTakeDesktopFont}};

// Whether the name is that of a font file to be read; says so where it is one
// of another kind.
bool takes_font_file(const std::string& name, Span span,
                     Diagnostics& diagnostics) {
  const std::string lower = lower_case(name);
  for (const OtherFontFile& other : kOtherFontFiles) {
    if (!lower.ends_with(other.end)) continue;
    diagnostics.error(
        diagnostic::unusable_typeface, span,
        fmt::format("{} cannot be used: {}", as_written(name), other.what),
        std::string(other.help));
    return false;
  }
  return lower.ends_with(".ttf") || lower.ends_with(".otf");
}

// A typeface may be a file beside the layout.
void add_font_file(Workspace& workspace, const LessonRequest& request,
                   const OptionValues& settings, std::string_view option,
                   FontRole role, const FilePath& folder,
                   Diagnostics& diagnostics) {
  const std::string& name = settings.text(option);
  if (!takes_font_file(name, settings.span(option), diagnostics)) return;
  const auto found = workspace.find_file(name, folder, request.allowed_folders);
  const Span span = settings.span(option);
  if (!found) return;  // reported as an unknown typeface
  std::string why;
  const Font* font = workspace.fonts().add(
      name, role, workspace.read(*found, kLargestFont), why);
  if (font != nullptr && !lacking(*font).empty()) {
    why = fmt::format("it has no {}", as_written(lacking(*font)));
  }
  if (!why.empty()) {
    diagnostics.error(
        diagnostic::unusable_typeface, span,
        fmt::format("{} cannot be used: {}", as_written(name), why),
        "choose another font file, or leave this out for Andika");
  }
}

// A picture that stands in the lesson itself.
std::optional<Picture> decode_embedded(std::string_view text,
                                       const std::string& word,
                                       std::string& why) {
  const std::size_t comma = text.find(',');
  const auto bytes = comma == std::string_view::npos ||
                             !text.substr(0, comma).ends_with(";base64")
                         ? std::nullopt
                         : from_base64(text.substr(comma + 1));
  if (bytes) return decode_image(*bytes, word, why);
  why = "the picture after `base64,` is cut short or changed";
  return std::nullopt;
}

// The pictures that a lesson names, each for its word.
void add_pictures(Workspace& workspace, const LessonRequest& request,
                  const Lesson& lesson, const FilePath& folder,
                  LessonPictures& pictures, Diagnostics& diagnostics) {
  // With a structured binding clang-tidy 16 falls over.
  for (const auto& entry : lesson.pictures) {
    const PlacedWord& word = entry.first;
    const PlacedWord& name = entry.second;
    std::string why;
    if (name.value.starts_with(kEmbeddedPicture)) {
      auto picture = decode_embedded(name.value, word.value, why);
      if (picture) {
        pictures.add(word.value, std::move(*picture));
        continue;
      }
    } else if (looks_like_emoji(name.value)) {
      const Picture* picture =
          workspace.pictures().find_emoji(name.value, word.value, why);
      if (picture != nullptr) {
        pictures.add(word.value, picture);
        continue;
      }
    } else {
      const auto found =
          workspace.find_file(name.value, folder, request.allowed_folders);
      if (!found) {
        diagnostics.error(
            diagnostic::no_picture, name.span,
            fmt::format("there is no picture {} here", as_written(name.value)),
            "put the file into the lesson's folder or below it, or name its "
            "folder with --allow");
        continue;
      }
      auto picture =
          decode_image(workspace.read(*found, kMaxImageBytes), word.value, why);
      if (picture) {
        pictures.add(word.value, std::move(*picture));
        continue;
      }
    }
    diagnostics.error(diagnostic::unusable_picture, name.span,
                      fmt::format("the picture {} cannot be used: {}",
                                  as_written(name.value), why),
                      "choose another, or take the line out");
  }
}

// The sequence that stands in the lesson or that it names, or the one beside
// it; null where there is none or it has errors.
const SequenceFile* find_sequence(Workspace& workspace,
                                  const LessonRequest& request,
                                  const Lesson& lesson, const FilePath& folder,
                                  const LearnerPlace& place, SequenceFile& own,
                                  Diagnostics& diagnostics) {
  if (!place.sequence.empty()) {
    return workspace.sequence(place.sequence, diagnostics);
  }
  if (lesson.own_sequence.kind == Value::Kind::keys) {
    own = read_sequence_keys(*lesson.file, lesson.own_sequence, diagnostics);
    return &own;
  }
  if (lesson.sequence.value == kNoSequence) return nullptr;
  if (!lesson.sequence.given()) {
    const FilePath beside = folder / kSequenceFile;
    return workspace.has_file(beside) ? workspace.sequence(beside, diagnostics)
                                      : nullptr;
  }
  const auto path = workspace.find_file(lesson.sequence.value, folder,
                                        request.allowed_folders);
  if (path) return workspace.sequence(*path, diagnostics);
  diagnostics.error(diagnostic::no_sequence, lesson.sequence.span,
                    fmt::format("there is no sequence {} here",
                                as_written(lesson.sequence.value)),
                    "put the file into the lesson's folder, or name its "
                    "folder with --allow");
  return nullptr;
}

// What sheets may ask for; `own` are the teacher's blocked words.
std::shared_ptr<const WordGames> word_games(
    const std::shared_ptr<const BlockList>& own) {
  auto games = std::make_shared<WordGames>();
  games->chain = [own](const AnalyzedLesson& lesson, bool made_up,
                       std::size_t most) {
    return find_chain(lesson, own.get(), made_up, most);
  };
  games->near_pairs = [own](const AnalyzedLesson& lesson,
                            const WordTest& has_picture, std::size_t count) {
    return find_near_pairs(lesson, own.get(), has_picture, count);
  };
  return games;
}

}  // namespace

OwnTexts own_texts(const std::vector<FilledKey>& filled) {
  const auto is_own = [&](std::string_view key) {
    return std::ranges::find(filled, key, &FilledKey::key) == filled.end();
  };
  return {.sentences = is_own("sentences"),
          .dictate_sentences = is_own("dictate-sentences"),
          .passage = is_own("passage")};
}

LessonPlan plan_lesson(Workspace& workspace, const LessonRequest& request,
                       const FilePath& folder, Lesson& lesson,
                       const Phonics& phonics, const PictureTest& pictures,
                       Diagnostics& diagnostics, const LearnerPlace& place) {
  LessonPlan plan;
  SequenceFile own_sequence;
  const SequenceFile* sequence = find_sequence(
      workspace, request, lesson, folder, place, own_sequence, diagnostics);
  if (place.step.given()) lesson.step = place.step;
  if (diagnostics.has_errors()) return plan;
  if (sequence != nullptr) {
    plan.sequence_file = sequence->file;
    inherit_conventions(*sequence, lesson);
  }
  unfold_placement(lesson, sequence, phonics, diagnostics);
  if (diagnostics.has_errors()) return plan;
  put_capitals_right(lesson, phonics, diagnostics);
  Taught taught = find_taught(lesson, sequence, phonics, diagnostics);
  if (diagnostics.has_errors()) return plan;
  Diagnostics unheard;  // the analysis reports them
  const Conventions conventions = lesson_conventions(lesson, unheard);
  BlockList not_chosen = own_block_list(workspace, "", folder);
  for (const std::string& word : request.leave_out) not_chosen.add_word(word);
  const auto own = std::make_shared<const BlockList>(std::move(not_chosen));
  const SearchGround source{
      phonics,        conventions,
      taught,         own.get(),
      pictures.clear, own_sentences(workspace, "", folder, diagnostics)};
  plan.filled = fill_lesson(lesson, source, diagnostics);
  if (diagnostics.has_errors()) return plan;
  plan.analyzed =
      analyze(lesson, phonics, std::move(taught), pictures, diagnostics,
              [own](std::string_view word) {
                return !BlockList::shipped().blocks(word) && !own->blocks(word);
              });
  plan.analyzed.games = word_games(own);
  report_placement(plan.analyzed, diagnostics);
  report_own_texts(plan.analyzed, own_texts(plan.filled), diagnostics);
  return plan;
}

std::unique_ptr<PreparedLesson> prepare(Workspace& workspace,
                                        const LessonRequest& request,
                                        const std::string& path,
                                        Diagnostics& diagnostics,
                                        const LearnerPlace& place) {
  return prepare_text(workspace, request, workspace.open(path),
                      FilePath(path).parent_path(), diagnostics, place);
}

std::unique_ptr<PreparedLesson> prepare_text(Workspace& workspace,
                                             const LessonRequest& request,
                                             const SourceFile& file,
                                             const FilePath& folder,
                                             Diagnostics& diagnostics,
                                             const LearnerPlace& place) {
  auto result = std::make_unique<PreparedLesson>();
  const bool whole = !diagnostics.has_errors();
  result->lesson = read_lesson(file, diagnostics);
  if (diagnostics.has_errors()) {
    if (whole) tell_words(workspace, folder, result->lesson, diagnostics);
    return nullptr;
  }

  // The command line's layout goes before the lesson's own.
  const Value& own_layout = result->lesson.own_layout;
  const bool is_own =
      own_layout.kind == Value::Kind::keys && request.layout.empty();
  const auto layout_path =
      is_own
          ? std::optional(folder / "in-the-lesson")
          : layout_of(workspace, request, result->lesson, folder, diagnostics);
  if (layout_path) {
    LayoutFile own_parts;
    if (is_own) own_parts = read_layout_keys(file, own_layout, diagnostics);
    const LayoutFile* parts =
        is_own ? &own_parts : workspace.layout(*layout_path, diagnostics);
    if (parts != nullptr) {
      result->layout_file = parts->file;
      if (!diagnostics.has_errors()) {
        result->layout = plan_layout(*parts, diagnostics);
      }
      result->lesson.inherited_conventions.push_back(parts->conventions);
    }
  }
  result->pictures = std::make_unique<LessonPictures>(workspace.pictures());
  add_pictures(workspace, request, result->lesson, folder, *result->pictures,
               diagnostics);
  result->phonics = workspace.phonics_with_own(result->lesson, diagnostics);
  if (diagnostics.has_errors()) return nullptr;
  LessonPlan plan = plan_lesson(
      workspace, request, folder, result->lesson,
      result->phonics ? *result->phonics : workspace.phonics(),
      PictureTest(
          [&](std::string_view word) {
            return result->pictures->is_clear(word);
          },
          [&](std::string_view word) { return result->pictures->has(word); }),
      diagnostics, place);
  result->filled = std::move(plan.filled);
  result->sequence_file = plan.sequence_file;
  result->analyzed = std::move(plan.analyzed);
  if (!layout_path || diagnostics.has_errors()) return nullptr;

  OptionValues& settings = result->layout.settings;
  if (!request.paper.empty()) settings.set_choice("paper", request.paper);
  const FilePath beside = layout_path->parent_path();
  add_font_file(workspace, request, settings, "typeface", FontRole::regular,
                beside, diagnostics);
  add_font_file(workspace, request, settings, "bold-typeface", FontRole::bold,
                beside, diagnostics);
  if (diagnostics.has_errors()) return nullptr;
  result->style = make_style(settings, workspace.fonts(), diagnostics);
  if (diagnostics.has_errors()) return nullptr;
  check_typefaces(result->lesson, settings, result->style, diagnostics);
  return diagnostics.has_errors() ? nullptr : std::move(result);
}

}  // namespace sheaf
