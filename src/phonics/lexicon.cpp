#include "phonics/lexicon.h"

#include <algorithm>

#include "base/error.h"
#include "phonics/table_text.h"

namespace sheaf {

Lexicon::Lexicon(const LexiconFile& file)
    : words_(file.section(Section::words)),
      index_(file.records<std::uint32_t>(Section::word_index)) {
  const auto units = file.records<Correspondence>(Section::correspondences);
  for (const Correspondence& unit : units) {
    if (unit.length == 0 || unit.length > Correspondence::kLongestGrapheme ||
        unit.letters[0] < 'a' || unit.letters[0] > 'z' ||
        unit.sound_count == 0 ||
        unit.sound_count > Correspondence::kMostPhonemes) {
      throw MachineError("the word list is damaged; build Sheaf again");
    }
  }
  auto tables = std::make_shared<Tables>();
  tables->inventory = Inventory(units);
  tables->labels = split_at(file.text(Section::labels), '\n');
  tables->not_inflected = split_at(file.text(Section::not_inflected), '\n');
  tables->not_prefixed = split_at(file.text(Section::not_prefixed), '\n');
  tables->not_compound = split_at(file.text(Section::not_compound), '\n');
  tables_ = std::move(tables);
}

Lexicon Lexicon::with(const Speech& speech) const {
  Lexicon other = *this;
  other.speech_ = speech;
  return other;
}

std::uint32_t Lexicon::find(std::string_view spelling) const {
  if (index_.empty()) return kNoWord;
  std::size_t slot = word_slot(spelling, index_.size());
  for (std::size_t tries = 0; tries < index_.size(); ++tries) {
    const std::uint32_t place = index_[slot];
    if (place == kNoWord) return kNoWord;
    if (record_spells(words_, place, spelling, inventory())) return place;
    if (++slot == index_.size()) slot = 0;
  }
  return kNoWord;
}

int Lexicon::tier(std::string_view spelling) const {
  const std::uint32_t place = find(spelling);
  return place == kNoWord ? 0 : record_tier(words_, place);
}

std::optional<WordHead> Lexicon::head(std::string_view spelling) const {
  const std::uint32_t place = find(spelling);
  if (place == kNoWord) return std::nullopt;
  return record_head(words_, place);
}

WordHead Lexicon::head(std::uint32_t place) const {
  // A damaged index may point anywhere.
  return place + 1 < words_.size() ? record_head(words_, place) : WordHead();
}

std::optional<WordRecord> Lexicon::record(std::uint32_t place) const {
  std::size_t offset = place;
  if (reads_as_listed()) return decode_record(words_, offset, inventory());
  auto readings = spoken_readings(offset);
  if (readings.empty()) return std::nullopt;
  return std::move(readings.front());
}

// The readings of the word at `offset` that the accent has: its own where it
// has some, else those of the list. Moves `offset` past all of the word.
std::vector<WordRecord> Lexicon::spoken_readings(std::size_t& offset) const {
  std::vector<WordRecord> listed, own;
  const std::uint8_t bit = accent_bit(speech_.accent);
  for (bool more = true; more;) {
    auto record = decode_record(words_, offset, inventory());
    if (!record) break;
    more = record->more || record->varies;
    if (record->accents == 0) {
      listed.push_back(std::move(*record));
    } else if ((record->accents & bit) != 0) {
      own.push_back(std::move(*record));
    }
  }
  std::vector<WordRecord> readings =
      own.empty() ? std::move(listed) : std::move(own);
  for (WordRecord& record : readings) {
    record.more = &record != &readings.back();
    say_as(speech_, inventory(), record);
  }
  return readings;
}

std::vector<WordRecord> Lexicon::readings(std::uint32_t place) const {
  std::size_t offset = place;
  if (!reads_as_listed()) return spoken_readings(offset);
  std::vector<WordRecord> result;
  for (;;) {
    auto record = decode_record(words_, offset, inventory());
    if (!record) return result;
    const bool more = record->more;
    result.push_back(std::move(*record));
    if (!more) return result;
  }
}

std::vector<WordRecord> Lexicon::readings(std::string_view spelling) const {
  const std::uint32_t place = find(spelling);
  return place == kNoWord ? std::vector<WordRecord>{} : readings(place);
}

void Lexicon::each(const std::function<bool(const WordRecord&)>& call) const {
  std::size_t offset = 0;
  if (reads_as_listed()) {
    for (;;) {
      const auto record = decode_record(words_, offset, inventory());
      if (!record) return;
      if (record->accents == 0 && !call(*record)) return;
    }
  }
  for (;;) {
    const auto readings = spoken_readings(offset);
    if (readings.empty()) return;
    for (const WordRecord& record : readings) {
      if (!call(record)) return;
    }
  }
}

bool Lexicon::is_not_inflected(std::string_view spelling) const {
  return std::ranges::binary_search(tables_->not_inflected, spelling);
}

std::string_view Lexicon::listed_ending(std::string_view spelling) const {
  const std::string key = std::string(spelling) + "=";
  const auto found = std::ranges::lower_bound(tables_->not_inflected, key);
  if (found == tables_->not_inflected.end() || !found->starts_with(key)) {
    return {};
  }
  return found->substr(key.size());
}

bool Lexicon::is_not_prefixed(std::string_view spelling) const {
  return std::ranges::binary_search(tables_->not_prefixed, spelling);
}

bool Lexicon::may_be_compound(std::string_view first,
                              std::string_view second) const {
  const auto listed = [&](const std::string& entry) {
    return std::ranges::binary_search(tables_->not_compound, entry);
  };
  const std::string whole = std::string(first) + std::string(second);
  if (listed("+" + whole)) return true;
  return !listed(whole) && !listed(std::string(first) + "-") &&
         !listed("-" + std::string(second));
}

std::size_t Lexicon::listed_compound(std::string_view word) const {
  // An entry is "=", the word, "=" and its first part.
  const std::string key = "=" + std::string(word) + "=";
  const auto found = std::ranges::lower_bound(tables_->not_compound, key);
  if (found == tables_->not_compound.end() || !found->starts_with(key)) {
    return 0;
  }
  const std::size_t first = found->size() - key.size();
  return first < word.size() ? first : 0;
}

std::string_view Lexicon::label(int number) const {
  const auto i = static_cast<std::size_t>(number);
  const auto& labels = tables_->labels;
  return number > 0 && i < labels.size() ? labels[i] : std::string_view{};
}

}  // namespace sheaf
