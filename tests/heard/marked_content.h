#pragma once

#include <map>
#include <memory>
#include <string>
#include <utility>

#include "pdfua/fonts.h"
#include "pdfua/report.h"

#include <qpdf/QPDF.hh>

namespace heard {

/// What one marked content of a page gives a listener.
struct MarkedContent {
  /// By /ToUnicode, in the order of drawing. Where an /ActualText stands over
  /// it, that text instead.
  std::string text;
  bool has_drawing = false;  ///< lines, areas or pictures
};

/// The marked contents of all pages, by page and number. Artifacts and what is
/// not marked are left out, as a listener never hears of them.
class MarkedContents {
 public:
  explicit MarkedContents(QPDF& pdf);
  ~MarkedContents();

  /// Empty where the pages have no such content.
  MarkedContent of(QPDFObjGen page, int mcid) const;

 private:
  class Walker;
  pdfua::FontChecker& font(const QPDFObjectHandle& font);

  pdfua::Report unused_;  // the checker of fonts reports; the reader does not
  std::map<QPDFObjGen, std::unique_ptr<pdfua::FontChecker>> fonts_;
  std::map<std::pair<QPDFObjGen, int>, MarkedContent> contents_;
};

}  // namespace heard
