#include "marking/word_source.h"

#include <algorithm>
#include <array>

#include "marking/written_word.h"
#include "phonics/lexicon.h"

namespace sheaf {
namespace {

// By class: articles and determiners, pronouns, auxiliaries, prepositions,
// conjunctions, question words, the commonest adverbs and verbs of motion and
// speech; days and months. In no order of frequency.
constexpr std::string_view kGrammarWords =
    "a an the this that these those some any no every each both all other "
    "another such many much more most few several enough own same "
    "i me my mine myself you your yours yourself he him his himself she her "
    "hers herself it its itself we us our ours ourselves they them their "
    "theirs themselves one someone somebody something anyone anything "
    "everyone everybody everything nobody nothing "
    "be am is are was were been being have has had having do does did done "
    "doing can could will would shall should may might must "
    "about above across after against along among around as at before behind "
    "below beside between by down during for from in inside into like near of "
    "off on onto out outside over past round since through to under until up "
    "upon with without "
    "and but or so because if when while than then though although "
    "who whose what which where why how "
    "not never always again also away back ever here there now once only "
    "often soon still too very well just yes "
    "said says say went go goes going gone come came get got make made take "
    "took see saw know knew think thought want wanted put "
    "don't can't won't didn't isn't wasn't couldn't i'm it's that's he's "
    "she's we're they're i'll "
    "monday tuesday wednesday thursday friday saturday sunday january february "
    "april june july august september october november december ";

}  // namespace

std::vector<ListedWord> listed_words(const Lexicon& lexicon) {
  // The rest are forms of these that learners hardly mean.
  constexpr int kLargestList = 70;
  std::vector<ListedWord> words;
  lexicon.each([&](const WordRecord& record) {
    if (record.tier > kLargestList && !record.everyday) return true;
    if (!words.empty() && words.back().spelling == record.spelling) {
      return true;  // another reading
    }
    words.push_back({record.spelling, record.segments, record.stress,
                     record.tier, record.everyday, record.first, record.name});
    return true;
  });
  return words;
}

std::optional<ListedWord> listed_word(const Reading& reading,
                                      const Inventory& inventory) {
  ListedWord word;
  word.spelling = read_written(reading.word).signs;
  word.stress = 0;
  for (const Unit& unit : reading.units) {
    const auto& sounds = unit.listed.empty() ? unit.phonemes : unit.listed;
    const int id = inventory.find(unit.grapheme, sounds);
    if (id < 0) return std::nullopt;
    word.segments.push_back({static_cast<CorrespondenceId>(id), unit.begin,
                             static_cast<std::int8_t>(unit.split_e)});
    if (unit.stressed && unit.syllable < 16) {
      word.stress |= static_cast<std::uint16_t>(1U << unit.syllable);
    }
  }
  return word;
}

std::vector<Phoneme> sounds_of(const ListedWord& word,
                               const Inventory& inventory) {
  std::vector<Phoneme> sounds;
  for (const Segment& segment : word.segments) {
    const auto phonemes = inventory[segment.id].phonemes();
    sounds.insert(sounds.end(), phonemes.begin(), phonemes.end());
  }
  return sounds;
}

bool is_grammar_word(std::string_view spelling) {
  static const std::vector<std::string_view> words = [] {
    std::vector<std::string_view> list;
    std::string_view rest = kGrammarWords;
    while (!rest.empty()) {
      const std::size_t end = rest.find(' ');
      list.push_back(rest.substr(0, end));
      rest.remove_prefix(end + 1);
    }
    std::ranges::sort(list);
    return list;
  }();
  return std::ranges::binary_search(words, spelling);
}

}  // namespace sheaf
