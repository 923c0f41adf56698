#include "reports/home_report.h"

#include <fmt/format.h>

#include <algorithm>

#include "layout/numbered_steps.h"
#include "layout/text_block.h"
#include "phonics/pattern_text.h"
#include "reports/growth_plot.h"
#include "reports/progress_report.h"
#include "reports/progress_states.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kHomeText = 14_pt;
constexpr Length kBetweenParts = 5_mm;
constexpr Length kLeastPicture = 45_mm;
constexpr Length kTallestPicture = 80_mm;
// So many are named; who has more is told how many.
constexpr std::size_t kMostSecure = 24;
constexpr std::size_t kMostPractised = 6;
constexpr std::size_t kWordsToWrite = 4;

TextStyle home_text(const Composer& c, bool bold = false) {
  TextStyle style = c.style().teacher_text(bold);
  style.leading = 1.35;
  return style;
}

// "a–e" for a_e, with the room between the letters shown.
std::string shown_grapheme(std::string grapheme) {
  const std::size_t gap = grapheme.find('_');
  if (gap != std::string::npos) grapheme.replace(gap, 1, "–");
  return grapheme;
}

// The letters that a pattern is about: "sh", "a–e"; empty where it is about
// the whole word or its ending.
std::string letters_of(const Pattern& pattern) {
  if (!pattern.of_units || pattern.teaches.empty()) return {};
  std::string text;
  std::vector<std::string> known;
  for (const TaughtUnit& unit : pattern.teaches) {
    const std::string grapheme(unit.grapheme);
    if (std::ranges::find(known, grapheme) != known.end()) continue;
    known.push_back(grapheme);
    if (known.size() > 2) return {};
    text += (text.empty() ? "" : " or ") + shown_grapheme(grapheme);
  }
  return text;
}

// "sh, as in ship"; "words like hopping" where there are no letters to show.
std::string plain_name(const Pattern& pattern) {
  const std::string letters = letters_of(pattern);
  if (pattern.example.empty()) return std::string(pattern.name);
  if (letters.empty()) return fmt::format("words like {}", pattern.example);
  return fmt::format("{} as in {}", letters, pattern.example);
}

// What is named first, then how many more there are.
std::string names_text(const PatternList& patterns, std::size_t most,
                       const PatternCatalogue& catalogue) {
  std::string text;
  const std::size_t shown = std::min(most, patterns.size());
  for (std::size_t i = 0; i < shown; ++i) {
    text += i == 0 ? "" : i + 1 == patterns.size() ? " and " : ", ";
    text += plain_name(catalogue[patterns[i]->pattern]);
  }
  if (shown < patterns.size()) {
    text += fmt::format(", and {} more", patterns.size() - shown);
  }
  return text;
}

// Those in need first, then the latest: that is what the week is about.
PatternList practised(const LearnerProgress& learner) {
  PatternList all;
  for (const ProgressState state :
       {ProgressState::check_again, ProgressState::practising,
        ProgressState::go_on}) {
    PatternList some = patterns_of(learner, state);
    std::ranges::reverse(some);
    all.insert(all.end(), some.begin(), some.end());
  }
  return all;
}

// What the learner is told of the pattern, with its own word in it; empty where
// the text needs more than that.
std::string told(const Pattern& pattern) {
  const PatternText* known = find_pattern_text(pattern.id);
  if (known == nullptr) return {};
  std::string text(known->learner);
  const auto put = [&](std::string_view sign, std::string_view word) {
    for (std::size_t at = text.find(sign); at != std::string::npos;
         at = text.find(sign, at + word.size())) {
      text.replace(at, sign.size(), word);
    }
  };
  put("{key}", pattern.example);
  if (const std::string letters = letters_of(pattern); !letters.empty()) {
    put("{g}", letters);
  }
  return text.find('{') == std::string::npos ? text : std::string();
}

// Words with the pattern that the learner wrote, those that went wrong first;
// never those of a probe.
std::vector<std::string> words_to_write(PatternId pattern,
                                        const LearnerCode& code,
                                        const Sessions& sessions) {
  std::vector<std::string> wrong, right;
  for (const SessionResult& session : sessions) {
    const LearnerResult* learner = session.find(code);
    if (learner == nullptr || session.kind == Record::Kind::probe) continue;
    for (const SessionWord& word : learner->words) {
      const Reading& reading = session.reading(word);
      if (reading.find(pattern) == nullptr) continue;
      (word.right() ? right : wrong).push_back(reading.word);
    }
  }
  // The latest first.
  std::vector<std::string> words;
  for (const std::vector<std::string>* some : {&wrong, &right}) {
    for (auto word = some->rbegin(); word != some->rend(); ++word) {
      if (words.size() < kWordsToWrite &&
          std::ranges::find(words, *word) == words.end()) {
        words.push_back(*word);
      }
    }
  }
  return words;
}

void add_part(Composer& c, std::string_view heading, std::string_view text) {
  add_subheading(c, c.style().teacher_size, heading, kBetweenParts);
  add_paragraph(c, home_text(c), text);
}

// The advice is common practice, no source.
std::string first_thing(const Pattern& pattern) {
  const std::string text = told(pattern);
  return fmt::format(
      "Read something together for ten minutes. Look out for {}. Stop "
      "there, and say the word slowly together.{}{}",
      plain_name(pattern), text.empty() ? "" : " ", text);
}

std::string second_thing(const Pattern& pattern,
                         const std::vector<std::string>& words) {
  std::string list;
  for (const std::string& word : words) {
    list += (list.empty() ? "" : ", ") + word;
  }
  if (list.empty()) list = pattern.example;
  return fmt::format(
      "You say one word at a time: {}. Your child says its "
      "sounds, writes it, and looks at it with you. Praise what is right, then "
      "mend one thing.",
      list);
}

void add_things_to_do(Composer& c, const LearnerProgress& learner,
                      const PatternList& now, const Sessions& sessions,
                      const PatternCatalogue& catalogue) {
  PatternList about = now;
  if (about.empty()) about = patterns_of(learner, ProgressState::secure);
  if (about.empty()) return;
  add_subheading(c, c.style().teacher_size, "Two things to do at home",
                 kBetweenParts);
  const PatternProgress& one = *about.front();
  const PatternProgress& other = *about[about.size() > 1 ? 1 : 0];
  const TextStyle text = home_text(c);
  const TextStyle bold = home_text(c, true);
  const std::vector<TextPiece> steps[] = {
      {{"Spot it. ", bold}, {first_thing(catalogue[one.pattern]), text}},
      {{"Say and write. ", bold},
       {second_thing(catalogue[other.pattern],
                     words_to_write(other.pattern, learner.code, sessions)),
        text}}};
  add_numbered_texts(c, text, steps);
  add_paragraph(c, text, "Ten minutes is enough. Stop while it goes well.",
                {.space_before = 2_mm});
}

void compose_home(Composer& c, const LearnerProgress& learner,
                  const Growth& growth, const Sessions& sessions,
                  const PatternCatalogue& catalogue) {
  const PatternList secure = patterns_of(learner, ProgressState::secure);
  const PatternList now = practised(learner);
  add_part(
      c, "This is secure",
      secure.empty()
          ? std::string(
                "Nothing yet: a spelling counts as secure only when it has "
                "held for weeks, and in new words. That takes time.")
          : fmt::format("Spelled right again and again, over weeks and in "
                        "new words: {}.",
                        names_text(secure, kMostSecure, catalogue)));
  const PatternList well = patterns_of(learner, ProgressState::go_on);
  if (!well.empty()) {
    add_part(
        c, "This goes well and needs more time",
        names_text({well.rbegin(), well.rend()}, kMostPractised, catalogue) +
            ".");
  }
  PatternList work = now;
  std::erase_if(work, [](const PatternProgress* p) {
    return p->state == ProgressState::go_on;
  });
  if (!work.empty()) {
    add_part(c, "This is being practised now",
             names_text(work, kMostPractised, catalogue) + ".");
  }
  if (growth.points.size() > 1) {
    add_subheading(c, c.style().teacher_size, "A picture of growth",
                   kBetweenParts);
    add_paragraph(c, home_text(c),
                  fmt::format("Every so often the class writes {} new words "
                              "that nobody has practised. Some go up and some "
                              "go down: look at the whole line.",
                              growth.words()));
    // The steps below it come to about as much.
    const Length below = home_text(c).line_height() * 12;
    add_growth_picture(
        c, growth,
        std::clamp(room_left(c) - below, kLeastPicture, kTallestPicture));
  } else {
    add_part(c, "A picture of growth",
             "There is none yet. It comes from short lists of new words that "
             "the class writes every week or two.");
  }
  add_things_to_do(c, learner, now, sessions, catalogue);
}

}  // namespace

void add_home_report(const ReportMaker& maker, const LearnerProgress& learner,
                     const Growth& growth, const Sessions& sessions,
                     const PatternCatalogue& catalogue) {
  add_report(maker,
             {.heading = "How spelling is going",
              .title = learner.code.text(),
              .code = last_day_text(std::span(&learner, 1)),
              .bookmark = "Home: how spelling is going, " + learner.code.text(),
              .caution = kPageCaution,
              .text_size = kHomeText,
              .for_teacher = false},
             [&](Composer& c) {
               compose_home(c, learner, growth, sessions, catalogue);
             });
}

}  // namespace sheaf
