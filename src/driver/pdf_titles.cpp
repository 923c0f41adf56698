#include "driver/pdf_titles.h"

#include <algorithm>

namespace sheaf {

namespace {

// With or without the title of a class before it.
bool is_title(std::string_view title, std::string_view what) {
  if (!title.ends_with(what)) return false;
  title.remove_suffix(what.size());
  return title.empty() || title.ends_with(", ");
}

}  // namespace

// A lesson's title ends in its code, and then in those whom it is for.
PdfAbout about_pdf(std::string_view title) {
  if (is_title(title, kAllPackets) || is_title(title, kAllTeachersPages)) {
    return {PdfAbout::Kind::class_job, {}};
  }
  if (title == kMarksTitle || title == kProgressTitle) {
    return {PdfAbout::Kind::report, {}};
  }
  constexpr std::string_view kCode = ", code ", kFor = ", for ";
  const std::size_t code = title.rfind(kCode);
  if (code == std::string_view::npos) return {};
  PdfAbout about{PdfAbout::Kind::lesson, {}};
  title.remove_prefix(code + kCode.size());
  const std::size_t place = title.find(kFor);
  if (place == std::string_view::npos) return about;
  title.remove_prefix(place + kFor.size());
  while (!title.empty()) {
    const std::size_t end = std::min(title.find(", "), title.size());
    about.learners.emplace_back(title.substr(0, end));
    title.remove_prefix(std::min(end + 2, title.size()));
  }
  return about;
}

}  // namespace sheaf
