#include "lexicon/meaning_writer.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <set>

#include <fmt/format.h>

#include "base/error.h"
#include "phonics/table_text.h"

namespace sheaf {

namespace {

constexpr std::size_t kLargestMeanings = std::size_t{64} << 20U;
// Senses of one kind that are kept of a word; those behind are rare.
constexpr std::size_t kMostSenses = 4;

struct KindFile {
  std::string_view suffix;
  WordKind kind;
  std::string_view letters;  // ss_type in the data
};
constexpr KindFile kKindFiles[] = {{"noun", WordKind::noun, "n"},
                                   {"verb", WordKind::verb, "v"},
                                   {"adj", WordKind::adjective, "as"},
                                   {"adv", WordKind::adverb, "r"}};

// Frames of verbs, as wninput(5WN) numbers them, that have no object, and
// those whose object is a thing or a person.
constexpr int kWithoutObject[] = {1, 2, 3, 4, 12, 13, 22, 27};
constexpr int kWithObject[] = {8,  9,  10, 11, 14, 15, 16, 17,
                               18, 19, 20, 21, 24, 25, 30, 31};

// A synset is known by its kind and its place in the file of this kind.
using SynsetKey = std::uint64_t;
SynsetKey key_of(WordKind kind, int place) {
  return static_cast<SynsetKey>(kind) << 32U | static_cast<SynsetKey>(place);
}

struct Synset {
  std::set<std::string, std::less<>> words;  // in lower case only
  std::uint8_t frames = 0;
  std::optional<SynsetKey> parent;
  std::vector<SynsetKey> opposites;
  int kinds = 0;  // concepts below it
};

int number(std::string_view text, int base = 10) {
  int value = 0;
  const auto read =
      std::from_chars(text.data(), text.data() + text.size(), value, base);
  if (read.ec != std::errc()) {
    throw MachineError(
        fmt::format("WordNet: `{}` stands where a number should", text));
  }
  return value;
}

std::optional<WordKind> kind_of(std::string_view letter) {
  for (const KindFile& file : kKindFiles) {
    if (!letter.empty() && file.letters.find(letter) != std::string_view::npos)
      return file.kind;
  }
  return std::nullopt;
}

class MeaningReader {
 public:
  MeaningReader(const Files& files, std::string folder, const MeantWords& words)
      : files_(files), folder_(std::move(folder)), words_(words) {}

  MeaningSections read() {
    read_counts();
    for (const KindFile& file : kKindFiles) read_synsets(file);
    count_kinds();
    for (const KindFile& file : kKindFiles) read_index(file);
    finish();
    return std::move(sections_);
  }

 private:
  std::string text_of(std::string_view name) const {
    return files_.read(fmt::format("{}/{}", folder_, name), kLargestMeanings);
  }

  // A line: lemma%type:..., the number of the sense, how often it was met.
  void read_counts() {
    const std::string text = text_of("cntlist.rev");
    for (const std::string_view line : split_at(text, '\n')) {
      const auto cells = split_at(line, ' ');
      const std::size_t sign = line.find('%');
      if (cells.size() != 3 || sign == std::string_view::npos) continue;
      constexpr std::string_view kTypes = "nvars";
      const int type = line[sign + 1] - '1';
      if (type < 0 || type >= 5) continue;
      const auto kind =
          kind_of(kTypes.substr(static_cast<std::size_t>(type), 1));
      counts_[{std::string(line.substr(0, sign)), *kind, number(cells[1])}] =
          number(cells[2]);
    }
  }

  // A line: place, file, type, count of words (hex), word and id each, count of
  // pointers, sign place kind and ends each, frames of a verb, gloss.
  void read_synsets(const KindFile& file) {
    const std::string text = text_of(fmt::format("data.{}", file.suffix));
    for (const std::string_view line : split_at(text, '\n')) {
      if (line.empty() || line.starts_with(' ')) continue;
      const auto cells = split_at(line.substr(0, line.find(" |")), ' ');
      std::size_t at = 0;
      const auto next = [&]() -> std::string_view {
        if (at >= cells.size()) {
          throw MachineError(
              fmt::format("WordNet: data.{} has a short line", file.suffix));
        }
        return cells[at++];
      };
      Synset& synset = synsets_[key_of(file.kind, number(next()))];
      next();
      next();
      for (int left = number(next(), 16); left > 0; --left) {
        std::string_view word = next();
        word = word.substr(0, word.find('('));  // (p): where it may stand
        const bool plain = std::ranges::all_of(
            word, [](char c) { return (c >= 'a' && c <= 'z') || c == '-'; });
        if (plain) synset.words.emplace(word);
        next();
      }
      for (int left = number(next()); left > 0; --left) {
        const std::string_view sign = next();
        const int place = number(next());
        const auto kind = kind_of(next());
        next();
        if (!kind) continue;
        add_pointer(synset, sign, key_of(*kind, place));
      }
      if (file.kind == WordKind::verb) read_frames(synset, next);
    }
  }

  static void add_pointer(Synset& synset, std::string_view sign, SynsetKey to) {
    // Hypernym, head of a cluster of adjectives, adjective of an adverb.
    const bool up = sign == "@" || sign == "&" || sign == "\\";
    if (up && !synset.parent) synset.parent = to;
    if (sign == "!") synset.opposites.push_back(to);
  }

  template <typename Next>
  static void read_frames(Synset& synset, const Next& next) {
    for (int left = number(next()); left > 0; --left) {
      next();
      const int frame = number(next());
      next();
      if (std::ranges::find(kWithObject, frame) != std::end(kWithObject)) {
        synset.frames |= WordSense::kWithObject;
      }
      if (std::ranges::find(kWithoutObject, frame) !=
          std::end(kWithoutObject)) {
        synset.frames |= WordSense::kWithoutObject;
      }
    }
  }

  // Head and satellites point at each other: a head stays without a parent,
  // and nothing is above itself.
  void count_kinds() {
    for (auto& [key, synset] : synsets_) {
      SynsetKey at = key;
      std::set<SynsetKey> seen = {key};
      while (synsets_.at(at).parent) {
        const SynsetKey up = *synsets_.at(at).parent;
        if (!synsets_.contains(up) || !seen.insert(up).second) {
          synsets_.at(at).parent.reset();
          break;
        }
        at = up;
      }
    }
    for (const auto& [key, synset] : synsets_) {
      for (auto up = synset.parent; up; up = synsets_.at(*up).parent) {
        ++synsets_.at(*up).kinds;
      }
    }
  }

  // A line: lemma, kind, count of senses, count of pointer signs and these, two
  // counts, then the synsets, the commonest first.
  void read_index(const KindFile& file) {
    const std::string text = text_of(fmt::format("index.{}", file.suffix));
    for (const std::string_view line : split_at(text, '\n')) {
      const auto word = words_.find(line.substr(0, line.find(' ')));
      if (line.empty() || word == words_.end()) continue;
      const auto cells = split_at(line, ' ');
      const auto signs = static_cast<std::size_t>(number(cells.at(3)));
      const auto senses = static_cast<std::size_t>(number(cells.at(2)));
      for (std::size_t i = 0; i < senses; ++i) {
        const SynsetKey key =
            key_of(file.kind, number(cells.at(4 + signs + 2 + i)));
        const auto found = synsets_.find(key);
        if (found == synsets_.end() ||
            !found->second.words.contains(word->first)) {
          continue;  // with a capital: a name
        }
        const int rank = static_cast<int>(i) + 1;
        const auto met = counts_.find({word->first, file.kind, rank});
        meant_[word->second].push_back(
            {key, file.kind, rank,
             (met == counts_.end() ? 0 : met->second) + std::ldexp(1, -rank)});
      }
    }
  }

  std::uint16_t number_of(SynsetKey key) {
    const auto [place, added] =
        numbers_.try_emplace(key, static_cast<std::uint16_t>(numbers_.size()));
    if (!added) return place->second;
    if (numbers_.size() >= Concept::kNone) {
      throw MachineError("WordNet: more concepts than the word list can hold");
    }
    const std::uint16_t own = place->second;
    const Synset& synset = synsets_.at(key);
    const double all = std::log(static_cast<double>(synsets_.size()));
    sections_.concepts.push_back(
        {Concept::kNone, static_cast<std::uint16_t>(std::lround(
                             255 * (1 - std::log(synset.kinds + 1.0) / all)))});
    if (synset.parent) {
      const std::uint16_t up = number_of(*synset.parent);
      sections_.concepts[own].parent = up;
    }
    return own;
  }

  void finish() {
    for (auto& [place, senses] : meant_) {
      double all = 0;
      for (const Meant& sense : senses) all += sense.weight;
      std::ranges::stable_sort(senses, std::ranges::greater{}, &Meant::weight);
      std::size_t of_kind[4] = {};
      for (const Meant& sense : senses) {
        if (of_kind[static_cast<int>(sense.kind)]++ >= kMostSenses) continue;
        const double share = std::max(1.0, 255 * sense.weight / all);
        sections_.senses.push_back(
            {place, number_of(sense.synset),
             static_cast<std::uint8_t>(static_cast<std::uint8_t>(sense.kind) |
                                       synsets_.at(sense.synset).frames),
             static_cast<std::uint8_t>(std::lround(share))});
      }
    }
    std::set<OppositeConcepts> opposites;
    for (const auto& [key, own] : numbers_) {
      for (const SynsetKey other : synsets_.at(key).opposites) {
        const auto found = numbers_.find(other);
        if (found == numbers_.end()) continue;
        opposites.insert(
            {std::min(own, found->second), std::max(own, found->second)});
      }
    }
    sections_.opposites.assign(opposites.begin(), opposites.end());
  }

  struct SenseKey {
    std::string word;
    WordKind kind;
    int rank;
    auto operator<=>(const SenseKey&) const = default;
  };
  struct Meant {
    SynsetKey synset;
    WordKind kind;
    int rank;
    double weight;
  };

  const Files& files_;
  std::string folder_;
  const MeantWords& words_;
  std::map<SenseKey, int> counts_;
  std::map<SynsetKey, Synset> synsets_;
  std::map<std::uint32_t, std::vector<Meant>> meant_;  // by place
  std::map<SynsetKey, std::uint16_t> numbers_;
  MeaningSections sections_;
};

}  // namespace

MeaningSections read_meanings(const Files& files, const std::string& folder,
                              const MeantWords& words) {
  return MeaningReader(files, folder, words).read();
}

}  // namespace sheaf
