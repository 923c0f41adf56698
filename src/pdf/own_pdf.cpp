#include "pdf/own_pdf.h"

#include <charconv>
#include <string_view>

#include "base/utf8.h"
#include "pdf/file_form.h"

namespace sheaf {

namespace {

constexpr std::size_t kHead = 4096;  // a title is far shorter
constexpr std::size_t kTail = 64;
constexpr std::size_t kEntries = 512;

// Text that is read from the front.
class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  std::string_view rest() const { return text_; }
  bool take(std::string_view wanted) {
    if (!text_.starts_with(wanted)) return false;
    text_.remove_prefix(wanted.size());
    return true;
  }
  std::optional<std::uint64_t> number() {
    std::uint64_t number = 0;
    const auto [end, fault] =
        std::from_chars(text_.data(), text_.data() + text_.size(), number);
    if (fault != std::errc()) return std::nullopt;
    text_.remove_prefix(static_cast<std::size_t>(end - text_.data()));
    return number;
  }
  bool skip(std::size_t size) {
    if (size > text_.size()) return false;
    text_.remove_prefix(size);
    return true;
  }

 private:
  std::string_view text_;
};

std::optional<unsigned> read_hex16(std::string_view text) {
  unsigned unit = 0;
  if (text.size() < 4) return std::nullopt;
  const auto [end, fault] =
      std::from_chars(text.data(), text.data() + 4, unit, 16);
  if (fault != std::errc() || end != text.data() + 4) return std::nullopt;
  return unit;
}

// What `append_text_string` wrote in hexadecimal figures.
std::optional<std::string> read_utf16(std::string_view text) {
  std::string title;
  unsigned high = 0;
  while (!text.starts_with('>')) {
    const auto unit = read_hex16(text);
    if (!unit) return std::nullopt;
    text.remove_prefix(4);
    if (*unit >= 0xD800 && *unit < 0xDC00) {
      high = *unit;
    } else if (*unit >= 0xDC00 && *unit < 0xE000) {
      append_utf8(title, 0x10000 + ((high & 0x3FFU) << 10U) + (*unit & 0x3FFU));
    } else {
      append_utf8(title, *unit);
    }
  }
  return title;
}

std::optional<std::string> read_text_string(std::string_view text) {
  constexpr std::string_view kUtf16 = "<FEFF";
  if (text.starts_with(kUtf16)) return read_utf16(text.substr(kUtf16.size()));
  if (!text.starts_with('(')) return std::nullopt;
  std::string title;
  for (std::size_t at = 1; at < text.size(); ++at) {
    if (text[at] == ')') return title;
    if (text[at] == '\\') ++at;
    if (at < text.size()) title += text[at];
  }
  return std::nullopt;
}

// The first object has the mark; before there was one, it was a page.
std::optional<OwnPdf> read_head(std::string_view head) {
  Reader reader(head);
  if (!reader.take(kPdfHeader) || !reader.number() ||
      !reader.take(" 0 obj\n")) {
    return std::nullopt;
  }
  if (reader.take("<</Filter/FlateDecode/Length ")) return OwnPdf{};
  if (!reader.take(kInfoBegin)) return std::nullopt;
  auto title = read_text_string(reader.rest());
  if (!title) return std::nullopt;
  return OwnPdf{std::move(*title)};
}

// Where the last object begins, by the last lines of the file.
std::optional<std::uint64_t> read_tail(std::string_view tail) {
  constexpr std::string_view kStart = "\nstartxref\n";
  const std::size_t at = tail.rfind(kStart);
  if (at == std::string_view::npos) return std::nullopt;
  Reader reader(tail.substr(at + kStart.size()));
  const auto place = reader.number();
  if (!place || reader.rest() != "\n%%EOF\n") return std::nullopt;
  return place;
}

// Whether the last object is the one that Sheaf ends a file with, and reaches
// to the file's end. `part` begins where it begins.
bool is_last_object(std::string_view part, std::uint64_t place,
                    std::uint64_t size) {
  constexpr std::size_t kIdentifier = 32;
  constexpr std::string_view kEnd = "\nendstream\nendobj\nstartxref\n\n%%EOF\n";
  Reader reader(part);
  if (!reader.number() || !reader.take(" 0 obj\n") ||
      !reader.take(kLastObject) || !reader.number() ||
      !reader.take(kLastEntries) || !reader.number() ||
      !reader.take(" 0 R/Info ") || !reader.number() ||
      !reader.take(" 0 R/ID[<") || !reader.skip(kIdentifier) ||
      !reader.take("><") || !reader.skip(kIdentifier) ||
      !reader.take(">]/Length ")) {
    return false;
  }
  const auto length = reader.number();
  if (!length || *length > size || !reader.take(">>\nstream\n")) return false;
  const std::size_t entries = part.size() - reader.rest().size();
  return place + entries + *length + kEnd.size() +
             std::to_string(place).size() ==
         size;
}

}  // namespace

std::optional<OwnPdf> read_own_pdf(std::uint64_t size, const ReadPart& read) {
  auto pdf = read_head(read(0, kHead));
  if (!pdf) return std::nullopt;
  const std::uint64_t tail = size > kTail ? size - kTail : 0;
  const auto place = read_tail(read(tail, kTail));
  if (!place || *place >= size ||
      !is_last_object(read(*place, kEntries), *place, size)) {
    return std::nullopt;
  }
  return pdf;
}

}  // namespace sheaf
