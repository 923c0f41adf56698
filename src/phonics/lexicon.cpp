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
  inventory_ = Inventory(units);
  labels_ = split_at(file.text(Section::labels), '\n');
  not_inflected_ = split_at(file.text(Section::not_inflected), '\n');
  not_prefixed_ = split_at(file.text(Section::not_prefixed), '\n');
  not_compound_ = split_at(file.text(Section::not_compound), '\n');
}

std::uint32_t Lexicon::find(std::string_view spelling) const {
  if (index_.empty()) return kNoWord;
  std::size_t slot = word_slot(spelling, index_.size());
  for (std::size_t tries = 0; tries < index_.size(); ++tries) {
    const std::uint32_t place = index_[slot];
    if (place == kNoWord) return kNoWord;
    if (record_spells(words_, place, spelling, inventory_)) return place;
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

std::optional<WordRecord> Lexicon::record(std::uint32_t place) const {
  std::size_t offset = place;
  return decode_record(words_, offset, inventory_);
}

std::vector<WordRecord> Lexicon::readings(std::uint32_t place) const {
  std::vector<WordRecord> result;
  std::size_t offset = place;
  for (;;) {
    auto record = decode_record(words_, offset, inventory_);
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
  for (;;) {
    const auto record = decode_record(words_, offset, inventory_);
    if (!record || !call(*record)) return;
  }
}

bool Lexicon::is_not_inflected(std::string_view spelling) const {
  return std::ranges::binary_search(not_inflected_, spelling);
}

std::string_view Lexicon::listed_ending(std::string_view spelling) const {
  const std::string key = std::string(spelling) + "=";
  const auto found = std::ranges::lower_bound(not_inflected_, key);
  if (found == not_inflected_.end() || !found->starts_with(key)) return {};
  return found->substr(key.size());
}

bool Lexicon::is_not_prefixed(std::string_view spelling) const {
  return std::ranges::binary_search(not_prefixed_, spelling);
}

bool Lexicon::may_be_compound(std::string_view first,
                              std::string_view second) const {
  const auto listed = [&](const std::string& entry) {
    return std::ranges::binary_search(not_compound_, entry);
  };
  const std::string whole = std::string(first) + std::string(second);
  if (listed("+" + whole)) return true;
  return !listed(whole) && !listed(std::string(first) + "-") &&
         !listed("-" + std::string(second));
}

std::size_t Lexicon::listed_compound(std::string_view word) const {
  // An entry is "=", the word, "=" and its first part.
  const std::string key = "=" + std::string(word) + "=";
  const auto found = std::ranges::lower_bound(not_compound_, key);
  if (found == not_compound_.end() || !found->starts_with(key)) return 0;
  const std::size_t first = found->size() - key.size();
  return first < word.size() ? first : 0;
}

std::string_view Lexicon::label(int number) const {
  const auto i = static_cast<std::size_t>(number);
  return number > 0 && i < labels_.size() ? labels_[i] : std::string_view{};
}

}  // namespace sheaf
