#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/endings.h"
#include "phonics/lexicon.h"

namespace sheaf {

/// Classes of words, as WordNet has them.
enum class WordKind : std::uint8_t { noun, verb, adjective, adverb };

/// One sense of a word of the list: a record of `Section::senses`, in
/// the order of the words, of a word the commonest first.
struct WordSense {
  std::uint32_t word = 0;   ///< where it stands, as `Lexicon::find` gives it
  std::uint16_t topic = 0;  ///< index into `Section::concepts`
  std::uint8_t traits = 0;  ///< kind (2 bits), then the bits below
  /// How much of all use of the word this sense is, of 255.
  std::uint8_t share = 0;

  static constexpr std::uint8_t kKindBits = 3;
  static constexpr std::uint8_t kWithObject = 4;     ///< a verb that takes one
  static constexpr std::uint8_t kWithoutObject = 8;  ///< or does without
  WordKind kind() const { return static_cast<WordKind>(traits & kKindBits); }
};

/// What words of one synset mean, and the wider thing that it is a kind of: a
/// hypernym; of an adjective the head of its cluster, of an adverb the
/// adjective that it is made from.
struct Concept {
  static constexpr std::uint16_t kNone = 0xFFFF;
  std::uint16_t parent = kNone;
  /// How much it tells, of 255: 1 - log(kinds of it + 1) / log(all), after
  /// Seco, Veale and Hayes (2004). 0 for an entity, 255 where it has no kinds.
  std::uint16_t information = 0;
};

/// Two concepts that are each other's opposite, the lesser number first.
struct OppositeConcepts {
  std::uint16_t first = 0, second = 0;
  auto operator<=>(const OppositeConcepts&) const = default;
};

/// What a word is by its letters: a base of some kind, with an ending or none.
struct WordForm {
  WordKind kind = WordKind::noun;
  Ending ending = Ending::none;
  std::string base;
  /// How much of all use of the base is of this kind, 0 to 1.
  double share = 0;
};

/// Classes and meanings of words (WordNet 3.0), as the compiled word list has
/// them. Works on its bytes, which must outlive it; so must the lexicon.
class WordMeanings {
 public:
  WordMeanings(const LexiconFile& file, const Lexicon& lexicon);

  /// Everything that a word can be, the commonest first; `word` is in lower
  /// case. Empty where nothing is known of it.
  std::vector<WordForm> forms(std::string_view word) const;
  /// Whether a word can be of a kind with an ending.
  bool can_be(std::string_view word, WordKind kind, Ending ending) const;
  /// Whether it is a word of this kind without an ending.
  bool is_base(std::string_view word, WordKind kind) const {
    return can_be(word, kind, Ending::none);
  }

  struct Near {
    std::string word;
    double nearness = 0;  ///< 0 to 1
  };
  /// Whether a verb is used with an object.
  enum class Object : std::uint8_t { unknown, with, without };
  /// Everyday bases that are near to a base in what they mean, the nearest
  /// first: by how much their senses have in common (Lin 1998), and how
  /// usual these senses are.
  std::vector<Near> near(const WordForm& form, Object object) const;

 private:
  std::span<const WordSense> senses_of(std::string_view base) const;
  std::span<const WordSense> senses_at(std::uint32_t place) const;
  /// Whether a word listed by itself is a plural, a past or the like.
  bool is_form_of_another(std::string_view word, WordKind kind) const;
  double likeness(std::uint16_t a, std::uint16_t b) const;
  void add_form(std::vector<WordForm>& forms, std::string_view base,
                Ending ending) const;

  const Lexicon& lexicon_;
  std::span<const WordSense> senses_;
  std::span<const Concept> concepts_;
  std::span<const OppositeConcepts> opposites_;
};

}  // namespace sheaf
