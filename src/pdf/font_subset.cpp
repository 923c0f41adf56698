#include "pdf/font_subset.h"

#include <algorithm>
#include <cerrno>
#include <memory>

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
constexpr const char* kTables[] = {"head", "hhea", "maxp", "hmtx"};
constexpr const char* kTrueTypeTables[] = {"loca", "glyf"};

MachineError no_memory() {
  return MachineError("there is not enough memory for a font");
}

std::string_view bytes_of(hb_blob_t* blob) {
  unsigned length = 0;
  const char* data = hb_blob_get_data(blob, &length);
  return {data, length};
}

void add_table(hb_face_t* face, std::string_view bytes, const char* tag) {
  const Owner<hb_blob_t> blob(
      hb_blob_create_or_fail(bytes.data(), static_cast<unsigned>(bytes.size()),
                             HB_MEMORY_MODE_READONLY, nullptr, nullptr));
  if (!blob || !hb_face_builder_add_table(face, hb_tag_from_string(tag, 4),
                                          blob.get())) {
    throw no_memory();
  }
}

// Has HarfBuzz look at every kind of outlines that a face could have, by asking
// for the box of a glyph that there is not. Were they first looked at by the
// subsetter, which is a library of its own, and memory ran out in it, then it
// would leave its own empty object in the face, which the other library (6.0)
// does not know and frees when the face goes.
void take_in_outlines(hb_face_t* face) {
  const Owner<hb_font_t> font(hb_font_create(face));
  if (font.get() == hb_font_get_empty()) throw no_memory();
  hb_glyph_extents_t unused{};
  hb_font_get_glyph_extents(font.get(), static_cast<hb_codepoint_t>(-1),
                            &unused);
}

bool has_all_tables(const FontTables& tables, Outlines outlines) {
  const auto has = [&](const char* tag) { return !tables.table(tag).empty(); };
  const bool has_outlines = outlines == Outlines::cff
                                ? has("CFF ")
                                : std::all_of(std::begin(kTrueTypeTables),
                                              std::end(kTrueTypeTables), has);
  return has_outlines &&
         std::all_of(std::begin(kTables), std::end(kTables), has);
}

// An advance is 16 bits without a sign.
std::int32_t widened(std::int32_t advance, std::int32_t added) {
  return std::clamp(advance + added, 0, 0xFFFF);
}

// The table "hmtx": an advance and a bearing for each of the first glyphs, then
// bearings only. A font has thousands, of which a page needs a few, so nothing
// is called for each.
std::string widened_metrics(const FontTables& tables, std::int32_t added) {
  std::string metrics(tables.table("hmtx"));
  const std::size_t rows = std::min<std::size_t>(
      read_u16(tables.table("hhea"), 34), metrics.size() / 4);
  char* row = metrics.data();
  for (const char* const end = row + rows * 4; row != end; row += 4) {
    const std::int32_t advance =
        widened(static_cast<unsigned char>(row[0]) << 8 |
                    static_cast<unsigned char>(row[1]),
                added);
    row[0] = static_cast<char>(advance >> 8);
    row[1] = static_cast<char>(advance & 0xFF);
  }
  return metrics;
}

// The font as the subsetter sees it, with `metrics` for its own ones. HarfBuzz
// answers with empty objects where there is no memory.
Owner<hb_face_t> drawing_face(const FontTables& tables, Outlines outlines,
                              std::string_view metrics) {
  Owner<hb_face_t> face(hb_face_builder_create());
  if (face.get() == hb_face_get_empty()) throw no_memory();
  for (const char* tag : kTables) {
    add_table(face.get(),
              std::string_view(tag) == "hmtx" ? metrics : tables.table(tag),
              tag);
  }
  if (outlines == Outlines::cff) {
    add_table(face.get(), tables.table("CFF "), "CFF ");
  } else {
    for (const char* tag : kTrueTypeTables) {
      add_table(face.get(), tables.table(tag), tag);
    }
  }
  take_in_outlines(face.get());
  return face;
}

Owner<hb_subset_input_t> subset_input(
    const std::vector<std::uint32_t>& glyphs) {
  Owner<hb_subset_input_t> input(hb_subset_input_create_or_fail());
  if (!input) throw no_memory();
  hb_subset_input_set_flags(input.get(), static_cast<hb_subset_flags_t>(
                                             HB_SUBSET_FLAGS_NO_HINTING |
                                             HB_SUBSET_FLAGS_NOTDEF_OUTLINE));
  hb_set_t* wanted = hb_subset_input_glyph_set(input.get());
  for (const std::uint32_t glyph : glyphs) hb_set_add(wanted, glyph);
  if (!hb_set_allocation_successful(wanted)) throw no_memory();
  return input;
}

}  // namespace

FontProgram::FontProgram(const Font& font, std::int32_t added)
    : font_(font), tables_(font), added_(added * font.units_per_em() / 1000) {}

std::int32_t FontProgram::thousandths(std::int64_t units) const {
  const std::int64_t em = font_.units_per_em();
  const std::int64_t scaled_units = units * 1000;
  return static_cast<std::int32_t>(
      (scaled_units + (scaled_units < 0 ? -em / 2 : em / 2)) / em);
}

std::int32_t FontProgram::width(std::uint32_t glyph) const {
  return thousandths(advance(glyph));
}

std::int32_t FontProgram::advance(std::uint32_t glyph) const {
  return widened(tables_.advance(glyph), added_);
}

// Offsets from the OpenType specification, "head", "post" and "OS/2".
FontProgram::Box FontProgram::box() const {
  const std::string_view head = tables_.table("head");
  return {thousandths(read_i16(head, 36)), thousandths(read_i16(head, 38)),
          thousandths(read_i16(head, 40)), thousandths(read_i16(head, 42))};
}

std::int32_t FontProgram::italic_angle() const {
  return std::clamp(read_i16(tables_.table("post"), 4), -60, 60);
}

// 400 is a regular face, 700 a bold one; a stem of some 80 thousandths is
// usual in the first and of some 140 in the second (common practice, no
// source).
std::int32_t FontProgram::stem_width() const {
  const auto weight =
      static_cast<std::int32_t>(read_u16(tables_.table("OS/2"), 4));
  return weight == 0 ? 80 : std::clamp(weight / 5, 20, 200);
}

FontProgram::Subset FontProgram::subset(
    const std::vector<std::uint32_t>& glyphs) const {
  // HarfBuzz reads them where they are.
  const std::string wide =
      added_ == 0 ? std::string() : widened_metrics(tables_, added_);
  const Owner<hb_face_t> face = drawing_face(
      tables_, font_.outlines(), added_ == 0 ? tables_.table("hmtx") : wide);
  Subset result = subset(face.get(), glyphs);
  // HarfBuzz 6.0 also goes on with a damaged CFF program when memory runs out
  // in the midst of it. Two results that agree were not hit by that.
  if (font_.outlines() == Outlines::cff &&
      subset(face.get(), glyphs).program != result.program) {
    throw no_memory();
  }
  return result;
}

FontProgram::Subset FontProgram::subset(
    hb_face_t* drawing, const std::vector<std::uint32_t>& glyphs) const {
  // HarfBuzz does not tell why it failed; where memory was lacking, malloc has.
  errno = 0;
  const auto damaged = [&] {
    if (errno == ENOMEM) return no_memory();
    return MachineError(fmt::format(
        "the font `{}` is damaged and cannot be put into a PDF", font_.name()));
  };
  const Owner<hb_subset_input_t> input = subset_input(glyphs);
  const Owner<hb_subset_plan_t> plan(
      hb_subset_plan_create_or_fail(drawing, input.get()));
  if (!plan) throw damaged();
  const Owner<hb_face_t> face(hb_subset_plan_execute_or_fail(plan.get()));
  if (!face) throw damaged();
  const Owner<hb_blob_t> file(hb_face_reference_blob(face.get()));
  const FontTables tables(bytes_of(file.get()));
  const std::size_t count = read_u16(tables.table("maxp"), 4);

  Subset result;
  std::vector<std::uint16_t> cids;
  if (font_.outlines() == Outlines::cff) {
    auto program = cff_with_widths(tables.table("CFF "), added_);
    if (!program) throw damaged();
    result.program = std::move(*program);
    auto read = cff_glyph_cids(result.program, count);
    if (!read) throw damaged();
    cids = std::move(*read);
  } else {
    result.program = bytes_of(file.get());
  }
  // The subsetter leaves out what it cannot read, or has no memory for,
  // without a word.
  if (!has_all_tables(tables, font_.outlines())) throw damaged();
  const hb_map_t* numbers = hb_subset_plan_old_to_new_glyph_mapping(plan.get());
  for (const std::uint32_t glyph : glyphs) {
    const hb_codepoint_t number = hb_map_get(numbers, glyph);
    if (number >= count || advance(glyph) != tables.advance(number) ||
        tables_.has_outline(glyph) != tables.has_outline(number)) {
      throw damaged();
    }
    result.names.push_back(cids.empty() ? static_cast<std::uint16_t>(number)
                                        : cids[number]);
  }
  return result;
}

}  // namespace sheaf
