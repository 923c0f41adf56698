#include "phonics/phonics.h"

#include <algorithm>
#include <cassert>

#include "base/utf8.h"
#include "phonics/derive.h"
#include "phonics/guess_word.h"
#include "phonics/own_pattern.h"
#include "phonics/phonics_impl.h"
#include "phonics/reading_maker.h"
#include "phonics/why_not.h"
#include "phonics/word_facts.h"

namespace sheaf {

Phonics::Impl::Impl(const std::string& path)
    : file(path),
      lexicon(file),
      catalogue(file.text(Section::patterns)),
      steps(file.records<GuessStep>(Section::guesses)) {}

std::vector<WordRecord> Phonics::Impl::known(std::string_view spelling) const {
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
std::vector<WordRecord> Phonics::Impl::hyphenated(
    std::string_view spelling) const {
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

std::vector<WordRecord> Phonics::Impl::derived(
    std::string_view spelling) const {
  std::vector<WordRecord> records;
  int best_rank = 0;
  const std::string letters = map_letters(spelling).letters;
  const auto make = [&](const EndingAnalysis& analysis) {
    std::vector<WordRecord> made;
    for (const WordRecord& base : lexicon.readings(analysis.base)) {
      auto record =
          derive_record(spelling, letters, analysis, base,
                        lexicon.label(base.label), lexicon.inventory());
      if (record) made.push_back(std::move(*record));
    }
    return made;
  };
  take_off_ending(spelling, [&](const EndingAnalysis& analysis) {
    std::vector<WordRecord> made = make(analysis);
    if (made.empty()) return -1;
    constexpr int kUnlisted = 99;
    const int tier = lexicon.tier(analysis.base);
    const bool plural = lexicon.tier(without_plural_s(analysis.base)) > 0;
    const int rank = (tier == 0 ? kUnlisted : tier) + joint_rank(analysis) +
                     (plural ? kPluralRank : 0);
    if (records.empty() || rank < best_rank) {
      records = std::move(made);
      best_rank = rank;
    }
    return rank;
  });
  return records;
}

Reading Phonics::Impl::guess(std::string_view word, const LetterMap& map,
                             const Conventions& conventions) const {
  const GuessSources sources{
      &lexicon.inventory(), steps,
      [&](std::string_view part) { return lexicon.readings(part); }};
  const WordRecord record = guess_word(map.letters, sources);
  Reading reading =
      make_reading(word, map, record.segments, {record.stress, record.bath},
                   lexicon.inventory(), conventions);
  reading.origin = Reading::Origin::guess;
  return reading;
}

Reading Phonics::Impl::make(std::string_view word, const LetterMap& map,
                            const WordRecord& record,
                            const Conventions& conventions) const {
  Reading reading =
      make_reading(word, map, record.segments, {record.stress, record.bath},
                   lexicon.inventory(), conventions);
  reading.origin = record.origin;
  reading.label = lexicon.label(record.label);
  return reading;
}

void Phonics::Impl::find_patterns(Reading& reading,
                                  const LetterMap& map) const {
  const WordFacts facts = find_facts(reading, map, lexicon);
  reading.places = catalogue.places_in(reading, facts);
  reading.doubled = reading.dropped = -1;
  for (const WordFacts::PlacedEnding& ending : facts.endings) {
    if (ending.begin == 0) continue;
    const int before = static_cast<int>(ending.begin) - 1;
    if (ending.analysis.joint == Joint::doubled) reading.doubled = before;
    if (ending.analysis.joint == Joint::dropped_e) reading.dropped = before;
  }
}

Phonics::Phonics(const std::string& file)
    : impl_(std::make_unique<Impl>(file)) {}
Phonics::Phonics(const std::string& file,
                 std::span<const std::string> own_patterns)
    : Phonics(file) {
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

std::vector<Reading> Phonics::Impl::read_units(
    const std::string& given, const LetterMap& map,
    const Conventions& conventions) const {
  std::vector<Reading> readings;
  if (!map.good) {
    readings.emplace_back().word = given;
    readings.back().origin = Reading::Origin::guess;
    return readings;
  }
  for (const WordRecord& record : known(map.spelling)) {
    readings.push_back(make(given, map, record, conventions));
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
  for (Reading& reading : readings) impl_->find_patterns(reading, map);
  return readings;
}

Phonics::Impl::Remembered& Phonics::Impl::remembered(
    std::string_view word, const Conventions& conventions) const {
  if (!(memo_conventions == conventions) || memo.size() > kMostRemembered) {
    memo.clear();
    memo_conventions = conventions;
  }
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

bool Phonics::knows(std::string_view word) const {
  const LetterMap map = map_letters(normalized(word));
  return map.good && !impl_->known(map.spelling).empty();
}

const PatternCatalogue& Phonics::patterns() const { return impl_->catalogue; }
const Lexicon& Phonics::lexicon() const { return impl_->lexicon; }

std::string Phonics::fault_of_own_pattern(std::string_view written) const {
  std::string fault;
  read_own_pattern(written, impl_->lexicon.inventory(), fault);
  return fault;
}

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
