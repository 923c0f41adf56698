#pragma once

#include <cstddef>
#include <cstdint>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/phonics.h"

namespace sheaf {

/// Bytes of the longest list that is read.
inline constexpr std::size_t kLargestBlockedList = std::size_t{1} << 20U;

/// Words that are never suggested for a child: weapons, drugs, sex, death,
/// slurs, drink, gambling, insults and makers' names. A teacher may still
/// write any word. The list holds numbers made from the words, so that nobody
/// has to read it; in the file of a teacher's own the words may also stand as
/// they are.
///
/// The form: parts between spaces or lines. `=` and ten hexadecimal figures
/// stand for a spelling, `~` and ten for the sounds of a word; `!` and `?` for
/// those of a rude word, which nothing made up may even be like; anything else
/// is a word. `#` begins a remark that ends with its line.
class BlockList {
 public:
  /// Nothing is blocked.
  BlockList() = default;
  /// Sheaf's own list.
  static const BlockList& shipped();

  /// Adds the parts of a file. Words are blocked with their regular endings.
  void add(std::string_view text);
  void add_word(std::string_view word);
  /// The parts of a line of a file, without its remark.
  static std::vector<std::string_view> parts(std::string_view line);
  /// Whether a line has nothing in it but such parts and remarks.
  static bool reads(std::string_view line);

  bool blocks(std::string_view word) const;
  /// Whether a blocked word sounds just like this.
  bool blocks_sounds(std::span<const Phoneme> phonemes) const;
  /// Whether some part of the spelling or of the sounds, three or more of
  /// them, is blocked: for words that nobody has read.
  bool blocks_part_of(std::string_view word,
                      std::span<const Phoneme> phonemes) const;
  /// Whether one letter more, less or other, or two changed about, make a rude
  /// word of it, or one sound more, less or other.
  bool is_near_rude(std::string_view word,
                    std::span<const Phoneme> phonemes) const;

 private:
  void collect(std::string_view word);
  void put_in_order();

  std::vector<std::uint64_t> spellings_, sounds_;            // in order
  std::vector<std::uint64_t> rude_spellings_, rude_sounds_;  // in order
};

/// The parts that stand for words in a file: their spellings with their
/// regular endings, and their sounds; in order, so that they do not show in
/// which order the words were given. Of rude words also what marks them so.
std::set<std::string> blocked_parts(std::span<const std::string> words,
                                    const Phonics& phonics, bool rude = false);

}  // namespace sheaf
