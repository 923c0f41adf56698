#include "input/without_learner.h"

#include <algorithm>
#include <array>
#include <cctype>

#include "base/utf8.h"
#include "input/class_file.h"
#include "input/fields.h"
#include "input/file_kind.h"
#include "input/record_file.h"

namespace sheaf {

namespace {

constexpr std::array<std::string_view, 4> kByLearner = {"wrong", "written",
                                                        "writing", "learners"};
constexpr std::array<std::string_view, 3> kOfCodes = {"absent", "marked",
                                                      "learners"};

template <std::size_t N>
bool is_one_of(std::string_view key,
               const std::array<std::string_view, N>& keys) {
  return std::ranges::find(keys, key) != keys.end();
}

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r'; }

// Where a value really ends: spans of keys and lists may stop at their start.
std::uint32_t end_of(const Value& value) {
  std::uint32_t end = value.span.end;
  for (const Value& item : value.items) end = std::max(end, end_of(item));
  for (const ValueEntry& entry : value.entries) {
    end = std::max({end, entry.key.span.end, end_of(entry.value)});
  }
  return end;
}

class Remover {
 public:
  Remover(const SourceFile& file, std::string_view code)
      : file_(file), text_(file.text()), code_(normalized(code)) {}

  void take_out(const Value& keys) {
    for (const ValueEntry& entry : keys.entries) {
      if (entry.key.value == "records") {
        for (const Value& record : entry.value.items) take_out(record);
        continue;
      }
      if (!take_out_of(entry)) continue;
      // Nothing is left under the key.
      cut_entry(entry.key.span.begin, end_of(entry.value));
    }
  }

  WithoutLearner result() {
    std::ranges::sort(cuts_, {}, &Span::begin);
    WithoutLearner without;
    std::uint32_t at = 0;
    for (const Span& cut : cuts_) {
      if (cut.begin < at) {  // inside one that goes as a whole
        at = std::max(at, cut.end);
        continue;
      }
      without.text += text_.substr(at, cut.begin - at);
      without.removed.push_back(cut);
      at = cut.end;
    }
    without.text += text_.substr(at);
    return without;
  }

 private:
  // True where all that the key had is the learner's.
  bool take_out_of(const ValueEntry& entry) {
    const Value& value = entry.value;
    switch (value.kind) {
      case Value::Kind::keys:
        return is_one_of(entry.key.value, kByLearner) && from_keys(value);
      case Value::Kind::list:
        return is_one_of(entry.key.value, kOfCodes) && from_list(value);
      case Value::Kind::text:
        return is_one_of(entry.key.value, kOfCodes) && from_text(value);
      case Value::Kind::nothing:
        return false;
    }
    return false;
  }

  bool is_code(std::string_view text) const {
    return normalized(text) == code_;
  }

  bool from_keys(const Value& value) {
    const auto of_learner = [&](const ValueEntry& e) {
      return is_code(e.key.value);
    };
    const auto found = std::ranges::find_if(value.entries, of_learner);
    if (found == value.entries.end()) return false;
    if (value.entries.size() == 1) return true;
    cut_entry(found->key.span.begin, end_of(found->value));
    return false;
  }

  bool from_list(const Value& value) {
    for (const Value& item : value.items) {
      if (item.kind != Value::Kind::text || !is_code(item.text.text())) {
        continue;
      }
      if (value.items.size() == 1) return true;
      cut_entry(item.span.begin, item.span.end);
    }
    return false;
  }

  bool from_text(const Value& value) {
    const auto codes = split_words(value.text);
    for (const PlacedWord& code : codes) {
      if (!is_code(code.value)) continue;
      if (codes.size() == 1) return true;
      cut_between(code.span.begin, code.span.end);
    }
    return false;
  }

  // An entry of a block goes with its lines, one between brackets with its
  // comma.
  void cut_entry(std::uint32_t begin, std::uint32_t end) {
    std::uint32_t line = begin;
    while (line > 0 && is_blank(text_[line - 1])) --line;
    bool block = line == 0 || text_[line - 1] == '\n';
    if (!block && text_[line - 1] == '-') {  // an item of a list in lines
      std::uint32_t dash = line - 1;
      while (dash > 0 && is_blank(text_[dash - 1])) --dash;
      block = dash == 0 || text_[dash - 1] == '\n';
      if (block) line = dash;
    }
    if (!block) return cut_between(begin, end);
    while (end < text_.size() && text_[end] != '\n') ++end;
    // A value may have stopped behind its last line break already.
    if (end < text_.size()) ++end;
    add(line, end);
  }

  void cut_between(std::uint32_t begin, std::uint32_t end) {
    std::uint32_t after = end;
    while (after < text_.size() && is_blank(text_[after])) ++after;
    if (after < text_.size() && text_[after] == ',') {
      ++after;
      while (after < text_.size() && is_blank(text_[after])) ++after;
      return add(begin, after);
    }
    std::uint32_t before = begin;
    while (before > 0 && is_blank(text_[before - 1])) --before;
    if (before > 0 && text_[before - 1] == ',') return add(before - 1, end);
    add(before < begin && after == end ? before : begin, end);
  }

  void add(std::uint32_t begin, std::uint32_t end) {
    cuts_.push_back({&file_, begin, end});
  }

  const SourceFile& file_;
  std::string_view text_;
  std::string code_;
  std::vector<Span> cuts_;
};

bool has_code(std::string_view line, std::string_view code) {
  const auto inside = [&](std::size_t at) {
    const auto c = static_cast<unsigned char>(line[at]);
    return std::isalnum(c) != 0 || c >= 0x80U;
  };
  for (std::size_t at = line.find(code); at != std::string_view::npos;
       at = line.find(code, at + 1)) {
    const std::size_t end = at + code.size();
    if ((at == 0 || !inside(at - 1)) && (end == line.size() || !inside(end))) {
      return true;
    }
  }
  return false;
}

// Whether a text reads as a file of its kind without faults.
bool is_sound(const SourceFile& file, FileKind kind, Diagnostics& d) {
  if (kind == FileKind::record) read_record(file, d);
  if (kind == FileKind::learners) read_class(file, d);
  return !d.has_errors();
}

}  // namespace

std::optional<WithoutLearner> without_learner(const SourceFile& file,
                                              std::string_view code,
                                              Diagnostics& diagnostics) {
  Diagnostics found;
  const auto keys = read_keys(file, "a record", "date: 2026-03-12", found);
  if (!keys) return std::nullopt;
  const FileKind kind = kind_of(*keys);
  if (kind != FileKind::record && kind != FileKind::learners) {
    return std::nullopt;
  }
  if (!is_sound(file, kind, diagnostics)) return std::nullopt;
  Remover remover(file, code);
  remover.take_out(*keys);
  WithoutLearner without = remover.result();
  const SourceFile rest(file.name(), without.text);
  if (!without.removed.empty()) {
    Diagnostics faults;
    if (!is_sound(rest, kind, faults)) {
      diagnostics.error(
          diagnostic::last_learner, without.removed.front(),
          "without this learner nothing is left that such a file needs",
          "remove the file by hand if it is not wanted any more");
      return std::nullopt;
    }
  }
  int number = 0;
  std::size_t at = 0;
  while (at < without.text.size()) {
    const std::size_t end =
        std::min(without.text.find('\n', at), without.text.size());
    ++number;
    if (has_code(std::string_view(without.text).substr(at, end - at), code)) {
      without.still_named.push_back(number);
    }
    at = end + 1;
  }
  return without;
}

}  // namespace sheaf
