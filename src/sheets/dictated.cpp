#include "sheets/dictated.h"

#include <algorithm>

namespace sheaf {

Dictated dictated(const AnalyzedLesson& lesson, const OptionValues& options) {
  const auto first = [](const auto& all, int most) {
    return std::span(all).first(
        std::min(all.size(), static_cast<std::size_t>(most)));
  };
  return {first(lesson.dictate_words, options.count("words")),
          first(lesson.dictate_sentences, options.count("sentences"))};
}

Dictated dictated_in_packet(const SheetInput& in) {
  const auto sheet = std::ranges::find_if(in.packet, [](const PlannedSheet& s) {
    return s.kind->name == "dictation";
  });
  if (sheet != in.packet.end()) return dictated(in.lesson, sheet->options);
  return {in.lesson.dictate_words, in.lesson.dictate_sentences};
}

}  // namespace sheaf
