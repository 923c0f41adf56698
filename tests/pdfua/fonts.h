#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "pdfua/cmap.h"
#include "pdfua/report.h"

#include <qpdf/QPDFObjectHandle.hh>

namespace pdfua {

/// A font of the file and what is shown with it. Reads composite fonts
/// (Type 0) whole; of simple fonts, which Sheaf does not write, only whether
/// they are embedded and have a way back to text.
class FontChecker {
 public:
  FontChecker(QPDFObjectHandle font, Report& report);
  ~FontChecker();

  /// Codes shown by a text operator, in text rendering mode `mode`.
  void show(const std::string& bytes, int mode);
  /// The same codes as text (UTF-8), by the font's way back to it; codes that
  /// have none are U+FFFD.
  std::string text_of(const std::string& bytes) const;
  /// Whether one of the codes stands for a character of Unicode's private use
  /// area.
  bool shows_private_use(const std::string& bytes) const;
  /// The first or the last character of what a text operator shows; 0 where
  /// there is none or it has no text.
  char16_t first_character(const std::string& bytes) const;
  char16_t last_character(const std::string& bytes) const;
  /// Rules of the font itself, once all that it shows is known.
  void finish();

 private:
  struct Program;
  std::vector<std::uint32_t> codes_of(const std::string& bytes) const;
  std::size_t code_size() const;
  void read_composite();
  void read_encoding();
  void check_system_info(QPDFObjectHandle encoding);
  void check_glyph(std::uint32_t code, int mode);
  void check_text(std::uint32_t code);
  void check_cid_set();
  std::u16string text_at(const std::string& bytes, std::size_t at) const;
  std::optional<std::uint32_t> cid_of(std::uint32_t code) const;
  /// The glyph in the program that a CID stands for; nothing where the CID is
  /// beyond the map.
  std::optional<std::uint32_t> glyph_of(std::uint32_t cid) const;
  double stated_width(std::uint32_t cid) const;

  QPDFObjectHandle font_;
  Report& report_;
  std::string name_;
  bool is_composite_ = false;
  bool is_rendered_ = false;
  bool is_readable_ = true;  // codes can be led to CIDs
  bool is_identity_ = true;
  CMap encoding_;
  std::optional<CMap> to_unicode_;
  QPDFObjectHandle cid_font_, descriptor_;
  std::string cid_to_glyph_;  // empty: the CID is the glyph
  std::map<std::uint32_t, double> widths_;
  double default_width_ = 1000;
  std::unique_ptr<Program> program_;
  std::map<std::pair<std::uint32_t, int>, int> shown_;
};

}  // namespace pdfua
