#include "lexicon/carrier_writer.h"

#include <algorithm>
#include <limits>
#include <map>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "base/error.h"
#include "base/utf8.h"
#include "phonics/accent.h"
#include "phonics/phonics.h"
#include "phonics/table_text.h"
#include "phonics/words_in.h"

namespace sheaf {
namespace {

constexpr Accent kAccentsInOrder[] = {Accent::general_american, Accent::british,
                                      Accent::scottish, Accent::australian};

class CarrierMaker {
 public:
  CarrierMaker(const Phonics& phonics, const BankSource& source)
      : phonics_(phonics), source_(source) {}

  CarrierSections make() {
    for (const std::string_view line : split_at(source_.text, '\n')) {
      ++line_;
      if (line.empty() || line.starts_with('#')) continue;
      if (line.starts_with('[')) {
        read_pattern(line);
      } else {
        read_carrier(line);
      }
    }
    return in_order();
  }

 private:
  // Of a word as it is spelled, and of the label of its reading where it has
  // several.
  using Key = std::pair<std::string, std::optional<std::string>>;

  [[noreturn]] void wrong(std::string_view what, std::string_view line) const {
    throw MachineError(
        fmt::format("{}:{}: {}: `{}`", source_.name, line_, what, line));
  }

  void read_pattern(std::string_view line) {
    if (!line.ends_with(']')) wrong("a `]` is missing", line);
    const std::string_view id = line.substr(1, line.size() - 2);
    has_head_ = true;
    pattern_.reset();
    if (id == "any") return;
    const auto& all = phonics_.patterns().all();
    const auto found = std::ranges::find(all, id, &Pattern::id);
    if (found == all.end()) wrong("there is no such pattern", line);
    pattern_ = static_cast<PatternId>(found - all.begin());
  }

  void read_carrier(std::string_view line) {
    const std::size_t tab = line.find('\t');
    if (tab == std::string_view::npos || tab == 0 || !has_head_) {
      wrong("this is neither a word with its sentence nor a section's head",
            line);
    }
    std::string word(line.substr(0, tab));
    const std::string named = label_behind(word);
    const std::string_view sentence = line.substr(tab + 1);
    if (!has_word(sentence, word)) wrong("the word is not in this", line);
    if (word.size() >= CarrierRecord::kAnyReading ||
        sentence.size() > std::numeric_limits<std::uint16_t>::max()) {
      wrong("this is too long", line);
    }
    const auto added = found_.emplace(
        Key{word, label_of_reading(word, named, line)}, sentence);
    if (!added.second) wrong("the word has a sentence already", line);
  }

  // The label behind a word, "use (noun)", which is taken off; mostly none.
  static std::string label_behind(std::string& word) {
    const std::size_t open = word.find(" (");
    if (open == std::string::npos || !word.ends_with(')')) return {};
    const std::string label = word.substr(open + 2, word.size() - open - 3);
    word.resize(open);
    return label;
  }

  // A capital counts, but at the beginning of the sentence.
  static bool has_word(std::string_view sentence, const std::string& word) {
    const std::vector<WordPlace> places = words_in(sentence);
    return std::ranges::any_of(places, [&](const WordPlace& place) {
      const std::string_view there =
          sentence.substr(place.begin, place.end - place.begin);
      return there == word ||
             (&place == &places.front() && lower_case(there) == word);
    });
  }

  // Which of a word's readings has the pattern, and the label named if one is;
  // nothing where they are all of one label.
  std::optional<std::string> label_of_reading(const std::string& word,
                                              const std::string& named,
                                              std::string_view line) const {
    if (!phonics_.knows(word)) wrong("nobody knows this word", line);
    std::optional<std::string> label;
    bool several = false;
    for (const Accent accent : kAccentsInOrder) {
      const auto readings = phonics_.read(word, conventions_for(accent));
      for (const Reading& reading : readings) {
        several = several || reading.label != readings.front().label;
        const bool meant = named.empty() || reading.label == named;
        const bool fits = !pattern_ || reading.find(*pattern_) != nullptr;
        if (!label && meant && fits) label = reading.label;
      }
    }
    if (!label)
      wrong("the word, said so, does not have the section's pattern", line);
    return several ? label : std::nullopt;
  }

  CarrierSections in_order() const {
    CarrierSections made;
    for (const auto& [key, sentence] : found_) {
      const auto& [word, label] = key;
      CarrierRecord record;
      record.text = static_cast<std::uint32_t>(made.texts.size());
      record.word = static_cast<std::uint8_t>(word.size());
      record.label = label ? static_cast<std::uint8_t>(label->size())
                           : CarrierRecord::kAnyReading;
      record.sentence = static_cast<std::uint16_t>(sentence.size());
      made.texts += word + label.value_or("") + sentence;
      made.records.push_back(record);
    }
    return made;
  }

  const Phonics& phonics_;
  const BankSource& source_;
  int line_ = 0;
  bool has_head_ = false;
  std::optional<PatternId> pattern_;  ///< none: whatever the word has
  std::map<Key, std::string> found_;
};

}  // namespace

CarrierSections index_carriers(const ByteSource& source,
                               const std::string& file,
                               const BankSource& carriers) {
  const Phonics phonics(source, file);
  return CarrierMaker(phonics, carriers).make();
}

}  // namespace sheaf
