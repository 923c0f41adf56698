#include "input/learner_code.h"

#include "base/utf8.h"

namespace sheaf {

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
