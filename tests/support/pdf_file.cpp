#include "support/pdf_file.h"

#include <sstream>

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFOutlineDocumentHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageLabelDocumentHelper.hh>

namespace sheaf::testing_support {

namespace {

// Follows a path of keys; a stream stands for its dictionary on the way.
QPDFObjectHandle follow(QPDFObjectHandle object, const std::string& path) {
  std::istringstream keys(path);
  std::string key;
  std::getline(keys, key, '/');
  while (std::getline(keys, key, '/')) {
    if (object.isStream()) object = object.getDict();
    if (!object.isDictionary()) return QPDFObjectHandle::newNull();
    object = object.getKey("/" + key);
  }
  return object;
}

std::string bytes_of(const std::shared_ptr<Buffer>& data) {
  return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
}

}  // namespace

struct PdfFile::Impl {
  std::string bytes;
  mutable QPDF pdf;
  std::vector<QPDFPageObjectHelper> pages;

  QPDFObjectHandle page(std::size_t index) const {
    return QPDFPageObjectHelper(pages.at(index)).getObjectHandle();
  }
};

PdfFile::PdfFile(const std::string& bytes) : impl_(std::make_unique<Impl>()) {
  impl_->bytes = bytes;
  impl_->pdf.processMemoryFile("PDF", impl_->bytes.data(), impl_->bytes.size());
  impl_->pages = QPDFPageDocumentHelper(impl_->pdf).getAllPages();
}

PdfFile::~PdfFile() = default;

std::size_t PdfFile::page_count() const { return impl_->pages.size(); }

std::string PdfFile::catalog(const std::string& path) const {
  return follow(impl_->pdf.getRoot(), path).unparseResolved();
}

std::string PdfFile::page(std::size_t index, const std::string& path) const {
  return follow(impl_->page(index), path).unparseResolved();
}

std::string PdfFile::page_stream(std::size_t index,
                                 const std::string& path) const {
  return bytes_of(follow(impl_->page(index), path).getStreamData());
}

std::string PdfFile::raw_page_stream(std::size_t index,
                                     const std::string& path) const {
  return bytes_of(follow(impl_->page(index), path).getRawStreamData());
}

std::vector<PdfFile::Outline> PdfFile::outline() const {
  std::vector<Outline> lines;
  for (QPDFOutlineObjectHelper line :
       QPDFOutlineDocumentHelper(impl_->pdf).getTopLevelOutlines()) {
    Outline read = {line.getTitle(), -1};
    for (std::size_t i = 0; i < impl_->pages.size(); ++i) {
      if (impl_->page(i).getObjGen() == line.getDestPage().getObjGen()) {
        read.page = static_cast<int>(i);
      }
    }
    lines.push_back(read);
  }
  return lines;
}

std::string PdfFile::label(int page) const {
  QPDFObjectHandle label =
      QPDFPageLabelDocumentHelper(impl_->pdf).getLabelForPage(page);
  std::string text;
  if (label.getKey("/P").isString()) text = label.getKey("/P").getUTF8Value();
  if (label.getKey("/S").isName()) {
    QPDFObjectHandle number = label.getKey("/St");
    text += number.isNull() ? "1" : number.unparse();
  }
  return text;
}

}  // namespace sheaf::testing_support
