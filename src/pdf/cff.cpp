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
  std::vector<std::string_view> items;
  std::size_t end = 0;  // where the next structure begins
};

// An INDEX: count, size of offsets, offsets from 1, items (Note 5176, 5). There
// is one offset more than items; the last one is the end of all.
std::optional<Index> read_index(std::string_view program, std::size_t at) {
  Reader reader(program, at);
  const std::uint32_t count = reader.number(2);
  if (!reader.good()) return std::nullopt;
  if (count == 0) return Index{{}, reader.at()};
  const int size = static_cast<int>(reader.number(1));
  if (size < 1 || size > 4) return std::nullopt;
  const std::size_t base =
      at + 2 + (count + 1) * static_cast<std::size_t>(size);
  Index index;
  std::size_t begin = reader.number(size);
  for (std::uint32_t i = 0; i < count; ++i) {
    const std::size_t end = reader.number(size);
    if (!reader.good() || begin < 1 || end < begin ||
        base + end > program.size()) {
      return std::nullopt;
    }
    index.items.push_back(program.substr(base + begin, end - begin));
    begin = end;
  }
  index.end = base + begin;
  return index;
}

// A number in a DICT and where its bytes stand.
struct Operand {
  double value = 0;
  std::size_t begin = 0, end = 0;
};

struct Entry {
  std::uint32_t op = 0;  // two bytes: 0x0C00 and the second
  std::vector<Operand> operands;
  std::size_t begin = 0, end = 0;
};

// Operators of a DICT (Note 5176, 9, 10, 15, 18 and 19).
constexpr std::uint32_t kCharset = 15;
constexpr std::uint32_t kPrivate = 18;
constexpr std::uint32_t kSubrs = 19;
constexpr std::uint32_t kDefaultWidth = 20;
constexpr std::uint32_t kNominalWidth = 21;
constexpr std::uint32_t kRos = 0x0C1E;
constexpr std::uint32_t kFontDicts = 0x0C24;

// A number with a decimal point: a digit in each half of a byte (Note 5176, 4,
// table 5). Powers of ten, which no width needs, are passed over.
double read_decimal(Reader& reader) {
  double value = 0, place = 1, sign = 1;
  bool is_fraction = false, is_power = false;
  while (reader.good()) {
    const std::uint32_t pair = reader.number(1);
    for (const std::uint32_t half : {pair >> 4U, pair & 0xFU}) {
      if (half == 0xF) return sign * value;
      if (half == 0xA) is_fraction = true;
      if (half == 0xB || half == 0xC) is_power = true;
      if (half == 0xE) sign = -1;
      if (half > 9 || is_power) continue;
      if (is_fraction) place /= 10;
      value = is_fraction ? value + half * place : value * 10 + half;
    }
  }
  return value;
}

double read_number(Reader& reader, std::uint32_t byte) {
  if (byte == 28) return static_cast<std::int16_t>(reader.number(2));
  if (byte == 29) return static_cast<std::int32_t>(reader.number(4));
  if (byte == 30) return read_decimal(reader);
  if (byte <= 246) return static_cast<double>(byte) - 139;
  const auto low = static_cast<double>(reader.number(1));
  if (byte <= 250) return (byte - 247) * 256.0 + low + 108;
  return (byte - 251) * -256.0 - low - 108;
}

// The entries of a DICT (Note 5176, 4), each with the places of its bytes.
std::optional<std::vector<Entry>> read_dict(std::string_view dict) {
  std::vector<Entry> entries;
  Entry entry;
  Reader reader(dict, 0);
  while (reader.at() < dict.size() && reader.good()) {
    const std::size_t begin = reader.at();
    const std::uint32_t byte = reader.number(1);
    if (byte <= 21) {
      entry.op = byte == 12 ? 0x0C00U | reader.number(1) : byte;
      entry.end = reader.at();
      entries.push_back(std::move(entry));
      entry = {};
      entry.begin = reader.at();
    } else if (byte >= 28 && byte != 31 && byte != 255) {
      const double value = read_number(reader, byte);
      entry.operands.push_back({value, begin, reader.at()});
    }
  }
  if (!reader.good()) return std::nullopt;
  return entries;
}

const Entry* find_entry(const std::vector<Entry>& entries, std::uint32_t op) {
  for (const Entry& entry : entries) {
    if (entry.op == op && !entry.operands.empty()) return &entry;
  }
  return nullptr;
}

std::size_t offset_of(const Operand& operand) {
  return operand.value < 0 ? 0 : static_cast<std::size_t>(operand.value);
}

struct TopDict {
  std::string_view bytes;
  std::vector<Entry> entries;
};

std::optional<TopDict> read_top_dict(std::string_view program) {
  Reader header(program, 2);
  const std::size_t header_size = header.number(1);
  if (!header.good()) return std::nullopt;
  const auto names = read_index(program, header_size);
  if (!names) return std::nullopt;
  const auto dicts = read_index(program, names->end);
  if (!dicts || dicts->items.empty()) return std::nullopt;
  auto entries = read_dict(dicts->items[0]);
  if (!entries) return std::nullopt;
  return TopDict{dicts->items[0], std::move(*entries)};
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

void append_number(std::string& dict, std::int32_t value) {
  dict += '\x1D';
  for (int shift = 24; shift >= 0; shift -= 8) {
    dict += static_cast<char>(static_cast<std::uint32_t>(value) >>
                              static_cast<unsigned>(shift));
  }
}

void append_entry(std::string& dict, std::int32_t value, std::uint32_t op) {
  append_number(dict, value);
  dict += static_cast<char>(op);
}

std::int32_t width_in(const std::vector<Entry>& entries, std::uint32_t op) {
  const Entry* entry = find_entry(entries, op);
  const double value = entry ? entry->operands.back().value : 0;
  return static_cast<std::int32_t>(value < 0 ? value - 0.5 : value + 0.5);
}

// Puts a Private DICT with wider widths, and the subroutines that it leads to,
// at the end of the program; `dict` begins at `dict_at` in the program and its
// entry for the old one is made to lead there.
bool widen_private(std::string& program, std::size_t dict_at,
                   const std::vector<Entry>& dict, std::int32_t added) {
  const Entry* place = find_entry(dict, kPrivate);
  if (!place) return true;
  if (place->operands.size() != 2) return false;
  const Operand& size_operand = place->operands[0];
  const Operand& offset_operand = place->operands[1];
  const std::size_t size = offset_of(size_operand);
  const std::size_t begin = offset_of(offset_operand);
  if (begin > program.size() || size > program.size() - begin) return false;
  const std::string old = program.substr(begin, size);
  const auto entries = read_dict(old);
  if (!entries) return false;

  std::string made;
  for (const Entry& entry : *entries) {
    if (entry.op == kSubrs || entry.op == kDefaultWidth ||
        entry.op == kNominalWidth) {
      continue;
    }
    made.append(old, entry.begin, entry.end - entry.begin);
  }
  append_entry(made, width_in(*entries, kDefaultWidth) + added, kDefaultWidth);
  append_entry(made, width_in(*entries, kNominalWidth) + added, kNominalWidth);
  std::string routines;
  if (const Entry* subrs = find_entry(*entries, kSubrs)) {
    const std::size_t at = begin + offset_of(subrs->operands.back());
    const auto index = read_index(program, at);
    if (!index) return false;
    routines = program.substr(at, index->end - at);
    constexpr std::size_t kEntrySize = 6;
    append_entry(made, static_cast<std::int32_t>(made.size() + kEntrySize),
                 kSubrs);
  }
  // The subsetter writes two bytes and four for size and place, so that what
  // is put in their stead takes as many.
  constexpr std::size_t kShort = 3, kLong = 5;
  if (size_operand.end - size_operand.begin != kShort ||
      offset_operand.end - offset_operand.begin != kLong ||
      made.size() > 0x7FFF) {
    return false;
  }
  std::string stead = "\x1C";
  stead += static_cast<char>(made.size() >> 8U);
  stead += static_cast<char>(made.size() & 0xFFU);
  append_number(stead, static_cast<std::int32_t>(program.size()));
  program.replace(dict_at + size_operand.begin, kShort + kLong, stead);
  program += made;
  program += routines;
  return true;
}

}  // namespace

std::optional<std::vector<std::uint16_t>> cff_glyph_cids(
    std::string_view program, std::size_t glyph_count) {
  const auto top = read_top_dict(program);
  if (!top) return std::nullopt;
  const Entry* charset = find_entry(top->entries, kCharset);
  const bool is_cid_keyed = find_entry(top->entries, kRos) != nullptr;
  if (is_cid_keyed && charset && charset->operands.back().value > 2) {
    return read_charset(program, offset_of(charset->operands.back()),
                        glyph_count);
  }
  std::vector<std::uint16_t> cids(glyph_count);
  for (std::size_t i = 0; i < glyph_count; ++i) {
    cids[i] = static_cast<std::uint16_t>(i);
  }
  return cids;
}

std::optional<std::string> cff_with_widths(std::string_view program,
                                           std::int32_t added) {
  std::string result(program);
  if (added == 0) return result;
  const auto top = read_top_dict(program);
  if (!top) return std::nullopt;
  const auto widen = [&](std::string_view dict) {
    const auto entries = read_dict(dict);
    return entries &&
           widen_private(result,
                         static_cast<std::size_t>(dict.data() - program.data()),
                         *entries, added);
  };
  // One for the font, or one for each of its parts if it is keyed by CIDs.
  const Entry* parts = find_entry(top->entries, kFontDicts);
  if (!parts) {
    if (!widen(top->bytes)) return std::nullopt;
    return result;
  }
  const auto dicts = read_index(program, offset_of(parts->operands.back()));
  if (!dicts) return std::nullopt;
  for (const std::string_view dict : dicts->items) {
    if (!widen(dict)) return std::nullopt;
  }
  return result;
}

}  // namespace sheaf
