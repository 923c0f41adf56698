#include "lexicon/bank_writer.h"

#include <algorithm>
#include <cstring>
#include <limits>
#include <map>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "base/error.h"
#include "phonics/accent.h"
#include "phonics/phonics.h"
#include "phonics/table_text.h"
#include "phonics/words_in.h"

namespace sheaf {

namespace {

using Kind = BankRecord::Kind;

constexpr Accent kSpoken[] = {Accent::general_american, Accent::british,
                              Accent::scottish, Accent::australian};

std::optional<Readers> readers_named(std::string_view name) {
  if (name == "both") return Readers::both;
  if (name == "younger") return Readers::younger;
  if (name == "older") return Readers::older;
  return std::nullopt;
}

class BankMaker {
 public:
  explicit BankMaker(const Phonics& phonics) : phonics_(phonics) {}

  // A section's head is `[pattern]`; a sentence stands behind the name of its
  // readers and a tab.
  void read_sentences(const BankSource& source) {
    begin(source);
    each_line(source, [&](std::string_view line) {
      if (line.empty()) return;
      if (line.starts_with('[')) {
        read_head(line);
        return;
      }
      const std::size_t tab = line.find('\t');
      const auto readers = readers_named(line.substr(0, tab));
      if (tab == std::string_view::npos || !readers || !pattern_) {
        fault("this is neither a sentence nor the head of a section", line);
      }
      readers_ = *readers;
      add(Kind::sentence, std::string(line.substr(tab + 1)));
    });
  }

  // A passage's head is `[pattern] readers`; behind it come its title, its
  // text, in which an empty line ends a paragraph, and its questions.
  void read_passages(const BankSource& source) {
    begin(source);
    std::string text;
    bool gap = false;
    const auto end_text = [&] {
      if (!text.empty()) add(Kind::text, text);
      text.clear();
      gap = false;
    };
    each_line(source, [&](std::string_view line) {
      constexpr std::string_view kTitle = "title: ", kQuestion = "? ";
      if (line.empty()) {
        gap = !text.empty();
      } else if (line.starts_with('[')) {
        end_text();
        const std::size_t space = line.find("] ");
        const auto readers = space == std::string_view::npos
                                 ? std::nullopt
                                 : readers_named(line.substr(space + 2));
        if (!readers) fault("the head of a passage names its readers", line);
        readers_ = *readers;
        read_head(line);
      } else if (!pattern_) {
        fault("this stands before the first passage", line);
      } else if (line.starts_with(kTitle)) {
        add(Kind::title, std::string(line.substr(kTitle.size())));
      } else if (line.starts_with(kQuestion)) {
        end_text();
        add(Kind::question, std::string(line.substr(kQuestion.size())));
      } else {
        if (!text.empty()) text += gap ? '\n' : ' ';
        gap = false;
        text += line;
      }
    });
    end_text();
  }

  BankSections finish() {
    for (const auto& spelling : spellings_) {
      sections_.spellings +=
          (sections_.spellings.empty() ? "" : "\n") + spelling;
    }
    index_patterns();
    return std::move(sections_);
  }

 private:
  void begin(const BankSource& source) {
    name_ = source.name;
    line_ = 0;
    pattern_.reset();
  }

  // Calls with each line but remarks; `line_` is its number meanwhile.
  template <typename Call>
  void each_line(const BankSource& source, Call call) {
    for (const std::string_view line : split_at(source.text, '\n')) {
      ++line_;
      if (!line.starts_with('#')) call(line);
    }
  }

  [[noreturn]] void fault(std::string_view what, std::string_view line) const {
    throw MachineError(
        fmt::format("{}:{}: {}: `{}`", name_, line_, what, line));
  }

  void read_head(std::string_view line) {
    const std::size_t close = line.find(']');
    if (close == std::string_view::npos) fault("a `]` is missing", line);
    const std::string_view id = line.substr(1, close - 1);
    const auto& all = phonics_.patterns().all();
    const auto found = std::ranges::find(all, id, &Pattern::id);
    if (found == all.end()) fault("there is no such pattern", line);
    pattern_ = static_cast<PatternId>(found - all.begin());
  }

  void add(Kind kind, const std::string& text) {
    BankRecord record;
    record.text = static_cast<std::uint32_t>(sections_.texts.size());
    record.length = static_cast<std::uint32_t>(text.size());
    record.first_word = static_cast<std::uint32_t>(sections_.words.size());
    record.pattern = static_cast<std::uint16_t>(*pattern_);
    record.kind = kind;
    record.readers = readers_;
    sections_.texts += text;
    for (const WordPlace& place : words_in(text)) {
      sections_.words.push_back(
          number_of(text.substr(place.begin, place.end - place.begin)));
      ++record.words;
    }
    if (record.words == 0) fault("there is no word in this", text);
    sections_.records.push_back(record);
  }

  BankWord number_of(const std::string& spelling) {
    const auto [place, is_new] =
        numbers_.try_emplace(spelling, static_cast<BankWord>(numbers_.size()));
    if (is_new) spellings_.push_back(spelling);
    if (numbers_.size() > std::numeric_limits<BankWord>::max()) {
      throw MachineError("the bank has too many words");
    }
    return place->second;
  }

  // The patterns that a word has in any accent.
  std::vector<PatternId> patterns_of(const std::string& spelling) const {
    std::vector<PatternId> patterns;
    for (const Accent accent : kSpoken) {
      const auto readings = phonics_.read(spelling, conventions_for(accent));
      for (const PatternPlace& place : readings.front().places) {
        if (std::ranges::find(patterns, place.pattern) == patterns.end()) {
          patterns.push_back(place.pattern);
        }
      }
    }
    return patterns;
  }

  void index_patterns() {
    const std::size_t count = phonics_.patterns().all().size();
    std::vector<std::vector<PatternId>> of_word;
    for (const std::string& spelling : spellings_) {
      of_word.push_back(patterns_of(spelling));
    }
    std::vector<std::vector<std::uint16_t>> texts(count);
    std::size_t first = 0;  // of the sentence or passage
    for (std::size_t i = 0; i < sections_.records.size(); ++i) {
      const BankRecord& record = sections_.records[i];
      if (record.kind == Kind::sentence || record.kind == Kind::title) {
        first = i;
      }
      for (std::uint32_t w = 0; w < record.words; ++w) {
        for (const PatternId pattern :
             of_word[sections_.words[record.first_word + w]]) {
          auto& list = texts[pattern];
          if (list.empty() || list.back() != first) {
            list.push_back(static_cast<std::uint16_t>(first));
          }
        }
      }
    }
    std::vector<std::uint32_t> begins = {static_cast<std::uint32_t>(count + 1),
                                         0};
    std::vector<std::uint16_t> all;
    for (const auto& list : texts) {
      all.insert(all.end(), list.begin(), list.end());
      begins.push_back(static_cast<std::uint32_t>(all.size()));
    }
    if (all.size() % 2 == 1) all.push_back(0);
    sections_.patterns.resize(begins.size() * 4 + all.size() * 2);
    std::memcpy(sections_.patterns.data(), begins.data(), begins.size() * 4);
    std::memcpy(sections_.patterns.data() + begins.size() * 4, all.data(),
                all.size() * 2);
  }

  const Phonics& phonics_;
  std::string name_;
  int line_ = 0;
  std::optional<PatternId> pattern_;
  Readers readers_ = Readers::both;
  BankSections sections_;
  std::map<std::string, BankWord, std::less<>> numbers_;
  std::vector<std::string> spellings_;
};

}  // namespace

BankSections index_bank(const ByteSource& source, const std::string& file,
                        const std::vector<BankSource>& sentences,
                        const std::vector<BankSource>& passages) {
  const Phonics phonics(source, file);
  BankMaker maker(phonics);
  for (const BankSource& one : sentences) maker.read_sentences(one);
  for (const BankSource& one : passages) maker.read_passages(one);
  return maker.finish();
}

}  // namespace sheaf
