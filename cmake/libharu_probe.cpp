// Run when the build is set up: whether the libharu that is linked keeps its
// objects as its headers say. src/pdf/objects.cpp reads them, since libharu has
// no public call for a dictionary of one's own. Prints what does not hold and
// ends with 1.

#include <hpdf.h>
#include <hpdf_doc.h>

#include <cstdio>
#include <cstring>
#include <string>

namespace {

int faults = 0;

void expect(bool holds, const char* what) {
  if (holds) return;
  std::printf("libharu %s: %s\n", HPDF_GetVersion(), what);
  ++faults;
}

void ignore(HPDF_STATUS, HPDF_STATUS, void*) {}

HPDF_UINT32 number_of(const void* object) {
  return static_cast<const HPDF_Obj_Header*>(object)->obj_id & 0x00FFFFFF;
}

std::string printed;

HPDF_STATUS print(HPDF_Stream, const HPDF_BYTE* bytes, HPDF_UINT size) {
  printed.append(reinterpret_cast<const char*>(bytes), size);
  return HPDF_OK;
}

HPDF_STATUS print_own(HPDF_Dict, HPDF_Stream stream) {
  return HPDF_Stream_WriteStr(stream, "/Own true");
}

}  // namespace

int main() {
  HPDF_Doc document = HPDF_NewEx(&ignore, nullptr, nullptr, 0, nullptr);
  if (document == nullptr) return 1;
  expect(document->error.error_no == HPDF_OK, "the first error is elsewhere");
  expect(document->xref != nullptr && document->xref->entries != nullptr,
         "the table of objects is elsewhere");
  if (faults > 0) return 1;
  const HPDF_UINT before = document->xref->entries->count;
  HPDF_Dict dictionary = HPDF_Dict_New(document->mmgr);
  if (dictionary == nullptr) return 1;
  HPDF_Xref_Add(document->xref, dictionary);
  expect(document->xref->entries->count == before + 1,
         "a new object is not counted");
  const HPDF_UINT32 number = number_of(dictionary);
  expect(number == document->xref->start_offset + before,
         "objects are numbered otherwise");
  const auto* entry = HPDF_Xref_GetEntry(document->xref, number);
  expect(entry != nullptr && entry->obj == dictionary,
         "an object is not found by its number");
  auto* page = static_cast<HPDF_Page>(HPDF_AddPage(document));
  if (page == nullptr) return 1;
  const auto* attributes = static_cast<HPDF_PageAttr>(page->attr);
  expect(attributes != nullptr && attributes->contents != nullptr &&
             HPDF_Dict_GetItem(attributes->contents, "Length",
                               HPDF_OCLASS_NUMBER) != nullptr,
         "what a page shows is kept elsewhere");
  expect(document->catalog != nullptr && document->info != nullptr,
         "catalog and title are kept elsewhere");
  if (faults > 0) return 1;
  dictionary->write_fn = &print_own;
  HPDF_Stream stream = HPDF_CallbackWriter_New(document->mmgr, &print, nullptr);
  if (stream == nullptr) return 1;
  HPDF_Obj_WriteValue(dictionary, stream, nullptr);
  expect(printed.find("/Own true") != std::string::npos,
         "entries of one's own are not printed");
  expect(document->error.error_no == HPDF_OK, "a call failed");
  HPDF_Stream_Free(stream);
  HPDF_Free(document);
  return faults > 0 ? 1 : 0;
}
