#include "pdf_form.h"

#include <charconv>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include <libdeflate.h>

#include "fuzz_checks.h"

namespace sheaf::fuzz {

namespace {

std::size_t read_number(std::string_view text) {
  std::size_t value = 0;
  const auto [stop, fault] =
      std::from_chars(text.data(), text.data() + text.size(), value);
  require(fault == std::errc());
  return value;
}

/// The number behind a key of a dictionary, as in `/Size 607`.
std::size_t number_of(std::string_view dictionary, std::string_view key) {
  const std::size_t at = dictionary.find(key);
  require(at != std::string_view::npos);
  return read_number(dictionary.substr(at + key.size()));
}

constexpr std::size_t kLargest = std::size_t{8} << 20U;

/// Unpacks into one room, which lives as long as the program: to take and clear
/// it for each object took longer than to write the pages.
class Unpacker {
 public:
  static Unpacker& one() {
    static auto* const made = new Unpacker;
    return *made;
  }
  /// Good until the next call.
  std::string_view unpack(std::string_view packed, std::size_t most_bytes) {
    require(most_bytes <= kLargest);
    std::size_t size = 0;
    require(libdeflate_zlib_decompress(machine_, packed.data(), packed.size(),
                                       room_.get(), most_bytes,
                                       &size) == LIBDEFLATE_SUCCESS);
    return {room_.get(), size};
  }

 private:
  std::unique_ptr<char[]> room_ =
      std::make_unique_for_overwrite<char[]>(kLargest);
  libdeflate_decompressor* machine_ = libdeflate_alloc_decompressor();
};

/// What an object holds that is packed, unpacked; good until the next call.
std::string_view stream_at(std::string_view file, std::size_t place,
                           std::size_t most_bytes) {
  const std::string_view there = file.substr(place);
  constexpr std::string_view kBegin = ">>\nstream\n";
  const std::size_t end = there.find(kBegin);
  require(end != std::string_view::npos);
  const std::string_view dictionary = there.substr(0, end + 2);
  require(dictionary.find("/Filter/FlateDecode") != std::string_view::npos);
  const std::size_t length = number_of(dictionary, "/Length ");
  const std::string_view packed = there.substr(end + kBegin.size());
  require(length < packed.size());
  require(packed.substr(length).starts_with("\nendstream\nendobj\n"));
  return Unpacker::one().unpack(packed.substr(0, length), most_bytes);
}

struct Entry {
  std::uint8_t kind = 0;
  std::size_t place = 0;
  std::size_t index = 0;
};

// Rows of a kind, four bytes and two, each as the difference to the one above.
std::vector<Entry> entries_of(std::string_view table, std::size_t count) {
  std::string bytes(table);
  constexpr std::size_t kRow = 7;
  require(bytes.size() == count * (kRow + 1));
  std::vector<Entry> entries;
  for (std::size_t row = 0; row < count; ++row) {
    char* const here = bytes.data() + row * (kRow + 1);
    require(here[0] == 2);
    std::size_t values[kRow];
    for (std::size_t i = 0; i < kRow; ++i) {
      char& byte = here[i + 1];
      if (row > 0) byte = static_cast<char>(byte + (&byte)[-int{kRow} - 1]);
      values[i] = static_cast<unsigned char>(byte);
    }
    entries.push_back(
        {static_cast<std::uint8_t>(values[0]),
         values[1] << 24U | values[2] << 16U | values[3] << 8U | values[4],
         values[5] << 8U | values[6]});
  }
  return entries;
}

std::size_t count_pages(std::string_view text) {
  constexpr std::string_view kPage = "/Type /Page\n";
  std::size_t count = 0;
  for (std::size_t at = text.find(kPage); at != std::string_view::npos;
       at = text.find(kPage, at + 1)) {
    ++count;
  }
  return count;
}

}  // namespace

void check_pdf(std::string_view bytes, std::size_t pages) {
  require(bytes.starts_with("%PDF-1.7\n"));
  require(bytes.ends_with("\n%%EOF\n"));
  constexpr std::string_view kStart = "\nstartxref\n";
  const std::size_t start = bytes.rfind(kStart);
  require(start != std::string_view::npos);
  const std::size_t table = read_number(bytes.substr(start + kStart.size()));
  require(table < start);
  const std::string_view head = bytes.substr(table, 400);
  require(head.find(" 0 obj\n<</Type/XRef/Size ") < 12);
  const std::size_t count = number_of(head, "/Size ");
  const std::vector<Entry> entries =
      entries_of(stream_at(bytes, table, count * 8 + 1), count);
  std::size_t found = 0;
  for (std::size_t object = 1; object < count; ++object) {
    const Entry& entry = entries[object];
    if (entry.kind == 1) {
      require(entry.place < table + 1);
      require(read_number(bytes.substr(entry.place)) == object);
      const std::string_view there = bytes.substr(entry.place, 80);
      require(there.find(" 0 obj\n") < 12);
      if (there.find("/Type/ObjStm") == std::string_view::npos) continue;
      found += count_pages(stream_at(bytes, entry.place, kLargest));
    } else if (entry.kind != 0) {  // 0: a number that nothing has
      // In an object that holds others.
      require(entry.kind == 2 && entry.place < count);
      require(entries[entry.place].kind == 1);
      require(entry.index <
              number_of(bytes.substr(entries[entry.place].place, 200), "/N "));
    }
  }
  require(found == pages);
}

}  // namespace sheaf::fuzz
