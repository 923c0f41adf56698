#include "pdf/font_subset.h"

#include <algorithm>

#include "base/error.h"
#include "pdf/cff.h"

#include <fmt/format.h>
#include <hb-subset.h>
#include <hb.h>

namespace sheaf {

namespace {

struct Release {
  void operator()(hb_blob_t* blob) const { hb_blob_destroy(blob); }
  void operator()(hb_face_t* face) const { hb_face_destroy(face); }
  void operator()(hb_font_t* font) const { hb_font_destroy(font); }
  void operator()(hb_subset_input_t* input) const {
    hb_subset_input_destroy(input);
  }
  void operator()(hb_subset_plan_t* plan) const {
    hb_subset_plan_destroy(plan);
  }
};
template <typename T>
using Owner = std::unique_ptr<T, Release>;

// What a PDF reader draws from. All others stay behind: characters are found
// through the PDF, and no text is set any more. Leaving them out here, not in
// the subsetter's list, spares it the reading of them: that is nine tenths of
// its time.
constexpr hb_tag_t kTables[] = {
    HB_TAG('h', 'e', 'a', 'd'), HB_TAG('h', 'h', 'e', 'a'),
    HB_TAG('m', 'a', 'x', 'p'), HB_TAG('h', 'm', 't', 'x'),
    HB_TAG('l', 'o', 'c', 'a'), HB_TAG('g', 'l', 'y', 'f'),
    HB_TAG('C', 'F', 'F', ' ')};

std::string_view bytes_of(hb_blob_t* blob) {
  unsigned length = 0;
  const char* data = hb_blob_get_data(blob, &length);
  return {data, length};
}

int read_i16(std::string_view bytes, std::size_t at) {
  if (at + 2 > bytes.size()) return 0;
  return static_cast<std::int16_t>(static_cast<unsigned char>(bytes[at]) << 8 |
                                   static_cast<unsigned char>(bytes[at + 1]));
}

}  // namespace

struct FontProgram::Impl {
  Owner<hb_face_t> all;  // with every table of the file
  Owner<hb_font_t> font;
  Owner<hb_face_t> drawing;  // with the tables that draw
};

FontProgram::FontProgram(const Font& font)
    : font_(font), impl_(std::make_unique<Impl>()) {
  const auto bytes = font.bytes();
  const Owner<hb_blob_t> file(
      hb_blob_create(reinterpret_cast<const char*>(bytes.data()),
                     static_cast<unsigned>(bytes.size()),
                     HB_MEMORY_MODE_READONLY, nullptr, nullptr));
  impl_->all.reset(hb_face_create(file.get(), 0));
  impl_->font.reset(hb_font_create(impl_->all.get()));
  impl_->drawing.reset(hb_face_builder_create());
  for (const hb_tag_t tag : kTables) {
    const Owner<hb_blob_t> table(
        hb_face_reference_table(impl_->all.get(), tag));
    if (hb_blob_get_length(table.get()) == 0) continue;
    if (!hb_face_builder_add_table(impl_->drawing.get(), tag, table.get())) {
      throw MachineError("there is not enough memory for a font");
    }
  }
}

FontProgram::~FontProgram() = default;

std::int32_t FontProgram::thousandths(std::int64_t units) const {
  const std::int64_t em = font_.units_per_em();
  const std::int64_t scaled_units = units * 1000;
  return static_cast<std::int32_t>(
      (scaled_units + (scaled_units < 0 ? -em / 2 : em / 2)) / em);
}

std::int32_t FontProgram::width(std::uint32_t glyph) const {
  return thousandths(hb_font_get_glyph_h_advance(impl_->font.get(), glyph));
}

// Offsets from the OpenType specification, "head" and "post".
FontProgram::Box FontProgram::box() const {
  const Owner<hb_blob_t> head(
      hb_face_reference_table(impl_->all.get(), HB_TAG('h', 'e', 'a', 'd')));
  const std::string_view bytes = bytes_of(head.get());
  return {thousandths(read_i16(bytes, 36)), thousandths(read_i16(bytes, 38)),
          thousandths(read_i16(bytes, 40)), thousandths(read_i16(bytes, 42))};
}

std::int32_t FontProgram::italic_angle() const {
  const Owner<hb_blob_t> post(
      hb_face_reference_table(impl_->all.get(), HB_TAG('p', 'o', 's', 't')));
  return std::clamp(read_i16(bytes_of(post.get()), 4), -60, 60);
}

std::int32_t FontProgram::stem_width() const {
  std::int32_t width = 0;
  for (const hb_codepoint_t letter : {'l', 'I'}) {
    hb_codepoint_t glyph = 0;
    hb_glyph_extents_t box{};
    if (!hb_font_get_nominal_glyph(impl_->font.get(), letter, &glyph) ||
        !hb_font_get_glyph_extents(impl_->font.get(), glyph, &box)) {
      continue;
    }
    if (width == 0 || box.width < width) width = box.width;
  }
  return std::max(thousandths(width), 1);
}

FontProgram::Subset FontProgram::subset(
    const std::vector<std::uint32_t>& glyphs) const {
  const auto damaged = [&] {
    return MachineError(fmt::format(
        "the font `{}` is damaged and cannot be put into a PDF", font_.name()));
  };
  const Owner<hb_subset_input_t> input(hb_subset_input_create_or_fail());
  if (!input) throw MachineError("there is not enough memory for a font");
  hb_subset_input_set_flags(input.get(), static_cast<hb_subset_flags_t>(
                                             HB_SUBSET_FLAGS_NO_HINTING |
                                             HB_SUBSET_FLAGS_NOTDEF_OUTLINE));
  for (const std::uint32_t glyph : glyphs) {
    hb_set_add(hb_subset_input_glyph_set(input.get()), glyph);
  }
  const Owner<hb_subset_plan_t> plan(
      hb_subset_plan_create_or_fail(impl_->drawing.get(), input.get()));
  if (!plan) throw damaged();
  const Owner<hb_face_t> face(hb_subset_plan_execute_or_fail(plan.get()));
  if (!face) throw damaged();
  const Owner<hb_blob_t> file(hb_face_reference_blob(face.get()));
  // The subsetter's own face answers no questions about its tables.
  const Owner<hb_face_t> reread(hb_face_create(file.get(), 0));
  const unsigned count = hb_face_get_glyph_count(reread.get());

  Subset result;
  std::vector<std::uint16_t> cids;
  if (font_.outlines() == Outlines::cff) {
    const Owner<hb_blob_t> cff(
        hb_face_reference_table(reread.get(), HB_TAG('C', 'F', 'F', ' ')));
    result.program = bytes_of(cff.get());
    auto read = cff_glyph_cids(result.program, count);
    if (!read) throw damaged();
    cids = std::move(*read);
  } else {
    result.program = bytes_of(file.get());
  }
  if (result.program.empty()) throw damaged();
  const hb_map_t* numbers = hb_subset_plan_old_to_new_glyph_mapping(plan.get());
  for (const std::uint32_t glyph : glyphs) {
    const hb_codepoint_t number = hb_map_get(numbers, glyph);
    if (number == HB_MAP_VALUE_INVALID || number >= count) throw damaged();
    result.names.push_back(cids.empty() ? static_cast<std::uint16_t>(number)
                                        : cids[number]);
  }
  return result;
}

}  // namespace sheaf
