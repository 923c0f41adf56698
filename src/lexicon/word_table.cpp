#include "lexicon/word_table.h"

#include <algorithm>
#include <map>
#include <optional>
#include <tuple>

#include <fmt/format.h>

#include "lexicon/repairs.h"
#include "lexicon/tidy_sounds.h"
#include "phonics/endings.h"
#include "phonics/hand_split.h"
#include "phonics/table_text.h"

namespace sheaf {
namespace {

constexpr std::size_t kLongestWord = 40;

std::string letters_of(std::string_view spelling) {
  std::string letters;
  for (const char c : spelling) {
    if (c >= 'a' && c <= 'z') letters += c;
  }
  return letters;
}

// A reading on its way into the table.
struct Draft {
  std::string spelling;
  const Pronunciation* source = nullptr;
  Reading::Origin origin = Reading::Origin::lexicon;
  TrainingWord word;
};

class TableMaker {
 public:
  TableMaker(LexiconSources& sources, LexiconReport& report)
      : sources_(sources), report_(report) {}

  WordTable run() {
    choose_words();
    std::vector<TrainingWord> words;
    for (const Draft& draft : drafts_) words.push_back(draft.word);
    table_.correspondences = sources_.correspondences;
    train(table_.correspondences, words);
    inventory_ = Inventory(table_.correspondences);
    table_.labels.emplace_back();
    for (const Draft& draft : drafts_) add_record(draft);
    finish();
    table_.steps = count_steps(table_.records);
    return std::move(table_);
  }

 private:
  const ListedWord* listed(const std::string& word) const {
    const auto found = sources_.lists.find(word);
    return found == sources_.lists.end() ? nullptr : &found->second;
  }

  bool wanted(const std::string& word) const {
    if (sources_.everyday.contains(word)) return true;
    return listed(word) != nullptr;
  }

  void choose_words() {
    for (const auto& [word, readings] : sources_.supplement) {
      for (const Pronunciation& p : readings) {
        add_draft(word, p, Reading::Origin::supplement);
      }
    }
    for (const auto& [word, readings] : sources_.dictionary) {
      if (sources_.supplement.contains(word) || !wanted(word)) continue;
      for (const Pronunciation& p : readings) {
        add_draft(word, p, Reading::Origin::lexicon);
      }
    }
  }

  void add_draft(const std::string& word, const Pronunciation& p,
                 Reading::Origin origin) {
    Draft draft{word, &p, origin, {}};
    draft.word.letters = letters_of(word);
    if (draft.word.letters.size() > kLongestWord) return;
    draft.word.phonemes = origin == Reading::Origin::lexicon
                              ? tidy_sounds(draft.word.letters, p)
                              : p.phonemes;
    find_ending_ed(draft.word);
    drafts_.push_back(std::move(draft));
  }

  // -ed is an ending where a known word stands before it and the sounds are
  // those of the ending. Where the base ends in a vowel spelled with e (agree,
  // tie) the e stays with the vowel, and d alone is added.
  void find_ending_ed(TrainingWord& word) const {
    const std::vector<Phoneme>& p = word.phonemes;
    if (p.size() < 2 || (p.back() != Phoneme::d && p.back() != Phoneme::t)) {
      return;
    }
    for (const EndingAnalysis& a : possible_bases(word.letters, Ending::ed)) {
      if (!is_known_base(a.base, word.letters)) continue;
      const char end = a.base.back() == 'e' && a.base.size() > 1
                           ? a.base[a.base.size() - 2]
                           : '\0';
      const bool vowel_with_e =
          end != '\0' && a.joint == Joint::dropped_e &&
          std::string_view("aeiouy").find(end) != std::string_view::npos;
      if (vowel_with_e || a.joint == Joint::y_to_i) return;
      const bool after_t_or_d =
          a.base.ends_with('t') || a.base.ends_with('d') ||
          a.base.ends_with("te") || a.base.ends_with("de");
      const Phoneme before = p[p.size() - 2];
      const bool extra_beat = before == Phoneme::ax || before == Phoneme::ih;
      if (after_t_or_d != (extra_beat && p.back() == Phoneme::d)) return;
      // "moped": a vowel before the d, where the base ends in a consonant.
      const char last = a.joint == Joint::dropped_e ? end : a.base.back();
      const bool ends_in_vowel =
          std::string_view("aeiouwyr").find(last) != std::string_view::npos;
      if (!after_t_or_d && is_vowel(before) && !ends_in_vowel) return;
      word.ending_ed = static_cast<int>(word.letters.size()) - 2;
      return;
    }
  }

  bool is_known_base(const std::string& base, const std::string& word) const {
    const ListedWord* entry = listed(base);
    if (base.size() > 1 && entry && !entry->name) {
      // "need" is not made from the rare "nee".
      const ListedWord* whole = listed(word);
      const int tier = whole && !whole->name ? whole->tier : 70;
      return entry->tier <= std::max(tier, 35) + 5;
    }
    // The lists have "unwashed" but no verb to it.
    return base.size() > 5 && base.starts_with("un") &&
           is_known_base(base.substr(2), word);
  }

  // Correspondences that only the dictionary has give way to ours.
  void repair(WordRecord& record) const {
    repair_segments(letters_of(record.spelling), inventory_, record.stress,
                    record.segments);
  }

  void add_record(const Draft& draft) {
    WordRecord record;
    record.spelling = draft.spelling;
    record.stress = draft.source->stress;
    record.origin = draft.origin;
    record.label = label_number(draft.source->label);
    record.segments =
        draft.source->graphemes.empty()
            ? align(inventory_, draft.word.task())
            : align_by_hand(inventory_, draft.word.letters,
                            split_at(draft.source->graphemes, ' '),
                            draft.word.phonemes);
    if (record.segments.empty()) {
      if (draft.origin == Reading::Origin::supplement) {
        report_.faults.push_back(fmt::format(
            "`{}` cannot be laid against its sounds", draft.spelling));
      }
      report_.not_aligned.push_back(draft.spelling);
      return;
    }
    if (draft.source->graphemes.empty()) repair(record);
    if (const ListedWord* entry = listed(draft.spelling)) {
      record.tier = entry->tier;
      record.name = entry->name;
    }
    record.everyday = sources_.everyday.contains(draft.spelling);
    table_.records.push_back(std::move(record));
  }

  int label_number(const std::string& label) {
    const auto found = std::ranges::find(table_.labels, label);
    if (found == table_.labels.end()) {
      table_.labels.push_back(label);
      return static_cast<int>(table_.labels.size()) - 1;
    }
    return static_cast<int>(found - table_.labels.begin());
  }

  void finish() {
    // Readings stay in the order in which their source has them.
    std::ranges::stable_sort(table_.records, {}, [](const WordRecord& r) {
      const int tier = r.tier == 0 ? 99 : r.tier;
      return std::tuple<int, std::string_view>(tier, r.spelling);
    });
    const auto same = [](const WordRecord& a, const WordRecord& b) {
      return a.spelling == b.spelling && a.segments == b.segments &&
             a.stress == b.stress;
    };
    const auto rest = std::ranges::unique(table_.records, same);
    table_.records.erase(rest.begin(), rest.end());
    for (std::size_t i = 0; i < table_.records.size(); ++i) {
      WordRecord& record = table_.records[i];
      record.more = i + 1 < table_.records.size() &&
                    table_.records[i + 1].spelling == record.spelling;
      report_.words += record.more ? 0 : 1;
    }
    report_.readings = static_cast<int>(table_.records.size());
  }

  LexiconSources& sources_;
  LexiconReport& report_;
  std::vector<Draft> drafts_;
  WordTable table_;
  Inventory inventory_;
};

}  // namespace

WordTable make_word_table(LexiconSources sources, LexiconReport& report) {
  return TableMaker(sources, report).run();
}

}  // namespace sheaf
