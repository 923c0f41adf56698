#include "pdf/objects.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdlib>
#include <functional>
#include <memory>
#include <new>

#include "base/error.h"
#include "pdf/operators.h"

#include <fmt/format.h>

namespace sheaf {

namespace {

constexpr HPDF_UINT32 kNumberMask = 0x00FFFFFF;

// A tree of two levels: libharu's arrays end at 32,767 items.
constexpr HPDF_UINT kPagesPerNode = 128;

ObjectId number_of(const void* object) {
  return static_cast<const HPDF_Obj_Header*>(object)->obj_id & kNumberMask;
}

// libharu keeps the first error itself; without a handler of ours it would do
// the same, but a null handler is not promised to be allowed.
void keep_error(HPDF_STATUS, HPDF_STATUS, void*) noexcept {}

// libharu, told that there is no memory, may crash in its own clean-up. So it
// is never told: it gets a little from this reserve, enough for any one call,
// and after the call Sheaf gives up. A document is made by one thread.
struct Reserve {
  alignas(std::max_align_t) std::array<std::byte, 65536> bytes;
  std::size_t used = 0;
  bool is_broached = false;
};
thread_local Reserve reserve;

void* allocate(HPDF_UINT size) noexcept {
  if (void* memory = std::malloc(size)) return memory;
  reserve.is_broached = true;
  constexpr std::size_t kAlignment = alignof(std::max_align_t);
  const std::size_t rounded =
      (std::size_t{size} + kAlignment - 1) / kAlignment * kAlignment;
  if (rounded > reserve.bytes.size() - reserve.used) return nullptr;
  void* memory = reserve.bytes.data() + reserve.used;
  reserve.used += rounded;
  return memory;
}

void release(void* memory) noexcept {
  const std::less<const void*> before;
  const std::byte* begin = reserve.bytes.data();
  const bool is_reserved =
      !before(memory, begin) && before(memory, begin + reserve.bytes.size());
  if (!is_reserved) std::free(memory);
}

[[noreturn]] void fail(HPDF_STATUS error) {
  if (error == HPDF_FAILD_TO_ALLOC_MEM) {
    throw MachineError("there is not enough memory to write the PDF");
  }
  throw MachineError(
      fmt::format("the PDF library failed with code {:#06x}", error));
}

}  // namespace

Objects::Objects() {
  reserve.used = 0;
  reserve.is_broached = false;
  document_ = HPDF_NewEx(&keep_error, &allocate, &release, 0, nullptr);
  if (!document_) fail(HPDF_FAILD_TO_ALLOC_MEM);
  HPDF_SetPagesConfiguration(document_, kPagesPerNode);
  check();
}

Objects::~Objects() {
  if (document_) HPDF_Free(document_);
}

void Objects::check() const {
  if (reserve.is_broached) fail(HPDF_FAILD_TO_ALLOC_MEM);
  if (document_->error.error_no != HPDF_OK) fail(document_->error.error_no);
}

void* Objects::checked(void* object) const {
  check();
  if (!object) fail(HPDF_FAILD_TO_ALLOC_MEM);
  return object;
}

Objects::Body& Objects::body(ObjectId id) {
  if (bodies_.size() <= id) bodies_.resize(id + 1);
  return bodies_[id];
}

HPDF_Dict Objects::dictionary(ObjectId id) const {
  return static_cast<HPDF_Dict>(HPDF_Xref_GetEntry(document_->xref, id)->obj);
}

HPDF_Dict Objects::new_dictionary() {
  auto* result =
      static_cast<HPDF_Dict>(checked(HPDF_Dict_New(document_->mmgr)));
  HPDF_Xref_Add(document_->xref, result);
  check();
  return result;
}

Objects::PageObjects Objects::add_page() {
  auto* page = static_cast<HPDF_Page>(checked(HPDF_AddPage(document_)));
  const auto* attributes = static_cast<HPDF_PageAttr>(page->attr);
  const HPDF_Dict contents = attributes->contents;
  // The length stands in the stream's dictionary itself; libharu's object for
  // it is left out of the file.
  const void* length =
      HPDF_Dict_GetItem(contents, "Length", HPDF_OCLASS_NUMBER);
  body(number_of(checked(const_cast<void*>(length)))).is_unused = true;
  body(number_of(contents)).is_unused = true;
  // Boxes and resources are among the entries that Sheaf prints.
  HPDF_Dict_RemoveElement(page, "MediaBox");
  HPDF_Dict_RemoveElement(page, "Resources");
  check();
  return {number_of(page), number_of(contents)};
}

ObjectId Objects::add_dictionary(std::string entries) {
  const ObjectId id = number_of(new_dictionary());
  set_entries(id, std::move(entries));
  return id;
}

ObjectId Objects::add_stream(std::string entries, std::string data) {
  const ObjectId id = number_of(new_dictionary());
  set_stream(id, std::move(entries), std::move(data));
  return id;
}

void Objects::add_outline(std::string_view title, ObjectId page) {
  const HPDF_Outline outline = static_cast<HPDF_Outline>(
      checked(HPDF_CreateOutline(document_, nullptr, "", nullptr)));
  // libharu's own titles lose what is beyond U+FFFF.
  HPDF_Dict_RemoveElement(outline, "Title");
  check();
  std::string entries = "/Title";
  append_text_string(entries, title);
  entries += "/Dest[";
  append_reference(entries, page);
  entries += "/Fit]";
  set_entries(number_of(outline), std::move(entries));
}

ObjectId Objects::catalog() const { return number_of(document_->catalog); }

ObjectId Objects::take_info() {
  const ObjectId id = number_of(document_->info);
  body(id).is_unused = true;
  return id;
}

void Objects::set_entries(ObjectId id, std::string entries) {
  dictionary(id)->write_fn = &print_entries;
  body(id).entries = std::move(entries);
}

void Objects::set_stream(ObjectId id, std::string entries, std::string data) {
  Body& stream = body(id);
  stream.entries = std::move(entries);
  stream.data = std::move(data);
  stream.is_stream = true;
}

ObjectId Objects::last() const {
  return document_->xref->start_offset + document_->xref->entries->count - 1;
}

// Called by libharu from within `write`.
HPDF_STATUS Objects::print_entries(HPDF_Dict dictionary, HPDF_Stream stream) {
  const auto* objects = static_cast<const Objects*>(stream->attr);
  const std::string& entries = objects->bodies_[number_of(dictionary)].entries;
  return HPDF_Stream_Write(stream,
                           reinterpret_cast<const HPDF_BYTE*>(entries.data()),
                           static_cast<HPDF_UINT>(entries.size()));
}

HPDF_STATUS Objects::print_to_text(HPDF_Stream stream, const HPDF_BYTE* bytes,
                                   HPDF_UINT size) {
  auto* objects = static_cast<Objects*>(stream->attr);
  try {
    objects->text_.append(reinterpret_cast<const char*>(bytes), size);
  } catch (const std::bad_alloc&) {
    return HPDF_SetError(stream->error, HPDF_FAILD_TO_ALLOC_MEM, 0);
  }
  return HPDF_OK;
}

void Objects::write(ObjectSink& sink) {
  const ObjectId count = last() + 1;
  bodies_.resize(std::max<std::size_t>(bodies_.size(), count));
  for (ObjectId id = 1; id < count; ++id) {
    Body& stream = bodies_[id];
    if (!stream.is_stream) continue;
    sink.stream(id, stream.entries, stream.data);
    std::string().swap(stream.data);
  }
  const std::unique_ptr<HPDF_Stream_Rec, decltype(&HPDF_Stream_Free)> printer(
      HPDF_CallbackWriter_New(document_->mmgr, &print_to_text, this),
      &HPDF_Stream_Free);
  checked(printer.get());
  for (ObjectId id = 1; id < count; ++id) {
    const Body& plain = bodies_[id];
    if (plain.is_stream || plain.is_unused) continue;
    text_.clear();
    HPDF_Obj_WriteValue(HPDF_Xref_GetEntry(document_->xref, id)->obj,
                        printer.get(), nullptr);
    check();
    sink.plain(id, text_);
  }
}

}  // namespace sheaf
