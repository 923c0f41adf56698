#include "layout/heard_text.h"

#include <algorithm>
#include <utility>

namespace sheaf {

namespace {

constexpr std::string_view kBlank = "-blank-";
constexpr std::string_view kDash = "–";
constexpr std::string_view kDot = "·";

// Whether a word may have one of the signs that are said in words, by the bytes
// that begin them. Most words have none, and are done.
bool may_have_sign(std::string_view word) {
  return std::ranges::any_of(word, [](char c) {
    return c == '/' || c == '_' || c == kDash[0] || c == kDot[0];
  });
}

// How many bytes of what may stand before a sign begin the text, and of what
// may stand after one end it.
std::size_t opening_size(std::string_view text) {
  if (text.starts_with('(') || text.starts_with('"')) return 1;
  return text.starts_with("“") || text.starts_with("‘") ? 3 : 0;
}
std::size_t closing_size(std::string_view text) {
  constexpr std::string_view kClosing = " ,.:;?!)\"";
  if (text.empty()) return 0;
  if (kClosing.find(text.back()) != std::string_view::npos) return 1;
  return text.ends_with("”") || text.ends_with("’") ? 3 : 0;
}

// A word in three parts: what opens it, its core, what closes it.
struct Dressed {
  std::string_view before, core, after;
};

Dressed undress(std::string_view word) {
  std::size_t begin = 0;
  while (const std::size_t size = opening_size(word.substr(begin))) {
    begin += size;
  }
  std::size_t end = word.size();
  while (const std::size_t size =
             closing_size(word.substr(begin, end - begin))) {
    end -= size;
  }
  return {word.substr(0, begin), word.substr(begin, end - begin),
          word.substr(end)};
}

// "sh" of "/sh/"; empty for anything else.
std::string_view sound_in(std::string_view core) {
  if (core.size() < 3 || !core.starts_with('/') || !core.ends_with('/')) {
    return {};
  }
  const std::string_view name = core.substr(1, core.size() - 2);
  return name.find('/') == std::string_view::npos ? name : std::string_view();
}

bool are_letters(std::string_view text) {
  return !text.empty() && text.size() <= 4 &&
         std::ranges::all_of(text, [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
         });
}

// "a-blank-e" of "a_e" and "a–e"; empty for anything else. A dash between
// longer words is a dash.
std::string split_grapheme(std::string_view core) {
  for (const std::string_view gap : {std::string_view("_"), kDash}) {
    const std::size_t at = core.find(gap);
    if (at == std::string_view::npos) continue;
    const std::string_view left = core.substr(0, at);
    const std::string_view right = core.substr(at + gap.size());
    if (!are_letters(left) || !are_letters(right)) continue;
    if (gap == kDash && (left.size() > 2 || right != "e")) continue;
    return std::string(left).append(kBlank).append(right);
  }
  return {};
}

std::string joined(const Dressed& first, std::string_view text,
                   const Dressed& last) {
  return std::string(first.before).append(text).append(last.after);
}

// The sounds from `begin` on that follow each other with nothing between.
HeardStretch sounds_from(std::span<const std::string_view> words,
                         std::size_t begin) {
  const Dressed first = undress(words[begin]);
  Dressed last = first;
  std::string names(sound_in(first.core));
  std::size_t end = begin + 1;
  for (; end < words.size() && last.after == " "; ++end) {
    const Dressed next = undress(words[end]);
    const std::string_view name = sound_in(next.core);
    if (name.empty() || !next.before.empty()) break;
    names.append(", ").append(name);
    last = next;
  }
  const std::string_view lead = end == begin + 1 ? "the sound " : "the sounds ";
  return {begin, end, joined(first, std::string(lead) + names, last)};
}

// The parts from `begin` on that have a dot between them.
HeardStretch parts_from(std::span<const std::string_view> words,
                        std::size_t begin) {
  const auto is_dot = [&](std::size_t i) {
    return i + 1 < words.size() && undress(words[i]).core == kDot;
  };
  std::string text(words[begin]);
  std::size_t end = begin + 1;
  while (is_dot(end)) {
    while (text.ends_with(' ')) text.pop_back();
    text.append(", ").append(words[end + 1]);
    end += 2;
  }
  return {begin, end, std::move(text)};
}

}  // namespace

std::vector<HeardStretch> heard_stretches(
    std::span<const std::string_view> words) {
  std::vector<HeardStretch> found;
  for (std::size_t i = 0; i < words.size();) {
    // A dot between parts is the word after the first of them.
    if (!may_have_sign(words[i]) &&
        (i + 1 == words.size() || !may_have_sign(words[i + 1]))) {
      ++i;
      continue;
    }
    const Dressed word = undress(words[i]);
    HeardStretch stretch{i, i + 1, {}};
    if (!sound_in(word.core).empty()) {
      stretch = sounds_from(words, i);
    } else if (std::string split = split_grapheme(word.core); !split.empty()) {
      stretch.text = joined(word, split, word);
    } else if (HeardStretch parts = parts_from(words, i);
               parts.end > parts.begin + 1) {
      stretch = std::move(parts);
    }
    i = stretch.end;
    if (!stretch.text.empty()) found.push_back(std::move(stretch));
  }
  return found;
}

std::string heard_text(std::string_view text) {
  std::vector<std::string_view> words;
  while (!text.empty()) {
    const std::size_t blank = text.find(' ');
    std::size_t end = text.find_first_not_of(' ', std::min(blank, text.size()));
    end = std::min(end, text.size());
    words.push_back(text.substr(0, end));
    text.remove_prefix(end);
  }
  std::string heard;
  std::size_t done = 0;
  for (const HeardStretch& stretch : heard_stretches(words)) {
    for (; done < stretch.begin; ++done) heard += words[done];
    heard += stretch.text;
    done = stretch.end;
  }
  for (; done < words.size(); ++done) heard += words[done];
  return heard;
}

std::string heard_graphemes(std::string_view parted) {
  std::string heard;
  while (!parted.empty()) {
    const std::size_t end = std::min(parted.find(' '), parted.size());
    const std::string_view grapheme = parted.substr(0, end);
    const std::string split = split_grapheme(grapheme);
    if (!heard.empty()) heard += ", ";
    heard += split.empty() ? grapheme : std::string_view(split);
    parted.remove_prefix(std::min(end + 1, parted.size()));
  }
  return heard;
}

std::string heard_count(std::string_view word) {
  const Dressed dressed = undress(word);
  const std::size_t stroke = dressed.core.find('/');
  if (stroke == std::string_view::npos) return {};
  const auto is_number = [](std::string_view text) {
    return !text.empty() && std::ranges::all_of(text, [](char c) {
      return c >= '0' && c <= '9';
    });
  };
  const std::string_view right = dressed.core.substr(0, stroke);
  const std::string_view all = dressed.core.substr(stroke + 1);
  if (!is_number(right) || !is_number(all)) return {};
  return joined(dressed, std::string(right).append(" of ").append(all),
                dressed);
}

std::string heard_spelling(std::string_view written) {
  written = undress(written).core;
  std::string heard(written);
  const char* part = ": ";
  for (std::size_t i = 0; i < written.size(); ++i) {
    // A letter of several bytes stays one.
    if ((static_cast<unsigned char>(written[i]) & 0xC0U) != 0x80U) {
      heard += part;
      part = ", ";
    }
    heard += written[i];
  }
  return heard;
}

namespace {

// A word with the letters of it that stand on a band.
struct BandedWord {
  std::string word, letters;
  bool whole = true;

  void add(std::string_view text, bool marked) {
    for (const char c : text) {
      word += c;
      if (marked && !letters.empty() && !was_marked_) letters += '_';
      if (marked) letters += c;
      was_marked_ = marked;
    }
    whole = whole && (marked || undress(text).core.empty());
  }

  // The letters once: those of "shush" are sh, and of "make" a-blank-e.
  std::string said_letters() const {
    const std::size_t gap = letters.find('_');
    if (gap == std::string::npos) return letters;
    std::string said = letters.substr(0, gap);
    for (std::size_t at = gap; at < letters.size();) {
      const std::size_t end =
          std::min(letters.find('_', at + 1), letters.size());
      const std::string part = letters.substr(at + 1, end - at - 1);
      if (part == "e" && said != "e") {
        said.append(kBlank).append(part);
      } else if (part != said) {
        said.append(" and ").append(part);
      }
      at = end;
    }
    return said;
  }

 private:
  bool was_marked_ = false;
};

std::vector<BandedWord> banded_words(std::span<const BandedText> pieces) {
  std::vector<BandedWord> words(1);
  for (const BandedText& piece : pieces) {
    std::string_view text = piece.text;
    while (true) {
      const std::size_t end = std::min(text.find(' '), text.size());
      words.back().add(text.substr(0, end), piece.marked);
      if (end == text.size()) break;
      words.emplace_back();
      text.remove_prefix(end + 1);
    }
  }
  std::erase_if(words, [](const BandedWord& w) { return w.letters.empty(); });
  return words;
}

}  // namespace

std::string marked_text(std::span<const BandedText> pieces) {
  const std::vector<BandedWord> words = banded_words(pieces);
  if (words.empty()) return {};
  if (std::ranges::all_of(words, &BandedWord::whole)) {
    std::string text = "Marked:";
    for (const BandedWord& word : words) {
      text += (&word == &words.front() ? " " : ", ");
      text += undress(word.word).core;
    }
    return text + ".";
  }
  std::vector<std::pair<std::string, std::string>> by_letters;
  for (const BandedWord& word : words) {
    const std::string letters = word.said_letters();
    const std::string name(undress(word.word).core);
    const auto known = std::ranges::find(
        by_letters, letters, &std::pair<std::string, std::string>::first);
    if (known == by_letters.end()) {
      by_letters.emplace_back(letters, name);
    } else {
      known->second += ", " + name;
    }
  }
  std::string text = "Marked: " + by_letters.front().first;
  if (by_letters.size() > 1) {
    text.clear();
    for (const auto& [letters, list] : by_letters) {
      text += text.empty() ? "Marked: " : "; ";
      text += letters + " in " + list;
    }
  }
  return text + ".";
}

}  // namespace sheaf
