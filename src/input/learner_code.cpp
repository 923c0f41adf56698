#include "input/learner_code.h"

#include "base/utf8.h"

namespace sheaf {

namespace {

constexpr int kLongestCode = 12;
constexpr int kMostCodeLetters = 3;

}  // namespace

bool is_learner_code(std::string_view text) {
  if (text.empty() || text.size() > std::size_t{4} * kLongestCode ||
      count_characters(text) > kLongestCode) {
    return false;
  }
  bool joint = true;
  int letters = 0, capitals = 0, figures = 0;
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_code_point(text, at);
    if (c == '-' && joint) return false;
    joint = c == '-';
    if (is_latin_letter(c)) {
      ++letters;
      capitals += is_upper_case(c) ? 1 : 0;
    } else if (c >= '0' && c <= '9') {
      ++figures;
    } else if (!joint) {
      return false;
    }
  }
  if (joint || letters > kMostCodeLetters) return false;
  return figures > 0 || capitals == letters;
}

std::optional<LearnerCode> LearnerCode::read(std::string_view text) {
  const std::string code = normalized(text);
  if (!is_learner_code(code)) return std::nullopt;
  return LearnerCode(upper_case(code));
}

std::string codes_text(const std::vector<LearnerCode>& codes) {
  std::string text;
  for (const LearnerCode& code : codes) {
    text += (text.empty() ? "" : ", ") + code.text();
  }
  return text;
}

}  // namespace sheaf
