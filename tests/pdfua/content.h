#pragma once

#include <map>
#include <memory>

#include "pdfua/fonts.h"
#include "pdfua/report.h"
#include "pdfua/structure.h"

#include <qpdf/QPDF.hh>

namespace pdfua {

/// Walks through the content of every page: what is tagged, what is an
/// artifact, in which language, with which glyphs.
class ContentChecker {
 public:
  ContentChecker(QPDF& pdf, StructureTree& tree, bool document_has_language,
                 Report& report);
  ~ContentChecker();

  void check();

 private:
  class Walker;
  FontChecker& font(const QPDFObjectHandle& font);

  QPDF& pdf_;
  StructureTree& tree_;
  bool document_has_language_;
  Report& report_;
  std::map<QPDFObjGen, std::unique_ptr<FontChecker>> fonts_;
  /// Form XObjects with tags of their own, and how often they are painted.
  std::map<QPDFObjGen, int> tagged_forms_;
  /// Of each image, the pixels of a side that are too many where it is painted
  /// largest.
  std::map<QPDFObjGen, double> pixels_beyond_;
};

}  // namespace pdfua
