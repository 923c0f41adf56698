#include "phonics/sentence_bank.h"

#include "phonics/table_text.h"

namespace sheaf {

// The index: where the texts of each pattern begin, one number more for the
// end, then the texts' numbers, all of 32 bits up to them and 16 from there.
SentenceBank::SentenceBank(const LexiconFile& file)
    : texts_(file.text(Section::bank_texts)),
      records_(file.records<BankRecord>(Section::bank_records)),
      words_(file.records<BankWord>(Section::bank_words)),
      carriers_(file) {
  const std::string_view spellings = file.text(Section::bank_spellings);
  if (!spellings.empty()) spellings_ = split_at(spellings, '\n');
  const auto index = file.records<std::uint32_t>(Section::bank_patterns);
  if (index.empty() || index[0] + 1 > index.size()) return;
  pattern_begins_ = index.subspan(1, index[0]);
  const auto halves = file.records<std::uint16_t>(Section::bank_patterns);
  pattern_texts_ = halves.subspan((index[0] + 1) * 2);
}

std::span<const std::uint16_t> SentenceBank::with(PatternId pattern) const {
  const std::size_t next = static_cast<std::size_t>(pattern) + 1;
  if (next >= pattern_begins_.size()) return {};
  const std::uint32_t begin = pattern_begins_[pattern];
  const std::uint32_t end = pattern_begins_[next];
  if (begin > end || end > pattern_texts_.size()) return {};
  return pattern_texts_.subspan(begin, end - begin);
}

BankText SentenceBank::text(const BankRecord& record) const {
  return {texts_.substr(record.text, record.length),
          words_.subspan(record.first_word, record.words)};
}

BankSentence SentenceBank::sentence(std::size_t number) const {
  const BankRecord& record = records_[number];
  return {text(record), static_cast<PatternId>(record.pattern), record.readers};
}

BankPassage SentenceBank::passage(std::size_t number) const {
  BankPassage passage;
  const BankRecord& title = records_[number];
  passage.title = text(title);
  passage.pattern = static_cast<PatternId>(title.pattern);
  passage.readers = title.readers;
  for (++number; number < records_.size(); ++number) {
    const BankRecord& record = records_[number];
    if (record.kind == BankRecord::Kind::text) {
      passage.text = text(record);
    } else if (record.kind == BankRecord::Kind::question) {
      passage.questions.push_back(text(record));
    } else {
      break;
    }
  }
  return passage;
}

}  // namespace sheaf
