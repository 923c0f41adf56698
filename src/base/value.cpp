#include "base/value.h"

#include <algorithm>
#include <array>
#include <cassert>

#include "base/utf8.h"

namespace sheaf {

PlacedText::PlacedText(std::string text, Span span, std::vector<Run> runs)
    : text_(std::move(text)), span_(span), runs_(std::move(runs)) {
  assert(runs_.empty() || runs_.front().text == 0);
}

std::uint32_t PlacedText::file_offset(std::size_t text_offset) const {
  const auto after = std::ranges::upper_bound(
      runs_, static_cast<std::uint32_t>(text_offset), {}, &Run::text);
  if (after == runs_.begin()) return span_.begin;
  const Run& run = *std::prev(after);
  return run.file + (static_cast<std::uint32_t>(text_offset) - run.text);
}

Span PlacedText::span_of(std::size_t begin, std::size_t end) const {
  if (!span_) return {};
  if (runs_.empty()) return span_;
  if (begin >= end) {
    const std::uint32_t at = std::min(file_offset(begin), span_.end);
    return {span_.file, at, at};
  }
  const std::uint32_t first = file_offset(begin);
  std::uint32_t last = file_offset(end - 1) + 1;
  // What was put for a sign may have fewer bytes than the sign has.
  const std::string& file = span_.file->text();
  while (last < file.size() && (file[last] & 0xC0) == 0x80) ++last;
  return {span_.file, first, std::max(first, last)};
}

Spanned<std::string> PlacedText::part(std::size_t begin,
                                      std::size_t end) const {
  return {text_.substr(begin, end - begin), span_of(begin, end)};
}

PlacedText PlacedText::slice(std::size_t begin, std::size_t end) const {
  std::vector<Run> runs;
  if (begin < end && !runs_.empty()) runs.push_back({0, file_offset(begin)});
  for (auto run = std::ranges::upper_bound(
           runs_, static_cast<std::uint32_t>(begin), {}, &Run::text);
       run != runs_.end() && run->text < end; ++run) {
    runs.push_back({run->text - static_cast<std::uint32_t>(begin), run->file});
  }
  return {text_.substr(begin, end - begin), span_of(begin, end),
          std::move(runs)};
}

PlacedText PlacedText::squeezed() const {
  constexpr std::string_view kSpaces = " \t\r\n";
  std::string text;
  std::vector<Run> runs;
  std::size_t first = std::string::npos, last = 0;
  std::size_t begin = text_.find_first_not_of(kSpaces);
  while (begin != std::string::npos) {
    const std::size_t end =
        std::min(text_.find_first_of(kSpaces, begin), text_.size());
    if (first == std::string::npos) first = begin;
    if (!text.empty()) {
      if (!runs_.empty()) {
        runs.push_back(
            {static_cast<std::uint32_t>(text.size()), file_offset(last)});
      }
      text += ' ';
    }
    const PlacedText word = slice(begin, end);
    for (const Run& run : word.runs_) {
      runs.push_back(
          {run.text + static_cast<std::uint32_t>(text.size()), run.file});
    }
    text += word.text_;
    last = end;
    begin = text_.find_first_not_of(kSpaces, end);
  }
  if (text.empty()) return {{}, span_, {}};
  return {std::move(text), span_of(first, last), std::move(runs)};
}

PlacedText PlacedText::with_end(char end) const {
  PlacedText result = *this;
  const std::uint32_t last =
      span_.end > span_.begin ? span_.end - 1 : span_.end;
  if (!runs_.empty()) {
    result.runs_.push_back({static_cast<std::uint32_t>(text_.size()), last});
  }
  result.text_ += end;
  return result;
}

PlacedText PlacedText::with_capital(std::size_t at) const {
  PlacedText result = *this;
  result.text_[at] = static_cast<char>(result.text_[at] - 'a' + 'A');
  return result;
}

// Makes a text with other letters in some of its places.
class PlacedText::Rewriter {
 public:
  explicit Rewriter(const PlacedText& from)
      : from_(from), result_({}, from.span_, {}) {}

  // Puts `letters` in the place of bytes [begin, end); calls come in order.
  void put(std::string_view letters, std::size_t begin, std::size_t end) {
    take_to(begin);
    add_run(result_.text_.size(), from_.file_offset(begin));
    result_.text_ += letters;
    if (letters.size() > 1) {
      add_run(result_.text_.size() - 1, from_.file_offset(end - 1));
    }
    taken_ = end;
  }
  PlacedText finish() {
    take_to(from_.text_.size());
    return std::move(result_);
  }

 private:
  void add_run(std::size_t text, std::uint32_t file) {
    if (from_.runs_.empty()) return;
    result_.runs_.push_back({static_cast<std::uint32_t>(text), file});
  }
  void take_to(std::size_t end) {
    const PlacedText part = from_.slice(taken_, end);
    for (const Run& run : part.runs_) {
      result_.runs_.push_back(
          {run.text + static_cast<std::uint32_t>(result_.text_.size()),
           run.file});
    }
    result_.text_ += part.text_;
    taken_ = end;
  }

  const PlacedText& from_;
  PlacedText result_;
  std::size_t taken_ = 0;
};

PlacedText PlacedText::without_ligatures() const {
  constexpr std::array<std::string_view, 7> kLetters = {
      "ff", "fi", "fl", "ffi", "ffl", "st", "st"};
  constexpr std::string_view kFirst = "\uFB00";
  const std::string_view head = kFirst.substr(0, 2);
  std::size_t at = text_.find(head);
  if (at == std::string::npos) return *this;
  Rewriter rewriter(*this);
  for (; at != std::string::npos; at = text_.find(head, at + 1)) {
    const auto which =
        static_cast<std::size_t>(static_cast<unsigned char>(text_[at + 2]) -
                                 static_cast<unsigned char>(kFirst[2]));
    if (which >= kLetters.size()) continue;
    rewriter.put(kLetters[which], at, at + kFirst.size());
  }
  return rewriter.finish();
}

PlacedText PlacedText::composed() const {
  const bool is_plain = std::ranges::all_of(
      text_, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
  if (is_plain || normalized(text_) == text_) return *this;
  Rewriter rewriter(*this);
  for (const std::string_view character : characters(text_)) {
    const std::string better = normalized(character);
    if (better == character) continue;
    const auto begin =
        static_cast<std::size_t>(character.data() - text_.data());
    rewriter.put(better, begin, begin + character.size());
  }
  return rewriter.finish();
}

const Value* Value::find(std::string_view key) const {
  for (const ValueEntry& entry : entries) {
    if (entry.key.value == key) return &entry.value;
  }
  return nullptr;
}

std::string_view describe(Value::Kind kind) {
  switch (kind) {
    case Value::Kind::text:
      return "text";
    case Value::Kind::list:
      return "a list";
    case Value::Kind::keys:
      return "keys with values";
    case Value::Kind::nothing:
      break;
  }
  return "nothing";
}

}  // namespace sheaf
