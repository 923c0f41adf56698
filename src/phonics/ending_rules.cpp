#include "phonics/ending_rules.h"

#include <algorithm>
#include <array>

#include "phonics/irregular_forms.h"
#include "phonics/letters.h"

namespace sheaf {
namespace {

using Beat = BaseTraits::Beat;
using Hiss = BaseTraits::Hiss;

std::string without(std::string_view base, std::size_t letters) {
  return std::string(base.substr(0, base.size() - letters));
}

// y behind a consonant, as which the u of qu counts: carry, soliloquy.
bool ends_in_consonant_y(std::string_view base) {
  const std::size_t n = base.size();
  if (n < 2 || base[n - 1] != 'y') return false;
  return !is_full_vowel_letter(base[n - 2]) || base.ends_with("quy");
}

// No vowel letter but a y at the end: dry, shy.
bool is_one_beat_in_y(std::string_view base) {
  return base.find_first_of("aeiouy") == base.size() - 1;
}

// One vowel letter and one consonant letter at the end. h is never doubled,
// and c becomes ck instead.
bool ends_in_one_consonant(std::string_view base) {
  const std::size_t n = base.size();
  if (n < 3) return false;
  const char last = base[n - 1];
  if (is_full_vowel_letter(last) ||
      std::string_view("wxyhc").find(last) != std::string_view::npos) {
    return false;
  }
  const bool y =
      base[n - 2] == 'y' && !is_full_vowel_letter(base[n - 3]);  // gym
  if (!is_full_vowel_letter(base[n - 2]) && !y) return false;
  const bool qu = n >= 4 && base[n - 3] == 'u' && base[n - 4] == 'q';
  return !is_full_vowel_letter(base[n - 3]) || qu;
}

// -le behind a consonant: gentle, not pale.
bool ends_in_consonant_le(std::string_view base) {
  const std::size_t n = base.size();
  return n > 3 && base.ends_with("le") && !is_full_vowel_letter(base[n - 3]);
}

// How a suffix that begins with a vowel is put on.
std::vector<Joint> joints_before_vowel(std::string_view base,
                                       std::string_view suffix,
                                       BaseTraits traits) {
  const char first = suffix.front();
  if (ends_in_consonant_y(base)) {
    if (suffix == "y") return {};
    return {first == 'i' ? Joint::plain : Joint::y_to_i};
  }
  if (base.ends_with('e')) {
    if (first == 'i' && base.ends_with("ie")) return {Joint::ie_to_y};
    const bool keeps =
        first == 'i' &&
        (base.ends_with("ee") || base.ends_with("oe") || base.ends_with("ye"));
    // noticeable, courageous, agreeable; likeable beside likable
    const bool soft =
        (first == 'a' || suffix == "ous") &&
        (base.ends_with("ce") || base.ends_with("ge") || base.ends_with("ee"));
    if (keeps || soft) return {Joint::plain};
    if (first == 'a') return {Joint::dropped_e, Joint::plain};
    return {Joint::dropped_e};
  }
  if (base.ends_with('y') && suffix == "y") return {};
  // panicky; not publicist, whose c goes soft.
  const std::size_t n = base.size();
  const bool inflects = ending_of_text(suffix) != Ending::none;
  if (inflects && base.ends_with('c') && n > 2 &&
      is_full_vowel_letter(base[n - 2])) {
    return {Joint::c_to_ck};
  }
  // fuelled, initialled: two vowel letters, but of two beats.
  const bool own_beat =
      base.ends_with("uel") || base.ends_with("ial") || base.ends_with("ual");
  if (own_beat) return {Joint::plain, Joint::doubled};
  if (!ends_in_one_consonant(base)) return {Joint::plain};
  if (doubles_its_end(base) || traits.last_beat == Beat::strong) {
    return {Joint::doubled};
  }
  if (traits.last_beat == Beat::unknown || base.ends_with('l')) {
    return {Joint::plain, Joint::doubled};
  }
  return {Joint::plain};
}

std::vector<EndedWord> with_s(std::string_view base, BaseTraits traits) {
  const auto made = [&](Ending ending, Joint joint) {
    return EndedWord{join_as(base, ending, joint), ending, joint};
  };
  const EndedWord s = made(Ending::s, Joint::plain);
  const EndedWord es = made(Ending::es, Joint::plain);
  if (ends_in_consonant_y(base)) return {made(Ending::es, Joint::y_to_i)};
  if (base.ends_with('z') && doubles_its_end(base)) {
    return {made(Ending::es, Joint::doubled)};
  }
  if (base.ends_with('s') && doubles_its_end(base)) {
    return {es, made(Ending::es, Joint::doubled)};
  }
  if (base.ends_with('s') || base.ends_with('x') || base.ends_with('z') ||
      base.ends_with("sh")) {
    return {es};
  }
  if (base.ends_with("ch")) {
    if (traits.hiss == Hiss::yes) return {es};
    if (traits.hiss == Hiss::no) return {s};
    return {es, s};
  }
  const std::size_t n = base.size();
  if (base.ends_with('o') && n > 1 && !is_full_vowel_letter(base[n - 2]))
    return {es, s};
  return {s};
}

std::vector<EndedWord> with_ly(std::string_view base) {
  if (ends_in_consonant_y(base) && !is_one_beat_in_y(base)) {
    return {
        {join_as(base, Ending::ly, Joint::y_to_i), Ending::ly, Joint::y_to_i}};
  }
  if (ends_in_consonant_le(base)) {
    return {{without(base, 1) + "y", Ending::ly, Joint::dropped_e}};
  }
  std::string spelling = std::string(base) + "ly";
  if (base.ends_with("ic")) spelling = std::string(base) + "ally";
  if (base.ends_with("ll")) spelling = std::string(base) + "y";
  return {{std::move(spelling), Ending::ly, Joint::plain}};
}

std::vector<EndedWord> regular_forms(std::string_view base, Ending ending,
                                     BaseTraits traits) {
  switch (ending) {
    case Ending::none:
      return {};
    case Ending::s:
    case Ending::es:
      return with_s(base, traits);
    case Ending::ly:
      return with_ly(base);
    default:
      break;
  }
  std::vector<Joint> joints = {Joint::plain};
  if (begins_with_vowel(ending)) {
    joints = joints_before_vowel(base, ending_text(ending), traits);
  } else if (ending != Ending::possessive && ends_in_consonant_y(base) &&
             !is_one_beat_in_y(base)) {
    joints = {Joint::y_to_i};
  }
  std::vector<EndedWord> made;
  for (const Joint joint : joints) {
    made.push_back({join_as(base, ending, joint), ending, joint});
  }
  return made;
}

// What a form of the table shows of its ending.
EndedWord seen_in(std::string form, std::string_view base, Ending asked) {
  constexpr std::array kJoints = {
      Joint::f_to_v,    Joint::plain,   Joint::doubled, Joint::y_to_i,
      Joint::dropped_e, Joint::c_to_ck, Joint::ie_to_y};
  const bool plural = asked == Ending::s || asked == Ending::es;
  for (const Ending ending : {plural ? Ending::es : asked, asked}) {
    for (const Joint joint : kJoints) {
      if (join_as(base, ending, joint) == form) {
        return {std::move(form), ending, joint};
      }
    }
  }
  // skilful, instalment: one letter of two is gone.
  const bool short_of_one = !plural && !begins_with_vowel(asked) &&
                            form.ends_with(ending_text(asked));
  return {std::move(form), short_of_one ? asked : Ending::none, Joint::plain};
}

// Letters put together with a suffix in one certain way.
std::string join(std::string_view base, std::string_view suffix, Joint joint) {
  std::string joined(base);
  switch (joint) {
    case Joint::plain:
      break;
    case Joint::doubled:
      joined += base.back();
      break;
    case Joint::dropped_e:
      if (!base.ends_with('e')) return {};
      joined.pop_back();
      break;
    case Joint::y_to_i:
      if (!base.ends_with('y')) return {};
      joined.back() = 'i';
      break;
    case Joint::c_to_ck:
      if (!base.ends_with('c')) return {};
      joined += 'k';
      break;
    case Joint::ie_to_y:
      if (!base.ends_with("ie")) return {};
      joined = without(base, 2) + 'y';
      break;
    case Joint::f_to_v:
      if (base.ends_with("fe")) {
        joined = without(base, 2) + 'v';
      } else if (base.ends_with('f')) {
        joined.back() = 'v';
      } else {
        return {};
      }
      break;
  }
  return joined.append(suffix);
}

}  // namespace

bool doubles_its_end(std::string_view base) {
  if (!ends_in_one_consonant(base)) return false;
  const std::size_t n = base.size();
  const bool qu = n >= 4 && base[n - 3] == 'u' && base[n - 4] == 'q';
  std::string_view before = base.substr(0, qu ? n - 4 : n - 2);
  if (before.starts_with('y')) before.remove_prefix(1);
  return before.find_first_of("aeiouy") == std::string_view::npos;
}

std::string join_as(std::string_view base, Ending ending, Joint joint) {
  if (base.empty()) return {};
  const bool plural = ending == Ending::s || ending == Ending::es;
  if (joint == Joint::f_to_v && ending != Ending::es) return {};
  if (joint == Joint::dropped_e && plural) return {};
  if (joint == Joint::ie_to_y && ending != Ending::ing) return {};
  return join(base, ending_text(ending), joint);
}

std::vector<EndedWord> put_ending_on(std::string_view base, Ending ending,
                                     BaseTraits traits) {
  if (base.empty()) return {};
  std::vector<EndedWord> made;
  for (std::string& form : irregular_forms(base, ending)) {
    made.push_back(seen_in(std::move(form), base, ending));
  }
  return made.empty() ? regular_forms(base, ending, traits) : made;
}

std::vector<SuffixBase> possible_suffix_bases(std::string_view word,
                                              std::string_view suffix) {
  if (word.size() < suffix.size() + 2 || !word.ends_with(suffix)) return {};
  const std::string stem = without(word, suffix.size());
  const bool vowel =
      is_full_vowel_letter(suffix.front()) || suffix.front() == 'y';
  std::vector<SuffixBase> candidates = {{stem, Joint::plain}};
  if (vowel) {
    candidates.push_back({stem + "e", Joint::dropped_e});
    if (stem[stem.size() - 1] == stem[stem.size() - 2]) {
      candidates.push_back({without(stem, 1), Joint::doubled});
    }
  }
  if (stem.ends_with('i')) {
    candidates.push_back({without(stem, 1) + "y", Joint::y_to_i});
  }
  std::vector<SuffixBase> result;
  for (SuffixBase& candidate : candidates) {
    std::vector<Joint> joints = {Joint::plain};
    if (vowel) {
      joints = joints_before_vowel(candidate.base, suffix, {});
    } else if (ends_in_consonant_y(candidate.base) &&
               !is_one_beat_in_y(candidate.base)) {
      joints = {Joint::y_to_i, Joint::plain};  // likelihood, ladylike
    }
    if (std::ranges::find(joints, candidate.joint) != joints.end()) {
      result.push_back(std::move(candidate));
    }
  }
  return result;
}

}  // namespace sheaf
