#include "pdf/cff.h"

namespace sheaf {

namespace {

// Reads big-endian numbers and remembers whether it ran off the end.
class Reader {
 public:
  Reader(std::string_view bytes, std::size_t at) : bytes_(bytes), at_(at) {}

  std::uint32_t number(int size) {
    std::uint32_t value = 0;
    for (int i = 0; i < size; ++i) {
      if (at_ >= bytes_.size()) {
        good_ = false;
        return 0;
      }
      value = value << 8U | static_cast<unsigned char>(bytes_[at_++]);
    }
    return value;
  }
  void skip(std::size_t count) { at_ += count; }
  std::size_t at() const { return at_; }
  bool good() const { return good_; }

 private:
  std::string_view bytes_;
  std::size_t at_;
  bool good_ = true;
};

struct Index {
  std::string_view first;  // its first item
  std::size_t end = 0;     // where the next structure begins
};

// An INDEX: count, size of offsets, offsets from 1, items (Note 5176, 5).
std::optional<Index> read_index(std::string_view program, std::size_t at) {
  Reader reader(program, at);
  const std::uint32_t count = reader.number(2);
  if (!reader.good()) return std::nullopt;
  if (count == 0) return Index{{}, reader.at()};
  const int size = static_cast<int>(reader.number(1));
  if (size < 1 || size > 4) return std::nullopt;
  const std::uint32_t first = reader.number(size);
  const std::uint32_t second = reader.number(size);
  // There is one offset more than items; the last one is the end of all.
  reader = Reader(program, at + 3 + count * static_cast<std::size_t>(size));
  const std::uint32_t last = reader.number(size);
  const std::size_t items = reader.at() - 1;
  if (!reader.good() || first < 1 || second < first || last < second ||
      items + last > program.size()) {
    return std::nullopt;
  }
  return Index{program.substr(items + first, second - first), items + last};
}

struct TopDict {
  bool is_cid_keyed = false;
  std::uint32_t charset = 0;
};

// Operators and operands of a DICT (Note 5176, 4): only ROS (12 30) and
// charset (15) are wanted.
std::optional<TopDict> read_top_dict(std::string_view dict) {
  TopDict result;
  Reader reader(dict, 0);
  std::uint32_t operand = 0;
  while (reader.at() < dict.size() && reader.good()) {
    const std::uint32_t byte = reader.number(1);
    if (byte == 12) {
      if (reader.number(1) == 30) result.is_cid_keyed = true;
    } else if (byte <= 21) {
      if (byte == 15) result.charset = operand;
    } else if (byte == 28) {
      operand = reader.number(2);
    } else if (byte == 29) {
      operand = reader.number(4);
    } else if (byte == 30) {
      std::uint32_t pair = 0;
      do {
        pair = reader.number(1);
      } while (reader.good() && (pair & 0xFU) != 0xF && pair >> 4U != 0xF);
    } else if (byte >= 32 && byte <= 246) {
      operand = byte - 139;
    } else if (byte >= 247 && byte <= 250) {
      operand = (byte - 247) * 256 + reader.number(1) + 108;
    } else if (byte >= 251 && byte <= 254) {
      reader.skip(1);
    }
  }
  if (!reader.good()) return std::nullopt;
  return result;
}

// A charset: format 0 lists every CID, 1 and 2 list ranges (Note 5176, 13).
std::optional<std::vector<std::uint16_t>> read_charset(
    std::string_view program, std::uint32_t offset, std::size_t glyph_count) {
  std::vector<std::uint16_t> cids = {0};
  Reader reader(program, offset);
  const std::uint32_t format = reader.number(1);
  while (cids.size() < glyph_count && reader.good() && format <= 2) {
    const std::uint32_t first = reader.number(2);
    const std::uint32_t more =
        format == 0 ? 0 : reader.number(static_cast<int>(format));
    for (std::uint32_t i = 0; i <= more && cids.size() < glyph_count; ++i) {
      cids.push_back(static_cast<std::uint16_t>(first + i));
    }
  }
  if (!reader.good() || format > 2) return std::nullopt;
  return cids;
}

}  // namespace

std::optional<std::vector<std::uint16_t>> cff_glyph_cids(
    std::string_view program, std::size_t glyph_count) {
  Reader header(program, 2);
  const std::size_t header_size = header.number(1);
  if (!header.good()) return std::nullopt;
  const auto names = read_index(program, header_size);
  if (!names) return std::nullopt;
  const auto dicts = read_index(program, names->end);
  if (!dicts) return std::nullopt;
  const auto top = read_top_dict(dicts->first);
  if (!top) return std::nullopt;
  if (top->is_cid_keyed && top->charset > 2) {
    return read_charset(program, top->charset, glyph_count);
  }
  std::vector<std::uint16_t> cids(glyph_count);
  for (std::size_t i = 0; i < glyph_count; ++i) {
    cids[i] = static_cast<std::uint16_t>(i);
  }
  return cids;
}

}  // namespace sheaf
