#include "text/glyph_run.h"

#include <algorithm>
#include <cassert>

#include "base/utf8.h"
#include "text/font.h"

namespace sheaf {

namespace {

// Glyphs [first, last) of one cluster, which shows bytes [begin, end).
struct Cluster {
  std::size_t first, last;
  std::size_t begin, end;
};

Cluster cluster_at(const ShapedText& shape, std::size_t first) {
  const std::uint32_t begin = shape.glyphs[first].cluster;
  std::size_t last = first + 1;
  while (last < shape.glyphs.size() && shape.glyphs[last].cluster == begin) {
    ++last;
  }
  const std::size_t end = last < shape.glyphs.size()
                              ? shape.glyphs[last].cluster
                              : shape.text.size();
  return {first, last, begin, end};
}

std::size_t count_code_points(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

// The ink of a whole cluster; nothing is inked where right <= left.
InkSpan cluster_ink(const GlyphRun& run, const Cluster& cluster) {
  InkSpan ink;
  for (std::size_t i = cluster.first; i < cluster.last; ++i) {
    const ShapedGlyph& glyph = run.shape->glyphs[i];
    if (glyph.ink_right <= glyph.ink_left) continue;
    const Length pen = pen_before(run, i);
    const auto edge = [&](std::int32_t units) {
      return pen + at_size(*run.shape->font, run.size,
                           std::int64_t{glyph.x_offset} + units);
    };
    const InkSpan glyph_ink = {edge(glyph.ink_left), edge(glyph.ink_right)};
    const bool is_first = ink.right <= ink.left;
    ink.left = is_first ? glyph_ink.left : std::min(ink.left, glyph_ink.left);
    ink.right =
        is_first ? glyph_ink.right : std::max(ink.right, glyph_ink.right);
  }
  return ink;
}

// The share of bytes [begin, end) in the ink of a cluster that has more.
InkSpan share_of(InkSpan ink, std::string_view text, const Cluster& cluster,
                 std::size_t begin, std::size_t end) {
  const auto characters = [&](std::size_t from, std::size_t to) {
    return static_cast<std::int64_t>(
        count_code_points(text.substr(from, to - from)));
  };
  const std::int64_t all =
      std::max<std::int64_t>(1, characters(cluster.begin, cluster.end));
  const Length width = ink.width();
  const std::int64_t before = characters(cluster.begin, begin);
  const std::int64_t upto = before + characters(begin, end);
  return {ink.left + width * before / all, ink.left + width * upto / all};
}

}  // namespace

Length pen_before(const GlyphRun& run, std::size_t index) {
  const ShapedText& shape = *run.shape;
  if (index >= shape.glyphs.size()) return width_of(run);
  const ShapedGlyph& glyph = shape.glyphs[index];
  return at_size(*shape.font, run.size, glyph.pen) +
         run.tracking * glyph.characters_before +
         run.word_gap * glyph.spaces_before;
}

Length width_of(const GlyphRun& run) {
  const ShapedText& shape = *run.shape;
  const std::int64_t gaps = shape.characters > 0 ? shape.characters - 1 : 0;
  return at_size(*shape.font, run.size, shape.advance) + run.tracking * gaps +
         run.word_gap * shape.spaces;
}

InkSpan ink_of(const GlyphRun& run, std::size_t begin, std::size_t end) {
  const ShapedText& shape = *run.shape;
  assert(begin <= end && end <= shape.text.size());
  InkSpan all;
  bool inked = false;
  std::size_t start = shape.glyphs.size();
  for (std::size_t i = 0; i < shape.glyphs.size();) {
    const Cluster cluster = cluster_at(shape, i);
    i = cluster.last;
    if (cluster.end <= begin) continue;
    if (start == shape.glyphs.size()) start = cluster.first;
    if (cluster.begin >= end) break;
    InkSpan ink = cluster_ink(run, cluster);
    if (ink.right <= ink.left) continue;
    if (cluster.begin < begin || cluster.end > end) {
      ink = share_of(ink, shape.text, cluster, std::max(begin, cluster.begin),
                     std::min(end, cluster.end));
    }
    all.left = inked ? std::min(all.left, ink.left) : ink.left;
    all.right = inked ? std::max(all.right, ink.right) : ink.right;
    inked = true;
  }
  if (inked) return all;
  const Length pen = pen_before(run, start);
  return {pen, pen};
}

}  // namespace sheaf
