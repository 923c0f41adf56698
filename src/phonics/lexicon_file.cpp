#include "phonics/lexicon_file.h"

#include <cassert>
#include <cstring>

#include <fmt/format.h>

#include "base/error.h"
#include "base/shuffle.h"

namespace sheaf {
namespace {

struct Head {
  char magic[8];
  std::uint32_t version;
  std::uint32_t section_count;
  struct Place {
    std::uint32_t offset;
    std::uint32_t size;
  } places[kSectionCount];
};

constexpr char kMagic[8] = {'S', 'h', 'e', 'a', 'f', 'W', 'd', 's'};
constexpr std::uint32_t kVersion = 11;
constexpr std::size_t kAlignment = 16;

}  // namespace

LexiconFile::LexiconFile(KeptBytes file, std::string_view name)
    : file_(std::move(file)) {
  Head head{};
  const std::size_t size = file_.bytes.size();
  bool good = size >= sizeof head;
  if (good) {
    std::memcpy(&head, data(), sizeof head);
    good = std::memcmp(head.magic, kMagic, sizeof kMagic) == 0 &&
           head.version == kVersion && head.section_count == kSectionCount;
  }
  for (int i = 0; good && i < kSectionCount; ++i) {
    const auto [offset, length] = head.places[i];
    good =
        offset <= size && length <= size - offset && offset % kAlignment == 0;
  }
  if (good) return;
  throw MachineError(
      fmt::format("`{}` is not a word list of this version of Sheaf", name));
}

std::span<const std::uint8_t> LexiconFile::section(Section which) const {
  Head head;
  std::memcpy(&head, data(), sizeof head);
  const auto [offset, size] = head.places[static_cast<int>(which)];
  return {data() + offset, size};
}

std::string_view LexiconFile::text(Section which) const {
  const auto bytes = section(which);
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

std::vector<std::uint8_t> lexicon_file_bytes(
    std::span<const std::vector<std::uint8_t>> sections) {
  assert(sections.size() == kSectionCount);
  Head head{};
  std::memcpy(head.magic, kMagic, sizeof kMagic);
  head.version = kVersion;
  head.section_count = kSectionCount;
  std::vector<std::uint8_t> bytes(sizeof head);
  for (int i = 0; i < kSectionCount; ++i) {
    bytes.resize((bytes.size() + kAlignment - 1) / kAlignment * kAlignment);
    head.places[i] = {static_cast<std::uint32_t>(bytes.size()),
                      static_cast<std::uint32_t>(sections[i].size())};
    bytes.insert(bytes.end(), sections[i].begin(), sections[i].end());
  }
  std::memcpy(bytes.data(), &head, sizeof head);
  return bytes;
}

std::size_t word_slot(std::string_view spelling, std::size_t slots) {
  // The upper half of the product maps the hash onto 0 .. slots - 1.
  const std::uint64_t hash = text_hash(spelling);
  return static_cast<std::size_t>(((hash >> 32) * slots) >> 32);
}

}  // namespace sheaf
