#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/private_text.h"
#include "base/source.h"

namespace sheaf {

/// Stands for all learners where codes are listed.
inline constexpr std::string_view kAll = "all";

/// The form of a code (see `is_learner_code`), for messages.
inline constexpr std::string_view kLearnerCodeForm =
    "up to three capital letters, as in `AB`, or figures with up to three "
    "letters, as in `B7`";

/// A learner as Sheaf knows one. It is made where a file or a command is read,
/// and whatever was written there, it has one form: `b7` is `B7`.
class LearnerCode {
 public:
  /// Nobody; its text is empty.
  LearnerCode() = default;
  /// The code that a text is; nothing where it is none.
  static std::optional<LearnerCode> read(std::string_view text);

  const std::string& text() const { return text_; }

  friend bool operator==(const LearnerCode&, const LearnerCode&) = default;
  friend auto operator<=>(const LearnerCode&, const LearnerCode&) = default;

 private:
  explicit LearnerCode(std::string text) : text_(std::move(text)) {}

  std::string text_;
};

using PlacedCode = Spanned<LearnerCode>;

/// Codes as they stand in a sentence or a list: "B7, C3".
std::string codes_text(const std::vector<LearnerCode>& codes);

}  // namespace sheaf
