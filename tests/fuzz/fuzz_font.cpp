// Bytes as a font file of a layout: what is taken sets text, tells its ink and
// goes into a PDF, or the writer says in a sentence why it does not.

#include <cstdint>
#include <cstdlib>
#include <string>

#include "base/error.h"
#include "files/disk_files.h"
#include "pdf/pdf_writer.h"
#include "text/font_library.h"
#include "text/glyph_run.h"
#include "text/shaper.h"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

sheaf::Document page_with(const sheaf::GlyphRun& run) {
  using sheaf::Length;
  sheaf::Document document;
  document.title = "Text";
  document.pages.resize(1);
  document.pages[0].size = {Length::from_pt(612), Length::from_pt(792)};
  const sheaf::ElementId paragraph =
      document.add({sheaf::Role::paragraph, sheaf::kDocumentElement});
  document.pages[0].marks.push_back(
      sheaf::GlyphMark{run,
                       {Length::from_pt(40), Length::from_pt(100)},
                       sheaf::kBlack,
                       paragraph});
  return document;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  sheaf::FontLibrary fonts(sheaf::disk(), SHEAF_FONTS);
  std::string why;
  const sheaf::Font* font =
      fonts.add("Own", sheaf::FontRole::regular,
                std::string(reinterpret_cast<const char*>(data), size), why);
  require((font != nullptr) == why.empty());
  if (font == nullptr) return 0;
  sheaf::Shaper shaper;
  try {
    for (const char* text : {"fac", "caf\u00E9 e\u0301"}) {
      const sheaf::GlyphRun run = {
          &shaper.shape(*font, text), sheaf::Length::from_pt(20), {}, {}};
      sheaf::ink_of(run, 0, run.shape->text.size());
      require(!sheaf::write_pdf(page_with(run)).empty());
    }
  } catch (const sheaf::MachineError& fault) {
    require(*fault.what() != '\0');
  }
  return 0;
}
