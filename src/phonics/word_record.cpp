#include "phonics/word_record.h"

#include <algorithm>
#include <array>

namespace sheaf {
namespace {

// Codes below 8 are marks, the frequent correspondences take one byte, the
// others two.
enum Code : std::uint8_t {
  kEnd = 0,
  kSplitE = 1,
  kApostrophe = 2,
  kHyphen = 3,
  kApostropheInside = 4,  // and a byte: after how many letters of the unit
  kFirstUnit = 8,
  kFirstPair = 224,
};
constexpr int kSingles = kFirstPair - kFirstUnit;

constexpr std::array<int, 12> kTiers = {0,  10, 20, 35, 40, 50,
                                        55, 60, 70, 80, 95, 99};

int tier_number(int tier) {
  const auto found = std::ranges::find(kTiers, tier);
  return found == kTiers.end() ? 0 : static_cast<int>(found - kTiers.begin());
}

void encode_unit(CorrespondenceId id, std::vector<std::uint8_t>& bytes) {
  if (id < kSingles) {
    bytes.push_back(static_cast<std::uint8_t>(kFirstUnit + id));
    return;
  }
  const int rest = id - kSingles;
  bytes.push_back(static_cast<std::uint8_t>(kFirstPair + rest / 256));
  bytes.push_back(static_cast<std::uint8_t>(rest % 256));
}

// Reads codes one by one; `unit` is the correspondence where there is one.
struct CodeReader {
  std::span<const std::uint8_t> bytes;
  std::size_t offset;
  const Inventory& inventory;

  struct Item {
    std::uint8_t code = kEnd;
    int unit = -1;
  };

  Item next() {
    if (offset >= bytes.size()) return {};
    const std::uint8_t code = bytes[offset++];
    if (code == kApostropheInside && offset < bytes.size()) {
      return {code, bytes[offset++]};
    }
    if (code < kFirstUnit) return {code, -1};
    int id = code - kFirstUnit;
    if (code >= kFirstPair) {
      const int low = offset < bytes.size() ? bytes[offset++] : 0;
      id = kSingles + (code - kFirstPair) * 256 + low;
    }
    if (id >= static_cast<int>(inventory.all().size())) return {};
    return {code, id};
  }
};

constexpr std::size_t kFixedBytes = 4;
// In the marks.
constexpr std::uint8_t kBathMark = 4;
constexpr std::uint8_t kAccentMark = 32;
constexpr std::uint8_t kVariesMark = 64;
constexpr std::uint8_t kNameTooMark = 128;

// The letters of a unit, with an apostrophe after `inside` of them if that is
// not negative.
void append_unit(std::string& text, const Correspondence& unit, int inside) {
  const std::string_view letters = unit.grapheme().substr(0, unit.width());
  if (inside < 0 || inside > unit.width()) {
    text += letters;
    return;
  }
  text += letters.substr(0, inside);
  text += '\'';
  text += letters.substr(inside);
}

}  // namespace

bool is_short_a(const Segment& segment, const Inventory& inventory) {
  const auto sounds = inventory[segment.id].phonemes();
  return sounds.size() == 1 && sounds[0] == Phoneme::ae;
}

WordRecord join_records(const WordRecord& first, const WordRecord& second,
                        std::string spelling, const Inventory& inventory) {
  WordRecord record = first;
  record.spelling = std::move(spelling);
  record.origin = Reading::Origin::derived;
  record.tier = 0;
  record.label = 0;
  record.more = false;
  const auto shorts = std::ranges::count_if(
      first.segments,
      [&](const Segment& s) { return is_short_a(s, inventory); });
  constexpr unsigned kLow = 0x0F, kHigh = 0xF0;
  const auto part = [&](unsigned mask) {
    return (static_cast<unsigned>(second.bath) & mask) << shorts & mask;
  };
  record.bath =
      static_cast<std::uint8_t>(first.bath | part(kLow) | part(kHigh));
  const auto shift = static_cast<int>(std::ranges::count_if(
      first.spelling, [](char c) { return c >= 'a' && c <= 'z'; }));
  for (Segment s : second.segments) {
    s.begin = static_cast<std::uint8_t>(s.begin + shift);
    if (s.split_e >= 0) s.split_e = static_cast<std::int8_t>(s.split_e + shift);
    record.segments.push_back(s);
  }
  record.stress =
      static_cast<std::uint16_t>(first.stress | second.stress << syllable_count(
                                                    first.segments, inventory));
  return record;
}

void encode_record(const WordRecord& record, const Inventory& inventory,
                   std::vector<std::uint8_t>& bytes) {
  bytes.push_back(static_cast<std::uint8_t>(
      tier_number(record.tier) | static_cast<int>(record.origin) << 4 |
      (record.more ? 0x40 : 0) | (record.label ? 0x80 : 0)));
  bytes.push_back(static_cast<std::uint8_t>(
      (record.everyday ? 1 : 0) | (record.name ? 2 : 0) |
      (record.bath ? kBathMark : 0) | (record.first ? 8 : 0) |
      (record.british ? 16 : 0) | (record.accents ? kAccentMark : 0) |
      (record.varies ? kVariesMark : 0) |
      (record.also_name ? kNameTooMark : 0)));
  bytes.push_back(static_cast<std::uint8_t>(record.stress & 0xFF));
  bytes.push_back(static_cast<std::uint8_t>(record.stress >> 8));
  if (record.label) bytes.push_back(static_cast<std::uint8_t>(record.label));
  if (record.bath) bytes.push_back(record.bath);
  if (record.accents) bytes.push_back(record.accents);

  std::size_t at = 0;  // in the spelling
  int letter = 0;      // of the letters alone
  const auto marks = [&] {
    for (; at < record.spelling.size(); ++at) {
      if (record.spelling[at] == '\'') {
        bytes.push_back(kApostrophe);
      } else if (record.spelling[at] == '-') {
        bytes.push_back(kHyphen);
      } else {
        return;
      }
    }
  };
  int split_e = -1;
  for (const Segment& segment : record.segments) {
    if (split_e >= 0 && letter == split_e) {
      bytes.push_back(kSplitE);
      ++letter;
      ++at;
      split_e = -1;
    }
    marks();
    const std::size_t width = inventory[segment.id].width();
    const std::size_t inside = record.spelling.find('\'', at) - at;
    if (inside < width) {
      bytes.push_back(kApostropheInside);
      bytes.push_back(static_cast<std::uint8_t>(inside));
      ++at;
    }
    encode_unit(segment.id, bytes);
    letter += static_cast<int>(width);
    at += width;
    if (segment.split_e >= 0) {
      split_e = static_cast<std::uint8_t>(segment.split_e);
    }
  }
  if (split_e >= 0) {
    bytes.push_back(kSplitE);
    ++at;
  }
  marks();
  bytes.push_back(kEnd);
}

std::optional<WordRecord> decode_record(std::span<const std::uint8_t> bytes,
                                        std::size_t& offset,
                                        const Inventory& inventory) {
  if (offset + kFixedBytes >= bytes.size()) return std::nullopt;
  WordRecord record;
  const std::uint8_t flags = bytes[offset];
  const WordHead head = record_head(bytes, offset);
  record.tier = head.tier;
  record.origin = static_cast<Reading::Origin>((flags >> 4) & 3);
  record.more = flags & 0x40;
  record.everyday = head.everyday;
  record.first = head.first;
  record.british = head.british;
  record.name = head.name;
  record.also_name = head.also_name;
  const std::uint8_t marks = bytes[offset + 1];
  record.varies = (marks & kVariesMark) != 0;
  record.stress =
      static_cast<std::uint16_t>(bytes[offset + 2] | bytes[offset + 3] << 8);
  offset += kFixedBytes;
  if (flags & 0x80) record.label = bytes[offset++];
  if ((marks & kBathMark) != 0) {
    if (offset >= bytes.size()) return std::nullopt;
    record.bath = bytes[offset++];
  }
  if ((marks & kAccentMark) != 0) {
    if (offset >= bytes.size()) return std::nullopt;
    record.accents = bytes[offset++] & kEveryAccent;
  }

  constexpr std::size_t kUsualSegments = 8;
  record.segments.reserve(kUsualSegments);
  CodeReader reader{bytes, offset, inventory};
  int letter = 0;
  int open_split = -1;
  int inside = -1;
  for (auto item = reader.next(); item.code != kEnd; item = reader.next()) {
    switch (item.code) {
      case kSplitE:
        if (open_split >= 0) {
          record.segments[open_split].split_e =
              static_cast<std::int8_t>(letter);
        }
        open_split = -1;
        ++letter;
        record.spelling += 'e';
        break;
      case kApostrophe:
        record.spelling += '\'';
        break;
      case kHyphen:
        record.spelling += '-';
        break;
      case kApostropheInside:
        inside = item.unit;
        break;
      default: {
        const auto id = static_cast<CorrespondenceId>(item.unit);
        const Correspondence& unit = inventory[id];
        if (unit.is_split()) {
          open_split = static_cast<int>(record.segments.size());
        }
        record.segments.push_back({id, static_cast<std::uint8_t>(letter), -1});
        append_unit(record.spelling, unit, inside);
        inside = -1;
        letter += unit.width();
      }
    }
  }
  offset = reader.offset;
  return record;
}

bool record_spells(std::span<const std::uint8_t> bytes, std::size_t offset,
                   std::string_view spelling, const Inventory& inventory) {
  if (offset + kFixedBytes >= bytes.size()) return false;
  const std::size_t further = ((bytes[offset] & 0x80) != 0 ? 1 : 0) +
                              ((bytes[offset + 1] & kBathMark) != 0 ? 1 : 0) +
                              ((bytes[offset + 1] & kAccentMark) != 0 ? 1 : 0);
  CodeReader reader{bytes, offset + kFixedBytes + further, inventory};
  std::size_t at = 0;
  int inside = -1;
  const auto take = [&](std::string_view part) {
    if (spelling.substr(at, part.size()) != part) return false;
    at += part.size();
    return true;
  };
  for (auto item = reader.next(); item.code != kEnd; item = reader.next()) {
    bool same = true;
    switch (item.code) {
      case kSplitE:
        same = take("e");
        break;
      case kApostrophe:
        same = take("'");
        break;
      case kHyphen:
        same = take("-");
        break;
      case kApostropheInside:
        inside = item.unit;
        break;
      default: {
        const Correspondence& unit =
            inventory[static_cast<CorrespondenceId>(item.unit)];
        if (inside < 0) {
          same = take(unit.grapheme().substr(0, unit.width()));
        } else {
          std::string letters;
          append_unit(letters, unit, inside);
          same = take(letters);
          inside = -1;
        }
      }
    }
    if (!same) return false;
  }
  return at == spelling.size();
}

int record_tier(std::span<const std::uint8_t> bytes, std::size_t offset) {
  const std::size_t number = bytes[offset] & 0x0F;
  return number < kTiers.size() ? kTiers[number] : 0;
}

WordHead record_head(std::span<const std::uint8_t> bytes, std::size_t offset) {
  return {
      record_tier(bytes, offset),    (bytes[offset + 1] & 1) != 0,
      (bytes[offset + 1] & 8) != 0,  (bytes[offset + 1] & 2) != 0,
      (bytes[offset + 1] & 16) != 0, (bytes[offset + 1] & kNameTooMark) != 0};
}

}  // namespace sheaf
