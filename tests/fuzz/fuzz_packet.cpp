// A lesson, to the bytes of its pages. Two bytes come before its text: how much
// memory there is (see short_memory.h), and what is printed:
//
//     a blank       each sheet of the layout, which takes a tenth of a second
//     below 128     one sheet, of a layout that has no other and asks no other
//                   whether there are words for it
//     from 128 on   one sheet, of the layout that the lesson names

#include <span>

#include "driver/packets.h"
#include "fuzz_checks.h"
#include "ground.h"
#include "packet/packet.h"
#include "pdf/pdf_writer.h"
#include "pdf_form.h"
#include "sheets/sheet.h"
#include "short_memory.h"
#ifdef SHEAF_QPDF
#include "support/pdf_file.h"
#endif

namespace {

using sheaf::fuzz::require;

std::string layout_of(const sheaf::SheetKind& kind) {
  return "one/" + std::string(kind.name) + ".yaml";
}

sheaf::fuzz::Ground& ground() {
  static auto* const made = [] {
    auto* const all = new sheaf::fuzz::Ground;
    all->put("lesson/steps.yaml", "lessons/year/sequence.yaml");
    all->put("lesson/coin.png", "tests/golden/red-coin.png");
    for (const sheaf::SheetKind* kind : sheaf::sheet_kinds()) {
      std::string sheets = "\n  - " + std::string(kind->name) + "\n";
      // What is for the teacher speaks of the learner's sheets.
      if (kind->for_teacher) sheets += "  - sound-boxes\n  - dictation\n";
      all->shipped.files.put(layout_of(*kind), "sheaf: 1\nsheets:" + sheets);
    }
    return all;
  }();
  return *made;
}

void write_and_check(const sheaf::Document& pages) {
  if (pages.pages.empty()) return;
  const std::string pdf = sheaf::write_pdf(pages);
  sheaf::fuzz::check_pdf(pdf, pages.pages.size());
#ifdef SHEAF_QPDF
  require(sheaf::testing_support::PdfFile(pdf).page_count() ==
          pages.pages.size());
#endif
}

void make_pages(const sheaf::LessonRequest& request, std::string text) {
  sheaf::Workspace workspace(ground().workspace);
  const sheaf::SourceFile file("lesson/fuzz.yaml", std::move(text));
  sheaf::Diagnostics found;
  const auto lesson =
      sheaf::prepare_text(workspace, request, file, "lesson", found);
  sheaf::fuzz::check_messages(found);
  require((lesson == nullptr) == found.has_errors());
  if (lesson == nullptr) return;
  sheaf::Shaper shaper;
  const sheaf::Packet packet =
      sheaf::make_packet(lesson->analyzed, lesson->layout, *lesson->pictures,
                         lesson->style, shaper, request.only, found);
  sheaf::fuzz::check_messages(found);
  if (found.has_errors()) return;
  write_and_check(packet.learner);
  write_and_check(packet.teacher);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  if (size < 2) return 0;
  ground();
  sheaf::LessonRequest request;
  const std::span kinds = sheaf::sheet_kinds();
  if (data[1] != ' ') {
    const sheaf::SheetKind& kind = *kinds[data[1] % kinds.size()];
    request.only = {std::string(kind.name)};
    if (data[1] < 128) request.layout = layout_of(kind);
  }
  const std::string text(sheaf::fuzz::text_of(data + 2, size - 2));
  sheaf::fuzz::run_short(data[0], [&] { make_pages(request, text); });
  return 0;
}
