#include "pdf/file_writer.h"

#include <array>
#include <cassert>
#include <limits>
#include <tuple>

#include "base/error.h"
#include "pdf/file_form.h"
#include "pdf/operators.h"

namespace sheaf {

namespace {

// Readers unpack an object stream whole, so it must not be large; a small one
// packs worse.
constexpr std::size_t kPackedObjects = 400;
constexpr std::size_t kPackedBytes = 32768;

// Offsets have four bytes, and readers count them with signs.
constexpr std::size_t kMaxFile = std::numeric_limits<std::int32_t>::max();

constexpr std::size_t kBlock = 262144;

constexpr std::string_view kNoIdentifier = "00000000000000000000000000000000";

void patch_identifier(std::string& file, std::size_t place) {
  std::string hex;
  for (const std::uint32_t sum : checksums(file)) {
    for (int shift = 28; shift >= 0; shift -= 4) {
      hex += "0123456789abcdef"[sum >> shift & 0xF];
    }
  }
  assert(hex.size() == kNoIdentifier.size());
  file.replace(place, hex.size(), hex);
  file.replace(place + hex.size() + 2, hex.size(), hex);
}

}  // namespace

FileWriter::FileWriter(Deflater& deflater)
    : deflater_(deflater), file_(kPdfHeader) {}

void FileWriter::reserve(ObjectId last) {
  assert(entries_.size() <= last + std::size_t{1});
  // Object streams take fewer than one number in a hundred.
  entries_.reserve(last + last / 100 + 16);
  entries_.resize(last + std::size_t{1});
}

FileWriter::Entry& FileWriter::entry(ObjectId id) {
  if (entries_.size() <= id) entries_.resize(id + 1);
  return entries_[id];
}

void FileWriter::begin_object(ObjectId id) {
  if (size() > kMaxFile) {
    throw MachineError("the PDF would be larger than 2 GB");
  }
  if (file_.size() >= kBlock) {
    full_size_ += file_.size();
    full_.push_back(std::move(file_));
    file_ = {};
    file_.reserve(kBlock + kBlock / 4);
  }
  entry(id) = {1, static_cast<std::uint32_t>(size()), 0};
  append_integer(file_, id);
  file_ += " 0 obj\n";
}

void FileWriter::stream(ObjectId id, std::string_view entries,
                        std::string_view data) {
  begin_object(id);
  file_ += "<<";
  file_ += entries;
  file_ += "/Length ";
  append_integer(file_, static_cast<std::int64_t>(data.size()));
  file_ += ">>\nstream\n";
  file_ += data;
  file_ += "\nendstream\nendobj\n";
}

std::string& FileWriter::begin_plain(ObjectId id) {
  if (packed_.size() >= kPackedObjects || packed_text_.size() >= kPackedBytes) {
    flush_packed();
  }
  // The head of the stream says where each object begins; nothing parts them.
  packed_.push_back(id);
  packed_begins_.push_back(packed_text_.size());
  return packed_text_;
}

void FileWriter::plain(ObjectId id, std::string_view text) {
  begin_plain(id) += text;
}

void FileWriter::unpacked(ObjectId id, std::string_view text) {
  begin_object(id);
  file_ += text;
  file_ += "\nendobj\n";
}

void FileWriter::flush_packed() {
  if (packed_.empty()) return;
  const auto container = static_cast<ObjectId>(entries_.size());
  std::string head;
  for (std::size_t i = 0; i < packed_.size(); ++i) {
    entry(packed_[i]) = {2, container, static_cast<std::uint16_t>(i)};
    append_integer(head, packed_[i]);
    head += ' ';
    append_integer(head, static_cast<std::int64_t>(packed_begins_[i]));
    head += ' ';
  }
  std::string dictionary = "/Type/ObjStm/N ";
  append_integer(dictionary, static_cast<std::int64_t>(packed_.size()));
  dictionary += "/First ";
  append_integer(dictionary, static_cast<std::int64_t>(head.size()));
  dictionary += "/Filter/FlateDecode";
  head += packed_text_;
  stream(container, dictionary,
         deflater_.deflate(head, Deflater::Effort::quick));
  packed_.clear();
  packed_begins_.clear();
  packed_text_.clear();
}

// Seven bytes an entry, each row as the difference to the one above (PNG's
// "up"): most differences are 0 or 1.
std::string FileWriter::cross_references() {
  // Unused numbers form a ring that starts and ends at number 0.
  std::uint32_t next_unused = 0;
  for (std::size_t id = entries_.size(); id-- > 0;) {
    if (entries_[id].type != 0) continue;
    entries_[id] = {0, next_unused, static_cast<std::uint16_t>(id ? 1 : 65535)};
    next_unused = static_cast<std::uint32_t>(id);
  }
  using Row = std::array<std::uint8_t, 7>;
  std::string rows;
  rows.reserve(entries_.size() * (std::tuple_size_v<Row> + 1));
  Row above{};
  for (const Entry& entry : entries_) {
    const auto byte = [](std::uint32_t value, unsigned shift) {
      return static_cast<std::uint8_t>(value >> shift & 0xFFU);
    };
    const Row row = {
        entry.type,           byte(entry.place, 24), byte(entry.place, 16),
        byte(entry.place, 8), byte(entry.place, 0),  byte(entry.index, 8),
        byte(entry.index, 0)};
    std::array<char, 8> filtered{'\2'};
    for (std::size_t i = 0; i < row.size(); ++i) {
      filtered[i + 1] = static_cast<char>(row[i] - above[i]);
    }
    rows.append(filtered.data(), filtered.size());
    above = row;
  }
  return rows;
}

std::string FileWriter::finish(ObjectId catalog, ObjectId info) {
  flush_packed();
  const auto id = static_cast<ObjectId>(entries_.size());
  begin_object(id);
  const std::size_t start = entries_[id].place;
  const std::string rows =
      deflater_.deflate(cross_references(), Deflater::Effort::quick);
  file_ += kLastObject;
  append_integer(file_, id + 1);
  file_ += kLastEntries;
  append_reference(file_, catalog);
  file_ += "/Info ";
  append_reference(file_, info);
  file_ += "/ID[<";
  const std::size_t identifier = size();
  file_ += kNoIdentifier;
  file_ += "><";
  file_ += kNoIdentifier;
  file_ += ">]/Length ";
  append_integer(file_, static_cast<std::int64_t>(rows.size()));
  file_ += ">>\nstream\n";
  file_ += rows;
  file_ += "\nendstream\nendobj\nstartxref\n";
  append_integer(file_, static_cast<std::int64_t>(start));
  file_ += "\n%%EOF\n";
  std::string file = joined();
  patch_identifier(file, identifier);
  return file;
}

// Blocks go as they are copied, so that there is never more than one twice.
std::string FileWriter::joined() {
  if (full_.empty()) return std::move(file_);
  std::string file;
  file.reserve(size());
  full_.push_back(std::move(file_));
  for (std::string& block : full_) {
    file += block;
    std::string().swap(block);
  }
  return file;
}

}  // namespace sheaf
