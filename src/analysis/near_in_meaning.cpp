#include "analysis/near_in_meaning.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "analysis/function_words.h"
#include "base/utf8.h"
#include "phonics/ending_rules.h"
#include "phonics/word_meanings.h"

namespace sheaf {

namespace {

using Object = WordMeanings::Object;

// The words around one, in lower case; empty at the ends of a sentence, and
// where a sign stands between.
struct Around {
  std::string before, after;
};

std::string beside(const AnalyzedSentence& sentence, std::size_t from,
                   std::size_t to, const AnalyzedSentence::Part& part) {
  const std::string_view between =
      std::string_view(sentence.text.text()).substr(from, to - from);
  if (between.find_first_not_of(' ') != std::string_view::npos) return {};
  return lower_case(part.word.spelling.value);
}

Around around(const AnalyzedSentence& sentence, std::size_t index) {
  Around words;
  const auto& parts = sentence.words;
  if (index > 0) {
    words.before = beside(sentence, parts[index - 1].end, parts[index].begin,
                          parts[index - 1]);
  }
  if (index + 1 < parts.size()) {
    words.after = beside(sentence, parts[index].end, parts[index + 1].begin,
                         parts[index + 1]);
  }
  return words;
}

bool can_be_noun(const WordMeanings& meanings, std::string_view word) {
  return meanings.can_be(word, WordKind::noun, Ending::none) ||
         meanings.can_be(word, WordKind::noun, Ending::s);
}

// The first of the forms that is of one of the kinds; those come in the order
// in which they are likely.
std::optional<WordForm> first_of(const std::vector<WordForm>& forms,
                                 std::initializer_list<WordKind> kinds) {
  for (const WordKind kind : kinds) {
    const auto found = std::ranges::find(forms, kind, &WordForm::kind);
    if (found != forms.end()) return *found;
  }
  return std::nullopt;
}

// What the word is here, as far as its neighbours tell.
std::optional<WordForm> form_here(const std::vector<WordForm>& forms,
                                  const Around& words,
                                  const WordMeanings& meanings) {
  if (forms.empty()) return std::nullopt;
  if (is_determiner(words.before)) {
    // the green hat, but the green
    const bool noun_follows = !is_preposition(words.after) &&
                              !is_auxiliary(words.after) &&
                              can_be_noun(meanings, words.after);
    const auto usual = first_of(forms, {WordKind::adjective, WordKind::noun});
    if (!usual) return std::nullopt;
    if (usual->kind == WordKind::adjective && !noun_follows) {
      return first_of(forms, {WordKind::noun});
    }
    // the brick wall, but the mean cat
    const auto noun = first_of(forms, {WordKind::noun});
    return noun && noun->share > usual->share ? noun : usual;
  }
  if (is_form_of_be(words.before)) {
    for (const WordForm& form : forms) {  // she is walking
      if (form.kind == WordKind::verb && form.ending == Ending::ing) {
        return form;
      }
    }
    return first_of(forms,
                    {WordKind::adjective, WordKind::verb, WordKind::noun});
  }
  if (words.before == "to" || is_modal(words.before) ||
      (is_subject_pronoun(words.before) && words.before != "it") ||
      is_subject_with_verb(words.before)) {
    return first_of(forms, {WordKind::verb, WordKind::adverb, WordKind::noun});
  }
  return forms.front();
}

// Whether a verb has an object here.
Object object_here(const Around& words) {
  if (is_determiner(words.after) || is_object_pronoun(words.after)) {
    return Object::with;
  }
  if (words.after.empty() || is_preposition(words.after)) {
    return Object::without;
  }
  return Object::unknown;
}

// Whether a word goes with the article that stands before it.
bool fits_article(std::string_view before, const Reading& reading) {
  if ((before != "a" && before != "an") || reading.units.empty()) return true;
  const auto& sounds = reading.units.front().phonemes;
  const bool vowel = !sounds.empty() && is_vowel(sounds.front());
  return vowel == (before == "an");
}

}  // namespace

std::vector<std::string> near_in_meaning(const AnalyzedLesson& lesson,
                                         const AnalyzedSentence& sentence,
                                         std::size_t index, std::size_t count,
                                         KnownNearWords& known) {
  const Phonics& phonics = *lesson.phonics;
  const WordMeanings& meanings = phonics.meanings();
  const std::string own = lower_case(sentence.words[index].word.spelling.value);
  const Around words = around(sentence, index);
  if (is_auxiliary(own) || is_determiner(own) || is_preposition(own) ||
      is_opener(own) || is_subject_pronoun(own) || is_object_pronoun(own)) {
    return {};
  }
  const auto form = form_here(meanings.forms(own), words, meanings);
  if (!form) return {};
  const Object object =
      form->kind == WordKind::verb ? object_here(words) : Object::unknown;
  // All that the answer depends on.
  const bool article = words.before == "a" || words.before == "an";
  const auto [place, fresh] = known.try_emplace(fmt::format(
      "{} {} {} {} {} {} {}", own, form->base, static_cast<int>(form->kind),
      static_cast<int>(form->ending), static_cast<int>(object),
      article ? words.before : "-", count));
  std::vector<std::string>& near = place->second;
  if (!fresh) return near;
  for (const WordMeanings::Near& other : meanings.near(*form, object)) {
    if (near.size() == count) break;
    std::string word = other.word;
    if (form->ending != Ending::none) {
      const auto ended = put_ending_on(other.word, form->ending);
      if (ended.empty()) continue;
      word = ended.front().spelling;
    }
    const auto may_suggest = [&](std::string_view one) {
      return !lesson.may_suggest || lesson.may_suggest(one);
    };
    // Everything is a kind of being or having.
    if (is_form_of_be(other.word) || is_auxiliary(other.word)) continue;
    if (word == own || !phonics.knows(word) || !may_suggest(word) ||
        !may_suggest(other.word)) {
      continue;
    }
    const auto reading = phonics.first_reading(word, lesson.conventions);
    if ((lesson.taught.is_decodable(*reading) ||
         lesson.taught.is_sight_word(word)) &&
        fits_article(words.before, *reading)) {
      near.push_back(std::move(word));
    }
  }
  return near;
}

}  // namespace sheaf
