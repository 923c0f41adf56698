// A lesson, to the bytes of its pages. Two bytes come before its text: how much
// memory there is (see short_memory.h), and which sheet is printed; a blank for
// each sheet of the layout.

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

sheaf::fuzz::Ground& ground() {
  static auto* const made = [] {
    auto* const all = new sheaf::fuzz::Ground;
    all->put("lesson/steps.yaml", "lessons/year/sequence.yaml");
    all->put("lesson/coin.png", "tests/golden/red-coin.png");
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
    request.only = {std::string(kinds[data[1] % kinds.size()]->name)};
  }
  const std::string text(sheaf::fuzz::text_of(data + 2, size - 2));
  sheaf::fuzz::run_short(data[0], [&] { make_pages(request, text); });
  return 0;
}
