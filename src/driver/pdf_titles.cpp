#include "driver/pdf_titles.h"

#include <algorithm>
#include <cctype>

namespace sheaf {

namespace {

// Behind the title of a class, or alone: then with a capital, which files of
// earlier versions do not have.
bool is_title(std::string_view title, std::string_view what) {
  const std::string_view rest = what.substr(1);
  if (!title.ends_with(rest)) return false;
  title.remove_suffix(rest.size());
  if (title.empty()) return false;
  const char first = title.back();
  title.remove_suffix(1);
  if (first == what.front()) return title.empty() || title.ends_with(", ");
  return title.empty() &&
         first == std::toupper(static_cast<unsigned char>(what.front()));
}

// "Marks", "Marks, week-06"; a lesson's own title ends in its code.
bool is_report(std::string_view title, std::string_view what) {
  if (!title.starts_with(what) ||
      title.find(", code ") != std::string_view::npos) {
    return false;
  }
  title.remove_prefix(what.size());
  return title.empty() || title.starts_with(", ") ||
         title.starts_with(kProgressOf);
}

}  // namespace

// A lesson's title ends in its code, and then in those whom it is for.
PdfAbout about_pdf(std::string_view title) {
  if (is_title(title, kAllPackets) || is_title(title, kAllTeachersPages)) {
    return {PdfAbout::Kind::class_job, {}};
  }
  if (is_report(title, kMarksTitle)) return {PdfAbout::Kind::report, {}};
  if (is_report(title, kProgressTitle)) {
    PdfAbout about{PdfAbout::Kind::report, {}};
    title.remove_prefix(kProgressTitle.size());
    if (title.starts_with(kProgressOf)) {
      title.remove_prefix(kProgressOf.size());
      // "of 5 learners" names nobody.
      if (title.find(' ') == std::string_view::npos) {
        about.learners.emplace_back(title);
      }
    }
    return about;
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
