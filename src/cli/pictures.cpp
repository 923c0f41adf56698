// `sheaf pictures`: the words that a picture stands for, as a table, and as a
// contact sheet to look at before a lesson uses them.

#include <fmt/format.h>

#include <algorithm>

#include "base/diagnostics.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/verbs.h"
#include "driver/own_files.h"
#include "driver/workspace.h"
#include "files/disk_files.h"
#include "files/output_files.h"
#include "layout/frame.h"
#include "layout/heard.h"
#include "layout/picture_frame.h"
#include "layout/text_block.h"
#include "pdf/pdf_writer.h"
#include "pictures/picture_words.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr int kColumns = 7;
constexpr Length kRow = 26_mm;
constexpr Length kSide = 18_mm;

std::string about(const PictureWord& word) {
  std::string text = word.clear ? "clear" : "name it first";
  if (!word.may_say.empty()) {
    text += fmt::format("; children may say {}", word.may_say);
  }
  if (!word.note.empty()) text += fmt::format("; {}", word.note);
  return text;
}

// All words of the table, or those that are asked for; none where one of them
// has no picture, which is said.
std::vector<const PictureWord*> chosen(const std::vector<std::string>& names) {
  std::vector<const PictureWord*> words;
  std::vector<std::string_view> known;
  for (const PictureWord& word : picture_words()) {
    known.push_back(word.word);
    if (names.empty()) words.push_back(&word);
  }
  for (const std::string& name : names) {
    words.push_back(find_picture_word(name));
    if (words.back() != nullptr) continue;
    const std::string nearest = did_you_mean(name, known).text;
    fmt::print(stderr, "sheaf: there is no picture of {}{}{}\n",
               sheaf::quoted(name), nearest.empty() ? "" : "; ", nearest);
    return {};
  }
  return words;
}

void add_row(Composer& c, PictureBook& book,
             std::span<const PictureWord* const> words, ElementId list) {
  Block& block = c.block(kRow);
  const Length step = c.width() / kColumns;
  TextStyle style = c.style().teacher_text();
  style.size = 9_pt;
  Length left;
  for (const PictureWord* word : words) {
    const ElementId item = c.add(Role::list_item, list);
    const ElementId body = c.add(Role::list_body, item);
    const Picture* picture = book.find(word->word);
    draw_picture(block, c.style(), picture,
                 {left + (step - kSide) / 2, 0_mm, kSide, kSide},
                 add_picture(c, body, picture, {.word = word->word}));
    // A word to be named first stands in brackets; what they mean
    // is heard.
    if (word->clear) {
      draw_centred(c, block, style, word->word, {left + step / 2, kSide + 4_mm},
                   body);
    } else {
      draw_centred(
          c, block, style, fmt::format("({})", word->word),
          {left + step / 2, kSide + 4_mm},
          add_heard(c, body, fmt::format("{} (name it first)", word->word)));
    }
    left += step;
  }
}

Document contact_sheet(Workspace& workspace, const CommandLine& line,
                       std::span<const PictureWord* const> words) {
  OptionValues settings(page_options());
  if (!line.paper.empty()) settings.set_choice("paper", line.paper);
  Diagnostics none;
  const Style style = make_style(settings, workspace.fonts(), none);
  Document document;
  // Some words or all that there are.
  document.title = fmt::format("Pictures, {} words", words.size());
  const ElementId section = document.add({Role::section, kDocumentElement});
  FrameText frame;
  frame.sheet = "Pictures";
  frame.direction =
      "Name a picture whose word is in brackets before sorting: children may "
      "call it something else.";
  frame.for_teacher = true;
  frame.code = fmt::format("{} pictures", words.size());
  Composer outer(workspace.shaper(), style, document, section,
                 style.body_size());
  const Rect body = body_inside(style, outer, frame);
  Composer composer(workspace.shaper(), style, document, section,
                    {body.width, body.height});
  const FrameElements elements = add_frame_elements(composer, frame);
  const ElementId list = composer.add(Role::list);
  for (std::size_t i = 0; i < words.size(); i += kColumns) {
    add_row(composer, workspace.pictures(),
            words.subspan(i, std::min<std::size_t>(kColumns, words.size() - i)),
            list);
  }
  document.pages = paginate(composer.take(), body, style.paper);
  draw_frame(document.pages, composer, frame, elements);
  document.outline.push_back({frame.sheet, 0});
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    document.pages[i].label = fmt::format("pictures {}", i + 1);
  }
  return document;
}

}  // namespace

int run_pictures(const CommandLine& line) {
  const auto words = chosen(line.arguments);
  if (words.empty()) return kWrongCommandLine;
  if (line.pdf_file.empty()) {
    for (const PictureWord* word : words) {
      fmt::print("{:<14} {:<8} {}\n", word->word,
                 word->kind == PictureWord::Kind::drawing ? "drawing" : "glyph",
                 about(*word));
    }
    return kDone;
  }
  Workspace workspace(disk(), shipped_folder());
  const Document document = contact_sheet(workspace, line, words);
  const auto files = disk().write();
  files->add(line.pdf_file, write_pdf(document), own_form(OwnKind::pdf),
             kPdfWayOut);
  files->finish();
  fmt::print("{}: {} pictures on {} pages\n", printable(line.pdf_file),
             words.size(), document.pages.size());
  return kDone;
}

}  // namespace sheaf
