#include "marking/running_text.h"

#include "base/utf8.h"

namespace sheaf {
namespace {

bool is_apostrophe(char32_t c) { return c == '\'' || c == 0x2019; }
bool is_inner_sign(char32_t c) { return is_apostrophe(c) || c == '-'; }
bool is_part(char32_t c) { return is_letter(c) || is_mark(c); }

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool ends_sentence(char32_t c) {
  return c == '.' || c == '!' || c == '?' || c == '\n';
}

// Reads text sign by sign.
class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  RunningText read() {
    while (at_ < text_.size()) {
      const char32_t c = peek();
      if (is_letter(c)) {
        word();
      } else if (c == '{') {
        result_.unread.push_back({at_, skip_braces()});
      } else {
        if (ends_sentence(c)) first_ = true;
        next();
      }
    }
    return std::move(result_);
  }

 private:
  char32_t peek(std::size_t* behind = nullptr) const {
    std::size_t offset = at_;
    const char32_t c = next_code_point(text_, offset);
    if (behind != nullptr) *behind = offset;
    return c;
  }
  void next() { next_code_point(text_, at_); }

  // An apostrophe or hyphen belongs to the word if a letter comes behind it.
  bool goes_on() const {
    if (at_ >= text_.size()) return false;
    std::size_t behind = 0;
    const char32_t c = peek(&behind);
    if (is_part(c)) return true;
    if (!is_inner_sign(c) || behind >= text_.size()) return false;
    return is_letter(next_code_point(text_, behind));
  }

  void word() {
    TextWord word;
    word.begin = at_;
    word.first = first_;
    first_ = false;
    while (goes_on()) next();
    word.end = at_;
    word.text = text_.substr(word.begin, word.end - word.begin);
    word.beside_digit = (word.begin > 0 && is_digit(text_[word.begin - 1])) ||
                        (at_ < text_.size() && is_digit(text_[at_]));
    while (at_ < text_.size() && text_[at_] == '{') answer(word);
    result_.words.push_back(std::move(word));
  }

  // Moves behind the closing brace of this line, or to the line's end.
  std::size_t skip_braces() {
    while (at_ < text_.size() && text_[at_] != '\n') {
      if (text_[at_++] == '}') break;
    }
    return at_;
  }

  void answer(TextWord& word) {
    const std::size_t begin = at_;
    const std::size_t end = skip_braces();
    std::string_view inside = text_.substr(begin + 1, end - begin - 1);
    const bool closed = inside.ends_with('}');
    if (closed) inside.remove_suffix(1);
    if (!closed || !take_answers(inside, word)) {
      result_.unread.push_back({begin, end});
    }
  }

  static bool take_answers(std::string_view inside, TextWord& word) {
    bool any = false;
    while (!inside.empty()) {
      const std::size_t end = inside.find(' ');
      const std::string_view one = inside.substr(0, end);
      inside.remove_prefix(end == std::string_view::npos ? inside.size()
                                                         : end + 1);
      if (one.empty()) continue;
      any = true;
      if (one == "-") {
        word.leave_alone = true;
      } else if (one[0] == '=' && one.size() > 1) {
        word.meant = one.substr(1);
      } else if (one[0] == '-') {
        word.not_meant.emplace_back(one.substr(1));
      } else {
        return false;
      }
    }
    return any;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  bool first_ = true;
  RunningText result_;
};

}  // namespace

RunningText read_running_text(std::string_view text) {
  return Reader(text).read();
}

}  // namespace sheaf
