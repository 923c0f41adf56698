#include "sheets/join_questions.h"

#include <fmt/format.h>

#include "phonics/letters.h"

namespace sheaf {

Joint JoinQuestions::joint() const {
  if (ends_in_e && vowel_next) return Joint::dropped_e;
  if (ends_in_consonant_y && not_i_next) return Joint::y_to_i;
  if (ends_in_vowel_consonant && vowel_next) return Joint::doubled;
  return Joint::plain;
}

JoinQuestions join_questions(std::string_view base, Ending ending) {
  const std::string_view end = ending_text(ending);
  JoinQuestions q;
  q.vowel_next = !end.empty() && is_vowel_letter(end.front());
  q.not_i_next = !end.starts_with('i');
  const std::size_t n = base.size();
  if (n < 2) return q;
  const char last = base[n - 1], before = base[n - 2];
  q.ends_in_e = last == 'e';
  q.ends_in_consonant_y = last == 'y' && !is_full_vowel_letter(before);
  // The y of gym is a vowel.
  const bool vowel_before =
      is_full_vowel_letter(before) ||
      (before == 'y' && n > 2 && !is_full_vowel_letter(base[n - 3]));
  const bool alone = n < 3 || !is_full_vowel_letter(base[n - 3]) ||
                     (n > 3 && base[n - 3] == 'u' && base[n - 4] == 'q');
  q.ends_in_vowel_consonant = vowel_before && alone && !is_vowel_letter(last) &&
                              last != 'w' && last != 'x';
  return q;
}

std::string joined_by_questions(std::string_view base, Ending ending) {
  const std::string_view end = ending_text(ending);
  const std::string_view without_last = base.substr(0, base.size() - 1);
  switch (join_questions(base, ending).joint()) {
    case Joint::dropped_e:
      return fmt::format("{}{}", without_last, end);
    case Joint::y_to_i:
      return fmt::format("{}i{}", without_last, end);
    case Joint::doubled:
      return fmt::format("{}{}{}", base, base.back(), end);
    default:
      return fmt::format("{}{}", base, end);
  }
}

}  // namespace sheaf
