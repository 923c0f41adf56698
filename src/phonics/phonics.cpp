#include "phonics/phonics.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/utf8.h"
#include "phonics/derive.h"
#include "phonics/guesser.h"
#include "phonics/hand_split.h"
#include "phonics/lexicon.h"
#include "phonics/notation.h"
#include "phonics/reading_maker.h"
#include "phonics/why_not.h"
#include "phonics/word_facts.h"

namespace sheaf {

struct Phonics::Impl {
  explicit Impl(const std::string& path)
      : file(path),
        lexicon(file),
        catalogue(file.text(Section::patterns)),
        steps(file.records<GuessStep>(Section::guesses)) {}

  LexiconFile file;
  Lexicon lexicon;
  PatternCatalogue catalogue;
  std::span<const GuessStep> steps;

  std::vector<WordRecord> known(std::string_view spelling) const {
    std::vector<WordRecord> records = lexicon.readings(spelling);
    if (records.empty()) records = derived(spelling);
    if (records.empty() && spelling.size() > 1 && spelling.ends_with('\'')) {
      records = known(spelling.substr(0, spelling.size() - 1));  // girls'
      for (WordRecord& record : records) record.spelling += '\'';
    }
    if (records.empty()) records = hyphenated(spelling);
    if (records.empty() && spelling.find('-') != std::string_view::npos) {
      records = lexicon.readings(map_letters(spelling).letters);
    }
    return records;
  }

  // The parts of a word with a hyphen, one behind the other.
  std::vector<WordRecord> hyphenated(std::string_view spelling) const {
    const std::size_t hyphen = spelling.find('-');
    if (hyphen == std::string_view::npos) return {};
    // Prefixes stand in the word list with their hyphen: co-.
    auto first = lexicon.readings(spelling.substr(0, hyphen + 1));
    const bool prefix = !first.empty();
    if (!prefix) first = known(spelling.substr(0, hyphen));
    const auto rest = known(spelling.substr(hyphen + 1));
    if (first.empty() || rest.empty()) return {};
    if (prefix) first.front().spelling = spelling.substr(0, hyphen);
    return {join_records(first.front(), rest.front(), std::string(spelling),
                         lexicon.inventory())};
  }

  std::vector<WordRecord> derived(std::string_view spelling) const {
    std::vector<WordRecord> records;
    const std::string letters = map_letters(spelling).letters;
    take_off_ending(spelling, [&](const EndingAnalysis& analysis) {
      for (const WordRecord& base : lexicon.readings(analysis.base)) {
        auto record = derive_record(spelling, letters, analysis, base,
                                    lexicon.label(base.label),
                                    lexicon.inventory());
        if (record) records.push_back(std::move(*record));
      }
      return !records.empty();
    });
    return records;
  }

  Reading guess(std::string_view word, const LetterMap& map,
                const Conventions& conventions) const {
    Segments segments = guess_segments(map.letters, lexicon.inventory(), steps);
    if (segments.empty()) segments = letter_by_letter(map.letters);
    Reading reading =
        make_reading(word, map, segments, SpokenWord{}, lexicon.inventory(), conventions);
    reading.origin = Reading::Origin::guess;
    return reading;
  }

  Segments letter_by_letter(std::string_view letters) const {
    Segments segments;
    for (std::size_t i = 0; i < letters.size(); ++i) {
      int best = -1;
      for (const CorrespondenceId id :
           lexicon.inventory().beginning_with(letters[i])) {
        const Correspondence& unit = lexicon.inventory()[id];
        if (unit.length == 1 &&
            (best < 0 || unit.cost < lexicon.inventory()[best].cost)) {
          best = id;
        }
      }
      if (best >= 0) {
        segments.push_back({static_cast<CorrespondenceId>(best),
                            static_cast<std::uint8_t>(i), -1});
      }
    }
    return segments;
  }

  void find_patterns(Reading& reading, const LetterMap& map) const {
    const WordFacts facts = find_facts(reading, map, lexicon);
    reading.places = catalogue.places_in(reading, facts);
  }
};

Phonics::Phonics(const std::string& file)
    : impl_(std::make_unique<Impl>(file)) {}
Phonics::~Phonics() = default;
Phonics::Phonics(Phonics&&) noexcept = default;

std::vector<Reading> Phonics::read(std::string_view word,
                                   const Conventions& conventions) const {
  const std::string given = normalized(word);
  const LetterMap map = map_letters(given);
  std::vector<Reading> readings;
  if (!map.good) {
    readings.emplace_back().word = given;
    readings.back().origin = Reading::Origin::guess;
    return readings;
  }
  for (const WordRecord& record : impl_->known(map.spelling)) {
    Reading reading = make_reading(given, map, record.segments,
                     {record.stress, record.bath},
                                   impl_->lexicon.inventory(), conventions);
    reading.origin = record.origin;
    reading.label = impl_->lexicon.label(record.label);
    readings.push_back(std::move(reading));
  }
  if (readings.empty()) {
    readings.push_back(impl_->guess(given, map, conventions));
  }
  for (Reading& reading : readings) impl_->find_patterns(reading, map);
  return readings;
}

bool Phonics::knows(std::string_view word) const {
  const LetterMap map = map_letters(normalized(word));
  return map.good && !impl_->known(map.spelling).empty();
}

namespace {

HandReading hand_fault(std::string text, int part) {
  HandReading result;
  result.fault = std::move(text);
  result.part = part;
  return result;
}

}  // namespace

HandReading Phonics::read_by_hand(std::string_view word,
                                  std::span<const HandUnit> parts,
                                  const Conventions& conventions) const {
  const std::string given = normalized(word);
  const LetterMap map = map_letters(given);
  if (!map.good) return hand_fault("this is not a word", -1);
  const Inventory& inventory = impl_->lexicon.inventory();

  std::vector<std::string> graphemes;
  std::vector<std::vector<Phoneme>> sounds(parts.size());
  for (std::size_t i = 0; i < parts.size(); ++i) {
    std::string grapheme;
    for (const char c : lower_case(normalized(parts[i].grapheme))) {
      if (c == '_') {
        grapheme += c;
      } else {
        grapheme += map_letters(std::string_view(&c, 1)).letters;
      }
    }
    if (grapheme.empty()) {
      grapheme = map_letters(normalized(parts[i].grapheme)).letters;
    }
    graphemes.push_back(grapheme);
    if (parts[i].sound.empty()) continue;
    const auto sound = read_sound(parts[i].sound);
    if (!sound) {
      const auto names = plain_sound_names();
      const std::string near = did_you_mean(parts[i].sound, names);
      return hand_fault(
          fmt::format("there is no sound named `{}`{}", parts[i].sound,
                      near.empty() ? "" : "; " + near),
          static_cast<int>(i));
    }
    sounds[i] = *sound;
  }
  const std::vector<std::string_view> views(graphemes.begin(), graphemes.end());
  const HandPlaces hand = place_graphemes(map.letters, views);
  if (!hand.fault.empty()) return hand_fault(hand.fault, hand.part);

  // Where no sounds are given, those of the word list fit best.
  SpokenWord spoken;
  Segments known;
  for (const WordRecord& record : impl_->known(map.spelling)) {
    std::vector<Phoneme> phonemes;
    for (const Segment& s : record.segments) {
      const auto p = inventory[s.id].phonemes();
      phonemes.insert(phonemes.end(), p.begin(), p.end());
    }
    spoken = {record.stress, record.bath};
    known = align_by_hand(inventory, map.letters, views, phonemes);
    if (!known.empty()) break;
  }
  Reading reading;
  reading.word = given;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    Unit unit;
    unit.grapheme = graphemes[i];
    const auto place = hand.places[i];
    const std::size_t width =
        graphemes[i].find('_') == std::string::npos ? graphemes[i].size() : 1;
    unit.begin = map.begins[place.begin];
    unit.end = map.ends[place.begin + width - 1];
    if (place.split_e >= 0) unit.split_e = map.begins[place.split_e];
    if (!sounds[i].empty()) {
      unit.phonemes = sounds[i];
    } else if (!known.empty()) {
      const auto p = inventory[known[i].id].phonemes();
      unit.phonemes.assign(p.begin(), p.end());
    } else {
      const Correspondence* usual = nullptr;
      for (const CorrespondenceId id :
           inventory.beginning_with(graphemes[i][0])) {
        if (inventory[id].grapheme() == graphemes[i] &&
            (usual == nullptr || inventory[id].cost < usual->cost)) {
          usual = &inventory[id];
        }
      }
      if (usual == nullptr) {
        return hand_fault(
            fmt::format("`{0}` is no usual grapheme, so its sound must be "
                        "given: `{0}=/sound/`",
                        graphemes[i]),
            static_cast<int>(i));
      }
      unit.phonemes.assign(usual->phonemes().begin(), usual->phonemes().end());
    }
    unit.irregular = inventory.find(unit.grapheme, unit.phonemes) < 0;
    reading.units.push_back(std::move(unit));
  }
  finish_reading(reading, spoken, conventions);
  reading.origin = Reading::Origin::by_hand;
  impl_->find_patterns(reading, map);
  return {std::move(reading), {}, -1};
}

const PatternCatalogue& Phonics::patterns() const { return impl_->catalogue; }

std::string Phonics::why_not(const Reading& reading, PatternId pattern) const {
  const LetterMap map = map_letters(reading.word);
  const WordFacts facts = find_facts(reading, map, impl_->lexicon);
  return explain_why_not(reading, facts, impl_->catalogue, pattern);
}

bool is_word(std::string_view text) { return map_letters(text).good; }

const PatternPlace* Reading::find(PatternId pattern) const {
  const auto found = std::ranges::find(places, pattern, &PatternPlace::pattern);
  return found == places.end() ? nullptr : &*found;
}

}  // namespace sheaf
