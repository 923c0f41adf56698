#include "phonics/phonics.h"

#include <algorithm>
#include <cassert>
#include <optional>
#include <utility>
#include <vector>

#include "base/utf8.h"
#include "phonics/accent.h"
#include "phonics/derive.h"
#include "phonics/endings.h"
#include "phonics/guess_word.h"
#include "phonics/letter_map.h"
#include "phonics/near_words.h"
#include "phonics/own_pattern.h"
#include "phonics/phonics_impl.h"
#include "phonics/reading_maker.h"
#include "phonics/right_forms.h"
#include "phonics/why_not.h"
#include "phonics/word_facts.h"

namespace sheaf {

namespace {

// Where a kind of speech stands among all.
std::size_t speech_index(const Speech& speech) {
  return static_cast<std::size_t>(speech.accent) * 4 +
         (speech.bath_ah ? 2 : 0) + (speech.yod_keep ? 1 : 0);
}

std::vector<Lexicon> all_accents(const Lexicon& lexicon) {
  std::vector<Lexicon> all;
  for (const Accent accent : {Accent::general_american, Accent::british,
                              Accent::scottish, Accent::australian}) {
    for (const bool bath : {false, true}) {
      for (const bool yod : {false, true}) {
        assert(speech_index({accent, bath, yod}) == all.size());
        all.push_back(lexicon.with({accent, bath, yod}));
      }
    }
  }
  return all;
}

}  // namespace

const Lexicon& Phonics::Impl::lexicon_for(
    const Conventions& conventions) const {
  return lexicons[speech_index(speech_of(conventions))];
}

Phonics::Impl::Impl(const ByteSource& source, const std::string& path)
    : file(source.keep(path), path),
      lexicons(all_accents(Lexicon(file))),
      lexicon(lexicons.front()),
      catalogue(file.text(Section::patterns)),
      steps(file.records<GuessStep>(Section::guesses)),
      bank(file),
      meanings(file, lexicon) {}

std::vector<WordRecord> Phonics::Impl::known(const Lexicon& lexicon,
                                             std::string_view spelling) {
  std::vector<WordRecord> records = lexicon.readings(spelling);
  if (records.empty()) records = possessive(lexicon, spelling);
  if (records.empty()) records = hyphenated(lexicon, spelling);
  if (records.empty() && spelling.find('-') != std::string_view::npos) {
    records = lexicon.readings(map_letters(spelling).letters);
  }
  return records;
}

// The parts of a word with a hyphen, one behind the other.
std::vector<WordRecord> Phonics::Impl::hyphenated(const Lexicon& lexicon,
                                                  std::string_view spelling) {
  const std::size_t hyphen = spelling.find('-');
  if (hyphen == std::string_view::npos) return {};
  // Prefixes stand in the word list with their hyphen: co-.
  auto first = lexicon.readings(spelling.substr(0, hyphen + 1));
  const bool prefix = !first.empty();
  if (!prefix) first = known(lexicon, spelling.substr(0, hyphen));
  const auto rest = known(lexicon, spelling.substr(hyphen + 1));
  if (first.empty() || rest.empty()) return {};
  if (prefix) first.front().spelling = spelling.substr(0, hyphen);
  return {join_records(first.front(), rest.front(), std::string(spelling),
                       lexicon.inventory())};
}

// girl's, girls' and James's. No 's stands behind a plural (girls's), and an
// apostrophe alone behind s only.
std::vector<WordRecord> Phonics::Impl::possessive(const Lexicon& lexicon,
                                                  std::string_view spelling) {
  constexpr std::string_view kSign = "'s";
  std::vector<WordRecord> records;
  if (spelling.ends_with("s'")) {
    records = known(lexicon, spelling.substr(0, spelling.size() - 1));
    for (WordRecord& record : records) record.spelling += '\'';
    return records;
  }
  if (!spelling.ends_with(kSign)) return records;
  const std::string_view base =
      spelling.substr(0, spelling.size() - kSign.size());
  if (base.find('\'') != std::string_view::npos || is_plural(lexicon, base)) {
    return {};
  }
  const std::string letters = map_letters(spelling).letters;
  for (const WordRecord& record : known(lexicon, base)) {
    auto made =
        derive_record(spelling, letters,
                      {Ending::possessive, Joint::plain, std::string(base)},
                      record, lexicon.label(record.label), lexicon.inventory());
    if (made) records.push_back(std::move(*made));
  }
  return records;
}

bool Phonics::Impl::is_plural(const Lexicon& lexicon, std::string_view word) {
  const std::string_view one = without_plural_s(word);
  if (one.empty() || lexicon.is_not_inflected(word)) return false;
  const auto head = lexicon.head(one);
  return head && !head->name && (head->everyday || head->tier > 0);
}

GuessSources Phonics::Impl::guess_sources(const Lexicon& spoken) const {
  return {&lexicon.inventory(), steps,
          [&spoken](std::string_view part) { return spoken.readings(part); }};
}

Reading Phonics::Impl::guess(std::string_view word, const LetterMap& map,
                             const Conventions& conventions) const {
  const Lexicon& spoken = lexicon_for(conventions);
  WordRecord record = guess_word(map.letters, guess_sources(spoken));
  say_as(spoken.speech(), lexicon.inventory(), record);
  Reading reading = make_reading(word, map, record.segments, record.stress,
                                 lexicon.inventory(), conventions);
  reading.origin = Reading::Origin::guess;
  return reading;
}

Reading Phonics::Impl::guess_with_acute(std::string_view word,
                                        const LetterMap& map,
                                        const Conventions& conventions) const {
  const Phoneme said[] = {Phoneme::ey};
  const int id = lexicon.inventory().find("e", said);
  if (id < 0) return guess(word, map, conventions);
  const Lexicon& spoken = lexicon_for(conventions);
  const std::string before = map.letters.substr(0, map.letters.size() - 1);
  const auto known_part = spoken.readings(before);
  WordRecord record = known_part.empty()
                          ? guess_word(before, guess_sources(spoken))
                          : known_part.front();
  const auto beats = syllable_count(record.segments, lexicon.inventory());
  if (beats < 16) {  // what is typed may have more
    record.stress |= static_cast<std::uint16_t>(1U << beats);
  }
  record.segments.push_back({static_cast<CorrespondenceId>(id),
                             static_cast<std::uint8_t>(before.size()), -1});
  say_as(spoken.speech(), lexicon.inventory(), record);
  Reading reading = make_reading(word, map, record.segments, record.stress,
                                 lexicon.inventory(), conventions);
  reading.origin = Reading::Origin::guess;
  return reading;
}

Reading Phonics::Impl::make(std::string_view word, const LetterMap& map,
                            const WordRecord& record,
                            const Conventions& conventions) const {
  Reading reading = make_reading(word, map, record.segments, record.stress,
                                 lexicon.inventory(), conventions);
  reading.origin = record.origin;
  reading.label = lexicon.label(record.label);
  return reading;
}

void Phonics::Impl::find_patterns(Reading& reading, const LetterMap& map,
                                  const Lexicon& spoken) const {
  const WordFacts facts = find_facts(reading, map, spoken);
  reading.places = catalogue.places_in(reading, facts);
  reading.doubled = reading.dropped = -1;
  for (const WordFacts::PlacedEnding& ending : facts.endings) {
    if (ending.begin == 0) continue;
    const int before = static_cast<int>(ending.begin) - 1;
    if (ending.analysis.joint == Joint::doubled) reading.doubled = before;
    if (ending.analysis.joint == Joint::dropped_e) reading.dropped = before;
  }
}

Phonics::Phonics(const ByteSource& source, const std::string& file)
    : impl_(std::make_unique<Impl>(source, file)) {}
Phonics::Phonics(const ByteSource& source, const std::string& file,
                 std::span<const std::string> own_patterns)
    : Phonics(source, file) {
  for (const std::string& written : own_patterns) {
    std::string fault;
    const OwnPattern own =
        read_own_pattern(written, impl_->lexicon.inventory(), fault);
    assert(fault.empty());
    impl_->catalogue.add(own);
  }
}
Phonics::~Phonics() = default;
Phonics::Phonics(Phonics&&) noexcept = default;

namespace {

bool ends_in_acute(std::string_view word) {
  return word.ends_with("é") || word.ends_with("É");
}

}  // namespace

std::vector<Reading> Phonics::Impl::read_units(
    const std::string& given, const LetterMap& map,
    const Conventions& conventions) const {
  std::vector<Reading> readings;
  if (!map.good) {
    readings.emplace_back().word = given;
    readings.back().origin = Reading::Origin::guess;
    return readings;
  }
  for (const WordRecord& record :
       known(lexicon_for(conventions), map.spelling)) {
    readings.push_back(make(given, map, record, conventions));
  }
  if (ends_in_acute(given)) {
    std::erase_if(readings, [](const Reading& reading) {
      const Unit& last = reading.units.back();
      return last.grapheme != "e" || last.listed != std::vector{Phoneme::ey};
    });
    if (readings.empty() && map.letters.size() > 1) {
      readings.push_back(guess_with_acute(given, map, conventions));
    }
  }
  if (readings.empty()) readings.push_back(guess(given, map, conventions));
  return readings;
}

std::vector<Reading> Phonics::read(std::string_view word,
                                   const Conventions& conventions) const {
  const std::string given = normalized(word);
  const LetterMap map = map_letters(given);
  std::vector<Reading> readings = impl_->read_units(given, map, conventions);
  if (!map.good) return readings;
  const Lexicon& spoken = impl_->lexicon_for(conventions);
  for (Reading& reading : readings) impl_->find_patterns(reading, map, spoken);
  return readings;
}

Phonics::Impl::Remembered& Phonics::Impl::remembered(
    std::string_view word, const Conventions& conventions) const {
  if (!(memo_conventions == conventions) || memo.size() > kMostRemembered) {
    memo.clear();
    memo_conventions = conventions;
  }
  // A packet asks for some three thousand.
  if (memo.empty()) memo.reserve(kMostRemembered / 2);
  return memo[std::string(word)];
}

std::shared_ptr<const Reading> Phonics::first_reading(
    std::string_view word, const Conventions& conventions) const {
  const std::lock_guard lock(impl_->memo_lock);
  Impl::Remembered& entry = impl_->remembered(word, conventions);
  if (entry.whole == nullptr) {
    entry.whole = std::make_shared<const Reading>(
        std::move(read(word, conventions).front()));
    entry.units = entry.whole;
  }
  return entry.whole;
}

std::shared_ptr<const Reading> Phonics::first_units(
    std::string_view word, const Conventions& conventions) const {
  const std::lock_guard lock(impl_->memo_lock);
  Impl::Remembered& entry = impl_->remembered(word, conventions);
  if (entry.units == nullptr) {
    const std::string given = normalized(word);
    entry.units = std::make_shared<const Reading>(std::move(
        impl_->read_units(given, map_letters(given), conventions).front()));
  }
  return entry.units;
}

EndingAnalysis Phonics::outer_ending(std::string_view word,
                                     const Conventions& conventions) const {
  const auto reading = first_units(word, conventions);
  const std::lock_guard lock(impl_->memo_lock);
  std::optional<EndingAnalysis>& ending =
      impl_->remembered(word, conventions).ending;
  if (!ending) {
    const LetterMap map = map_letters(reading->word);
    ending = map.good ? find_outer_ending(*reading, map, lexicon())
                      : EndingAnalysis{};
  }
  return *ending;
}

int Phonics::syllables(std::string_view word) const {
  const LetterMap map = map_letters(normalized(word));
  const std::uint32_t place =
      map.good ? impl_->lexicon.find(map.spelling) : kNoWord;
  const auto record =
      place == kNoWord ? std::nullopt : impl_->lexicon.record(place);
  return record ? syllable_count(record->segments, impl_->lexicon.inventory())
                : first_units(word, Conventions{})->syllables();
}

bool Phonics::knows(std::string_view word) const {
  const LetterMap map = map_letters(normalized(word));
  if (!map.good || Impl::known(impl_->lexicon, map.spelling).empty()) {
    return false;
  }
  // Rose does not make rosé known.
  return !ends_in_acute(normalized(word)) ||
         first_units(word, Conventions{})->origin != Reading::Origin::guess;
}

std::vector<std::string> Phonics::right_forms(std::string_view word) const {
  constexpr std::size_t kMost = 3;
  std::vector<std::string> words;
  const LetterMap map = map_letters(normalized(word));
  const bool plain = map.spelling == map.letters;
  if (!map.good || !plain || knows(word)) return words;
  for (RightForm& form : sheaf::right_forms(map.letters, impl_->lexicon)) {
    if (words.size() < kMost) words.push_back(std::move(form.word));
  }
  return words;
}

std::vector<std::string> Phonics::meant_words(
    std::string_view word,
    const std::function<bool(std::string_view)>& may_suggest) const {
  const std::string given = normalized(word);
  const LetterMap map = map_letters(given);
  if (!map.good || map.spelling != map.letters || knows(word)) return {};
  std::vector<std::string> right = right_forms(word);
  std::erase_if(right, [&](const std::string& one) {
    return may_suggest && !may_suggest(one);
  });
  if (!right.empty()) return right;
  NearWordLimits limits;
  limits.names = map.capital;
  limits.may_suggest = may_suggest;
  return near_words(map.letters, impl_->lexicon, limits);
}

const PatternCatalogue& Phonics::patterns() const { return impl_->catalogue; }

std::vector<PatternName> Phonics::find_patterns(
    std::string_view written) const {
  return find_pattern_names(
      impl_->catalogue, written, [this](std::string_view word, PatternId id) {
        return read(word, Conventions{}).front().find(id) != nullptr;
      });
}

const SentenceBank& Phonics::bank() const { return impl_->bank; }

const WordMeanings& Phonics::meanings() const { return impl_->meanings; }

const Lexicon& Phonics::lexicon() const { return impl_->lexicon; }

std::string Phonics::fault_of_own_pattern(std::string_view written) const {
  std::string fault;
  read_own_pattern(written, impl_->lexicon.inventory(), fault);
  return fault;
}

std::string Phonics::why_not(const Reading& reading, PatternId pattern,
                             const Conventions& conventions) const {
  const LetterMap map = map_letters(reading.word);
  const WordFacts facts =
      find_facts(reading, map, impl_->lexicon_for(conventions));
  return explain_why_not(reading, facts, impl_->catalogue, pattern,
                         conventions);
}

Phonics::TaughtSound Phonics::taught_sound(
    PatternId pattern, const TaughtUnit& taught,
    const Conventions& conventions) const {
  // Words of one syllable first, everyday ones before others; none that is said
  // in two ways.
  constexpr std::size_t kMostRead = 60;
  std::size_t read = 0;
  const auto look = [&](std::span<const PatternWord> words, bool one_syllable) {
    std::optional<TaughtSound> found;
    for (const PatternWord& word : words) {
      if (word.readings || (word.syllables == 1) != one_syllable) continue;
      if (++read > kMostRead) break;
      const auto reading = first_units(word.word, conventions);
      for (const Unit& unit : reading->units) {
        if (taught.covers(unit)) return found = {unit.phonemes, word.word};
      }
    }
    return found;
  };
  const auto& everyday = everyday_pattern_words(pattern, conventions);
  for (const bool one_syllable : {true, false}) {
    read = 0;
    if (auto found = look(everyday, one_syllable)) return *std::move(found);
    // Rarely asked for: to list the others takes longer than all else.
    if (read > kMostRead) continue;
    const std::span all(pattern_words(pattern, conventions));
    auto found = look(all.subspan(everyday.size()), one_syllable);
    if (found) return *std::move(found);
  }
  return {in_accent(taught.grapheme, taught.phonemes, conventions), ""};
}

ContrastFit Phonics::fit_of(const Reading& reading, PatternId pattern,
                            std::span<const PatternId> against) const {
  if (!has_contrast_rule(impl_->catalogue, pattern, against)) {
    return ContrastFit::shows;
  }
  const LetterMap map = map_letters(reading.word);
  const WordFacts facts = find_facts(reading, map, impl_->lexicon);
  return contrast_fit(impl_->catalogue, reading, facts, pattern, against);
}

bool is_word(std::string_view text) { return map_letters(text).good; }

const PatternPlace* Reading::find(PatternId pattern) const {
  const auto found = std::ranges::find(places, pattern, &PatternPlace::pattern);
  return found == places.end() ? nullptr : &*found;
}

}  // namespace sheaf
