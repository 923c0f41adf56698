#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// The titles of files that are no packet of one lesson. They tell what a PDF
/// of Sheaf's is about when it is read again.
inline constexpr std::string_view kAllPackets = "learners' packets";
inline constexpr std::string_view kAllTeachersPages = "teacher's pages";
/// Those of reports begin so.
inline constexpr std::string_view kMarksTitle = "Marks";
inline constexpr std::string_view kProgressTitle = "Progress";
/// What stands between that and the learner whose report it is.
inline constexpr std::string_view kProgressOf = " of ";

/// What a PDF is about, by its title.
struct PdfAbout {
  enum class Kind {
    lesson,     ///< a packet or a teacher's pages of a lesson
    class_job,  ///< those of a whole class in one file
    report,     ///< marks or progress
    other
  };
  Kind kind = Kind::other;
  /// The learners that a lesson's packet or pages are for; the one whose
  /// progress a report shows.
  std::vector<std::string> learners;
};
PdfAbout about_pdf(std::string_view title);

}  // namespace sheaf
