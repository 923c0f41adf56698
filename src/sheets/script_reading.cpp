// What is said and done where learners read: words, sentences, texts, and the
// sentences that they make themselves.

#include <fmt/format.h>

#include "sheets/blend_words.h"
#include "sheets/our_sound.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::sheet_script {

namespace {

// "ship, shed and fish" would be read as one thing to say; commas part them.
std::string words_of(const SheetInput& in, const TurnShare& share) {
  const auto words = blend_words(in);
  std::string text;
  for (std::size_t i = 0; i < share.count; ++i) {
    text += (i == 0 ? "" : ", ") + words[share.first + i]->reading.word;
  }
  return text;
}

// The first two days go through the list, the others read all of it again.
TurnShare words_to_blend(const SheetInput& in, const DayStep& step) {
  const int parts = step.turns > 1 ? 2 : 1;
  if (step.turn >= parts) return {0, in.lesson.words.size()};
  return turn_share(in.lesson.words.size(), step.turn, parts);
}

bool is_again(const DayStep& step) { return step.turns > 1 && step.turn > 1; }

}  // namespace

std::string share_of_blending(const SheetInput&, const DayStep& step) {
  if (is_again(step)) return "all words, smoothly";
  if (step.turns < 2) return "";
  return step.turn == 0 ? "first half" : "second half";
}

ScriptLines blending(const SheetInput& in, const DayStep& step) {
  if (in.lesson.words.empty()) return {};
  if (is_again(step) && step.turn > 2) {
    return {{Lead::act, fmt::format("As on day {}: all words, smoothly.",
                                    step.day - step.turn + 2)}};
  }
  if (is_again(step)) {
    return {{Lead::say,
             "“Touch the marks only where you need them. Sweep, and "
             "say the word.”"},
            {Lead::act,
             "One learner reads a word, all say it after. Go on to "
             "the next. They tick a ring for each word."},
            {Lead::wait, "three seconds. Then: “Touch the marks.”"},
            {Lead::done_when,
             "each word comes in one piece, without stops "
             "between the sounds."}};
  }
  const TurnShare share = words_to_blend(in, step);
  if (step.turn > 0) {
    return {{Lead::show, fmt::format("the words {}. Cover the others.",
                                     words_of(in, share))},
            {Lead::act, as_on(in, step)}};
  }
  const AnalyzedWord& first = *blend_words(in)[share.first];
  const std::string sounds = sounds_of(in.lesson, first);
  return {
      {Lead::show,
       fmt::format("the words {}. Cover the others.", words_of(in, share))},
      {Lead::say, fmt::format("“Watch me.” Touch a mark, say its sound: {}. "
                              "Then sweep below the word: “{}.”",
                              sounds, first.reading.word)},
      {Lead::act,
       "Learners do the next with you, the rest alone: they mark the letters "
       "of our pattern, touch and say, sweep and say the word, tick a ring."},
      {Lead::wait,
       "the learner’s own pace. A sound that does not come: say "
       "it, and let them begin the word again."},
      {Lead::done_when,
       "each of these words was said whole after its sounds."}};
}

std::string share_of_sentences(const SheetInput& in, const DayStep& step) {
  if (step.turns < 2) return "";
  const TurnShare share =
      turn_share(in.lesson.sentences.size(), step.turn, step.turns);
  if (share.count == 1) return fmt::format("sentence {}", share.first + 1);
  return fmt::format("sentences {} to {}", share.first + 1,
                     share.first + share.count);
}

ScriptLines sentences(const SheetInput& in, const DayStep& step) {
  const std::string share = share_of_sentences(in, step);
  if (step.turn > 0) {
    return {{Lead::show, fmt::format("{}.", share)},
            {Lead::act, as_on(in, step)}};
  }
  return {
      {Lead::show, fmt::format("{}. Cover the rest with a sheet of paper.",
                               share.empty() ? "the first sentence" : share)},
      {Lead::say,
       fmt::format("“Find the words with {}. Mark them. Then read the whole "
                   "sentence to me.” A sentence that is marked already shows "
                   "how: read it together and say why each word is marked.",
                   our_sound(in.lesson))},
      {Lead::act,
       "Learners say each word that they mark. They read the sentence aloud, a "
       "finger under the words, and tick a ring. Then again, as they would "
       "tell it to a friend."},
      {Lead::wait,
       "the end of the sentence before you mend. “Read that word "
       "again. Say its sounds.” If it does not come, say it."},
      {Lead::done_when,
       "all words of the key are marked and the sentence was read without a "
       "stop inside a word. Ask one question that it answers."}};
}

ScriptLines hunt(const SheetInput&, const DayStep&) {
  return {{Lead::show, "the text. Read its first line together."},
          {Lead::say,
           "“Some words in here have what we look for. Go line by line "
           "and say each of them.”"},
          {Lead::act,
           "Learners mark each word they find, count them, and read "
           "the text aloud with a finger under the words."},
          {Lead::wait,
           "the end of a line. Then: “There is one more in this "
           "line. Say the words slowly.”"},
          {Lead::done_when,
           "their count and the key agree, and they have read "
           "the text aloud once."}};
}

ScriptLines rereading(const SheetInput&, const DayStep&) {
  return {{Lead::show, "the words, then the phrases."},
          {Lead::say, "“Read each one to me. Tick a box each time.”"},
          {Lead::act,
           "Learners read aloud, to you or to a partner. They may "
           "begin anywhere."},
          {Lead::wait, "three seconds at a word. Then say it, and go on."},
          {Lead::done_when, "each line was read once today. No clock."}};
}

ScriptLines compose(const SheetInput& in, const DayStep&) {
  const std::string word = in.lesson.words.empty()
                               ? std::string()
                               : in.lesson.words.front().reading.word;
  return {
      {Lead::show, "the words of the week. Read them together."},
      {Lead::say, fmt::format("“I take {}. I say my sentence first.” Say one, "
                              "count its words on your fingers, write it where "
                              "all can see it, and read it.",
                              word)},
      {Lead::act,
       "Where a line is begun, finish it aloud together first. Learners "
       "choose a word, say a sentence, count its words and write it; "
       "or they tell it and you write, word for word. They put a line under "
       "the word that they chose."},
      {Lead::wait,
       "the whole sentence before a word is written. “Say it "
       "again. Which word comes next?” Help with words that were "
       "not taught; sound out those that were."},
      {Lead::done_when,
       "the learner reads a sentence back, it makes sense, "
       "and its word of the week is spelled right. Two good "
       "sentences are better than five."}};
}

ScriptLines proofread(const SheetInput&, const DayStep&) {
  return {{Lead::show, "a sentence that the learner has just written."},
          {Lead::say,
           "“Be your own helper. One step at a time.” Read the "
           "first step aloud."},
          {Lead::act,
           "Learners go through the steps with a finger under each "
           "word, tick each step, and write mended words on the "
           "lines below."},
          {Lead::wait,
           "what they find by themselves. Then point to a line, "
           "not to a word: “Something here.”"},
          {Lead::done_when,
           "all steps are ticked. What is still wrong goes "
           "into tomorrow’s words; do not mend it all."}};
}

}  // namespace sheaf::sheet_script
