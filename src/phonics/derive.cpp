#include "phonics/derive.h"

#include <algorithm>
#include <array>

#include "phonics/aligner.h"

namespace sheaf {
namespace {

using P = Phoneme;

bool one_of(P p, std::initializer_list<P> all) {
  return std::ranges::find(all, p) != all.end();
}

bool hisses(P p) { return one_of(p, {P::s, P::z, P::sh, P::ch, P::jh, P::zh}); }
bool voiceless(P p) {
  return one_of(p, {P::p, P::t, P::k, P::f, P::th, P::s, P::sh, P::ch});
}

void append(std::vector<P>& sounds, std::initializer_list<P> more) {
  sounds.insert(sounds.end(), more);
}

// Before a vowel the weak vowel of -le goes: settle, settling.
void close_up_le(std::vector<P>& sounds, std::string_view base) {
  const std::size_t n = sounds.size();
  if (base.ends_with("le") && n > 2 && sounds[n - 1] == P::l &&
      sounds[n - 2] == P::ax) {
    sounds.erase(sounds.end() - 2);
  }
}

std::string letters_of(std::string_view spelling) {
  std::string letters;
  for (const char c : spelling) {
    if (c >= 'a' && c <= 'z') letters += c;
  }
  return letters;
}

// The ending's own segments, to be put behind the base's.
Segments ending_segments(std::string_view ending, std::span<const P> sounds,
                         std::size_t begin, const Inventory& inventory) {
  AlignTask task;
  task.letters = ending;
  task.phonemes = sounds;
  task.ending_ed = ending == "ed" ? 0 : -1;
  Segments segments = align(inventory, task);
  for (Segment& s : segments) {
    s.begin = static_cast<std::uint8_t>(s.begin + begin);
  }
  return segments;
}

// The base's segments before an ending: as they are, or with the last
// consonant doubled (p of stop as pp, or of abhor as orr). Empty where there is
// no such correspondence or the joint changes more.
Segments base_before_ending(const WordRecord& base, Joint joint,
                            std::string_view letters,
                            const Inventory& inventory) {
  if (joint == Joint::plain) return base.segments;
  if (joint != Joint::doubled || base.segments.empty()) return {};
  Segments segments = base.segments;
  const Correspondence& last = inventory[segments.back().id];
  const std::size_t end = segments.back().begin + last.grapheme().size();
  if (last.is_split() || end >= letters.size()) return {};
  const std::string doubled = std::string(last.grapheme()) + letters[end];
  const int id = inventory.find(doubled, last.phonemes());
  if (id < 0) return {};
  segments.back().id = static_cast<CorrespondenceId>(id);
  return segments;
}

// Little words that take endings; others (us, of, at) do not.
bool takes_endings(std::string_view base) {
  constexpr std::string_view kShort[] = {"be", "do", "go", "ox", "ax", "ad"};
  return base.size() > 2 ||
         std::ranges::find(kShort, base) != std::ranges::end(kShort);
}

}  // namespace

bool label_takes(std::string_view label, Ending ending) {
  if (label.empty()) return true;
  switch (ending) {
    case Ending::ed:
    case Ending::ing:
      return label != "noun" && label != "adjective" && label != "past" &&
             label != "metal";
    case Ending::s:
    case Ending::es:
      return label != "adjective" && label != "past";
    default:
      return label != "past";
  }
}

std::optional<std::vector<Phoneme>> add_ending_sounds(
    std::span<const Phoneme> base, const EndingAnalysis& analysis) {
  if (base.empty()) return std::nullopt;
  std::vector<P> sounds(base.begin(), base.end());
  const P last = sounds.back();
  switch (analysis.ending) {
    case Ending::s:
    case Ending::es:
    case Ending::possessive:
      if (analysis.joint == Joint::f_to_v) {  // knives
        if (last != P::f) return std::nullopt;
        sounds.back() = P::v;
        sounds.push_back(P::z);
        return sounds;
      }
      if (analysis.ending == Ending::es && !hisses(last) && !is_vowel(last)) {
        return std::nullopt;
      }
      if (hisses(last)) {
        append(sounds, {P::ih, P::z});
      } else {
        sounds.push_back(voiceless(last) ? P::s : P::z);
      }
      return sounds;
    case Ending::ed:
      if (last == P::t || last == P::d) {
        append(sounds, {P::ih, P::d});
      } else {
        sounds.push_back(voiceless(last) ? P::t : P::d);
      }
      return sounds;
    case Ending::ing:
      close_up_le(sounds, analysis.base);
      append(sounds, {P::ih, P::ng});
      return sounds;
    case Ending::er:
      close_up_le(sounds, analysis.base);
      sounds.push_back(P::er);
      return sounds;
    case Ending::est:
      close_up_le(sounds, analysis.base);
      append(sounds, {P::ih, P::s, P::t});
      return sounds;
    case Ending::y:
      close_up_le(sounds, analysis.base);
      sounds.push_back(P::iy);
      return sounds;
    case Ending::ly:
      if (analysis.joint == Joint::y_to_i && last == P::iy) {
        sounds.back() = P::ih;
      }
      // gently has one l; palely, behind a vowel, keeps both.
      if (analysis.joint == Joint::dropped_e) {
        close_up_le(sounds, analysis.base);
      }
      if (sounds.back() != P::l ||
          (analysis.joint == Joint::plain && analysis.base.ends_with("le"))) {
        sounds.push_back(P::l);
      }
      sounds.push_back(P::iy);
      return sounds;
    case Ending::ful:
      append(sounds, {P::f, P::ax, P::l});
      break;
    case Ending::less:
      append(sounds, {P::l, P::ax, P::s});
      break;
    case Ending::ness:
      append(sounds, {P::n, P::ax, P::s});
      break;
    case Ending::ment:
      append(sounds, {P::m, P::ax, P::n, P::t});
      break;
    case Ending::none:
      return std::nullopt;
  }
  if (analysis.joint == Joint::y_to_i && last == P::iy) {
    sounds[base.size() - 1] = P::ih;
  }
  return sounds;
}

BaseTraits traits_of(const WordRecord& base, const Inventory& inventory) {
  BaseTraits traits;
  const std::vector<P> sounds = phonemes_of(base.segments, inventory);
  if (sounds.empty() || base.spelling.empty()) return traits;
  traits.hiss =
      hisses(sounds.back()) ? BaseTraits::Hiss::yes : BaseTraits::Hiss::no;
  const auto vowel = std::find_if(sounds.rbegin(), sounds.rend(), is_vowel);
  if (vowel == sounds.rend()) return traits;
  const int beats = syllable_count(base.segments, inventory);
  const bool silent_end = is_vowel(sounds.back()) && sounds.back() != P::er &&
                          std::string_view("aeiouyw").find(
                              base.spelling.back()) == std::string_view::npos;
  const P last = *vowel;
  const bool stressed =
      beats == 1 || (beats <= 16 && (base.stress >> (beats - 1) & 1) != 0);
  const bool weak = last == P::ax || last == P::er || last == P::ih;
  if (silent_end || (!stressed && weak)) {
    traits.last_beat = BaseTraits::Beat::weak;
  } else if (stressed) {
    traits.last_beat = BaseTraits::Beat::strong;
  }
  return traits;
}

std::optional<WordRecord> derive_record(std::string_view spelling,
                                        std::string_view letters,
                                        const EndingAnalysis& analysis,
                                        const WordRecord& base,
                                        std::string_view label,
                                        const Inventory& inventory) {
  if (!takes_endings(analysis.base) || !label_takes(label, analysis.ending)) {
    return std::nullopt;
  }
  const std::vector<P> base_sounds = phonemes_of(base.segments, inventory);
  const auto sounds = add_ending_sounds(base_sounds, analysis);
  if (!sounds) return std::nullopt;
  WordRecord record = base;
  record.spelling = spelling;
  record.origin = Reading::Origin::derived;
  record.tier = 0;
  record.everyday = false;
  record.first = false;
  record.more = false;
  // A base that stays as it is keeps its graphemes.
  const std::string base_letters = letters_of(analysis.base);
  const std::size_t base_end =
      base_letters.size() + (analysis.joint == Joint::doubled ? 1 : 0);
  Segments segments =
      base_before_ending(base, analysis.joint, letters, inventory);
  if (!segments.empty() && letters.starts_with(base_letters) &&
      sounds->size() > base_sounds.size() &&
      std::ranges::equal(base_sounds,
                         std::span(*sounds).first(base_sounds.size()))) {
    const Segments rest = ending_segments(
        letters.substr(base_end),
        std::span(*sounds).subspan(base_sounds.size()), base_end, inventory);
    if (!rest.empty()) {
      segments.insert(segments.end(), rest.begin(), rest.end());
      record.segments = std::move(segments);
      return record;
    }
  }
  AlignTask task;
  task.letters = letters;
  task.phonemes = *sounds;
  // "agreed", "cried": the e stays with the vowel, and d alone is added.
  const bool d_only =
      analysis.joint == Joint::y_to_i ||
      (analysis.joint == Joint::dropped_e && is_vowel(base_sounds.back()) &&
       base_sounds.back() != P::er);
  if (analysis.ending == Ending::ed && !d_only) {
    task.ending_ed = static_cast<int>(letters.size()) - 2;
    record.segments = align(inventory, task);
    if (!record.segments.empty()) return record;
    task.ending_ed = -1;  // cured: its r-vowel needs the e
  }
  record.segments = align(inventory, task);
  if (!record.segments.empty()) return record;
  // fox's: the s alone says /iz/.
  const int iz = inventory.find("s", std::array{P::ih, P::z});
  if (analysis.ending != Ending::possessive || !hisses(base_sounds.back()) ||
      letters != base_letters + "s" || iz < 0) {
    return std::nullopt;
  }
  record.segments = base.segments;
  record.segments.push_back({static_cast<CorrespondenceId>(iz),
                             static_cast<std::uint8_t>(base_letters.size())});
  return record;
}

}  // namespace sheaf
