// What pages say of sounds, for every pattern of the catalogue: a lesson of one
// line each, in every accent, with every kind of sheet.
// - The grapheme on the sound card stands in the key word, where the pattern
//   is.
// - The sound that the script says is what that grapheme says there.
// - Every sound that any page names stands in the packet's key of sounds, and
//   the words of the key have their sounds.
// - What a page says that a grapheme says, it says wherever the list has it.
// - The key word has a picture where any word of the list has one.

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "files/disk_files.h"
#include "look_checks.h"
#include "phonics/explain.h"
#include "phonics/notation.h"
#include "phonics/table_text.h"
#include "project_files.h"
#include "said_pages.h"
#include "sheets/pattern_card.h"
#include "sheets/sheet.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

using testing_support::TemporaryFolder;

constexpr const char* kAccents[] = {"general-american", "british", "scottish",
                                    "australian"};

std::vector<std::string> all_kinds() {
  std::vector<std::string> names;
  for (const SheetKind* kind : sheet_kinds()) names.emplace_back(kind->name);
  return names;
}

class Said : public testing::Test {
 protected:
  Made made_of(const std::string& lesson,
               const std::vector<std::string>& sheets = all_kinds()) {
    Made made = make(workspace_, folder_.write("lesson.yaml", lesson), "week",
                     "letter", sheets);
    made.about = lesson;
    EXPECT_EQ(made.faults, "") << lesson;
    return made;
  }

  std::vector<std::string> pattern_ids() {
    std::vector<std::string> ids;
    for (const Pattern& pattern : workspace_.phonics().patterns().all()) {
      ids.emplace_back(pattern.id);
    }
    return ids;
  }
  // Under the sanitizers a part of them, another for each accent: what is said
  // is the same, only slower.
  std::vector<std::string> pattern_ids_for(std::string_view accent) {
    std::vector<std::string> ids = pattern_ids();
#if defined(__SANITIZE_ADDRESS__)
    std::vector<std::string> part;
    for (std::size_t i = accent.size() % 5; i < ids.size(); i += 5) {
      part.push_back(ids[i]);
    }
    return part;
#else
    static_cast<void>(accent);
    return ids;
#endif
  }

  const TemporaryFolder folder_;
  Workspace workspace_{disk(), shipped_folder()};
};

// The sounds that a word may be said to have: those of its boxes, and all that
// one grapheme says there (x says /ks/).
std::set<std::string> sounds_in(const Reading& reading,
                                const Conventions& conventions) {
  std::set<std::string> names;
  for (const Sound& sound : reading.sounds) {
    names.insert(sound_name(sound.phonemes, conventions));
  }
  for (const Unit& unit : reading.units) {
    names.insert(sound_name(unit.phonemes, conventions));
  }
  return names;
}

void check_key_word(const Made& made, const Phonics& phonics) {
  const AnalyzedLesson& lesson = made.lesson->analyzed;
  const auto learner = texts_of(made.packet.learner);
  const auto teacher = texts_of(made.packet.teacher);
  const auto cards = cards_of(learner);
  const auto said = said_in_script(teacher);
  ASSERT_EQ(cards.size(), 1U) << made.about;
  const PatternCard shown = pattern_card(lesson, 0);
  EXPECT_EQ(cards[0].told, shown.learner) << made.about;
  if (!shown.is_sound()) {
    EXPECT_TRUE(said.empty()) << made.about;
    EXPECT_EQ(cards[0].grapheme, shown.face) << made.about;
    return;
  }
  ASSERT_EQ(said.size(), 1U) << made.about;
  const Pattern& pattern = phonics.patterns()[lesson.patterns[0].id];
  const Reading reading =
      phonics.read(cards[0].word, lesson.conventions).front();
  const PatternPlace* place = reading.find(lesson.patterns[0].id);
  ASSERT_NE(place, nullptr) << made.about << cards[0].word;
  ASSERT_TRUE(pattern.of_units) << made.about;
  EXPECT_EQ(said[0].word, cards[0].word) << made.about;
  const auto unit = std::ranges::find_if(place->units, [&](std::size_t i) {
    return reading.units[i].grapheme == cards[0].grapheme;
  });
  ASSERT_NE(unit, place->units.end())
      << made.about << cards[0].grapheme << " in " << cards[0].word;
  EXPECT_EQ(said[0].sound,
            sound_name(reading.units[*unit].phonemes, lesson.conventions))
      << made.about << cards[0].word;
  const auto names = sounds_in(reading, lesson.conventions);
  EXPECT_TRUE(names.contains(said[0].sound))
      << made.about << cards[0].word << " "
      << sounds_text(reading, lesson.conventions);
}

void check_key_of_sounds(const Made& made, const Phonics& phonics) {
  const auto teacher = texts_of(made.packet.teacher);
  const auto key = key_of_sounds(teacher);
  ASSERT_GT(key.size(), 20U) << made.about;
  std::set<std::string> missing;
  for (const Document* document :
       {&made.packet.learner, &made.packet.teacher}) {
    for (const PageText& text : texts_of(*document)) {
      for (const std::string& sound : sounds_named_in(text.text)) {
        if (!stands_in_key(key, sound)) missing.insert(sound);
      }
    }
  }
  for (const std::string& sound : missing) {
    ADD_FAILURE() << made.about << "not in the key: /" << sound << "/";
  }
  const Conventions& conventions = made.lesson->analyzed.conventions;
  for (const auto& [sign, word] : key) {
    const Reading reading = phonics.read(word, conventions).front();
    EXPECT_TRUE(sounds_in(reading, conventions).contains(sign))
        << made.about << "the key has /" << sign << "/ " << word
        << ", which is said " << sounds_text(reading, conventions);
  }
}

// Whether a reading has a grapheme that says the sound; any grapheme where none
// is given.
bool says(const Reading& reading, const std::string& grapheme,
          const std::string& sound, const Conventions& conventions) {
  return std::ranges::any_of(reading.units, [&](const Unit& unit) {
    return unit.grapheme == grapheme &&
           sound_name(unit.phonemes, conventions) == sound;
  });
}

// "ee or ea says /ee/, as in tree." of the page for home, and "was: a says /u/"
// of the key to unusual words.
void check_what_graphemes_say(const Made& made) {
  const AnalyzedLesson& lesson = made.lesson->analyzed;
  constexpr std::string_view kSays = " says /";
  const auto sound_in = [](std::string_view text) {
    return sounds_named_in(text).front();
  };
  for (const PageText& text : texts_of(made.packet.learner)) {
    const std::size_t at = text.text.find(kSays);
    if (text.sheet != "home-note" || at == std::string::npos) continue;
    if (text.text.starts_with("In ")) continue;
    for (std::string_view rest = std::string_view(text.text).substr(0, at);
         !rest.empty();) {
      const std::size_t end = std::min(rest.find(" or "), rest.size());
      std::string grapheme(rest.substr(0, std::min(end, rest.find(" (with"))));
      if (const std::size_t dash = grapheme.find("–");
          dash != std::string::npos) {
        grapheme.replace(dash, std::string_view("–").size(), "_");
      }
      for (const AnalyzedWord& word : lesson.words) {
        for (const std::uint8_t unit : word.hits[0].units) {
          const Unit& u = word.reading.units[unit];
          if (u.grapheme != grapheme) continue;
          EXPECT_EQ(sound_name(u.phonemes, lesson.conventions),
                    sound_in(text.text))
              << made.about << text.text << " " << word.reading.word;
        }
      }
      rest.remove_prefix(std::min(end + 4, rest.size()));
    }
  }
  for (const PageText& text : texts_of(made.packet.teacher)) {
    const std::size_t colon = text.text.find(": ");
    if (text.sheet != "answer-key" || text.role != Role::paragraph ||
        colon == std::string::npos ||
        text.text.find(kSays, colon) == std::string::npos) {
      continue;
    }
    const auto& words = lesson.words;
    const std::string spelled = text.text.substr(0, colon);
    const auto word = std::ranges::find_if(words, [&](const AnalyzedWord& w) {
      return w.reading.word == spelled;
    });
    if (word == words.end()) continue;
    for (std::string_view rest = std::string_view(text.text).substr(colon + 2);
         !rest.empty();) {
      const std::size_t end = std::min(rest.find(", "), rest.size());
      const std::string_view part = rest.substr(0, end);
      EXPECT_TRUE(says(word->reading,
                       std::string(part.substr(0, part.find(kSays))),
                       sound_in(part), lesson.conventions))
          << made.about << text.text;
      rest.remove_prefix(std::min(end + 2, rest.size()));
    }
  }
}

TEST_F(Said, GraphemeAndSoundOfEveryPatternStandInItsKeyWord) {
  const Phonics& phonics = workspace_.phonics();
  for (const char* accent : kAccents) {
    for (const std::string& id : pattern_ids_for(accent)) {
      const Made made = made_of("pattern: " + id + "\naccent: " + accent + "\n",
                                {"sound-card", "script"});
      ASSERT_NE(made.lesson, nullptr);
      check_key_word(made, phonics);
    }
  }
}

TEST_F(Said, EverySoundNamedStandsInTheKey) {
  const Phonics& phonics = workspace_.phonics();
  for (const char* accent : kAccents) {
    for (const std::string& id : pattern_ids_for(accent)) {
      const Made made = made_of("pattern: " + id + "\naccent: " + accent +
                                "\nreview: 2\ntaught: x, qu, wa, short o, "
                                "ed_id, consonant_le, ar_or_final\n");
      ASSERT_NE(made.lesson, nullptr);
      check_key_of_sounds(made, phonics);
      check_what_graphemes_say(made);
    }
  }
}

TEST_F(Said, KeyWordHasAPictureWhereAnyWordHasOne) {
  int pictured = 0;
  for (const std::string& id : pattern_ids()) {
    const Made made = made_of("pattern: " + id + "\n", {"sound-card"});
    ASSERT_NE(made.lesson, nullptr);
    const AnalyzedLesson& lesson = made.lesson->analyzed;
    const LessonPictures& pictures = *made.lesson->pictures;
    const auto key = static_cast<std::size_t>(lesson.key_words[0]);
    const auto has = [&](const AnalyzedWord& word) {
      return pictures.find(word.reading.word) != nullptr;
    };
    const bool any = std::ranges::any_of(lesson.words, has);
    EXPECT_EQ(has(lesson.words[key]), any)
        << made.about << lesson.words[key].reading.word;
    pictured += any ? 1 : 0;
  }
  EXPECT_GE(pictured, 100);
}

// Then the likeliest: of words without a picture the one that children know.
TEST_F(Said, KeyWordIsTheLikeliest) {
  const auto key_of = [&](const std::string& lesson) {
    const Made made = made_of(lesson, {"sound-card"});
    const auto cards = cards_of(texts_of(made.packet.learner));
    return cards.empty() ? std::string() : cards[0].word;
  };
  EXPECT_EQ(key_of("pattern: h_silent\n"), "hour");
  EXPECT_EQ(key_of("pattern: h_silent\nwords: heir hour honest\n"), "hour");
  EXPECT_EQ(key_of("pattern: double_middle\n"), "apple");
  EXPECT_EQ(key_of("pattern: short_o\nwords: moth lot dog\n"), "dog");
  EXPECT_EQ(key_of("pattern: u_e_yoo\nwords: huge cute cube\n"), "cube");
  // A vowel coloured by its neighbour comes later than one that is not.
  EXPECT_EQ(key_of("pattern: short_a\nwords: hand hat\n"), "hat");
  // What the lesson says is not chosen anew.
  EXPECT_EQ(key_of("pattern: short_o\nwords: lot dog\nkey-word: lot\n"), "lot");
}

// The lessons that come with Sheaf, with the pages of their own layouts.
TEST_F(Said, LessonsOfTheProjectSayWhatIsThere) {
  const Phonics& phonics = workspace_.phonics();
  int lessons = 0;
  for (const std::filesystem::path& path :
       files_below(project() / "lessons", {".yaml"})) {
    if (!read(path).starts_with("pattern:") &&
        read(path).find("\npattern:") == std::string::npos) {
      continue;
    }
    const Made made = make(workspace_, path.string(), "week", "letter", {});
    ASSERT_NE(made.lesson, nullptr);
    ASSERT_EQ(made.faults, "") << made.about;
    ++lessons;
    const AnalyzedLesson& lesson = made.lesson->analyzed;
    for (const SaidSound& said :
         said_in_script(texts_of(made.packet.teacher))) {
      if (said.sound.empty()) continue;
      const auto word = std::ranges::find_if(
          lesson.words,
          [&](const AnalyzedWord& w) { return w.reading.word == said.word; });
      ASSERT_NE(word, lesson.words.end()) << made.about << said.word;
      EXPECT_TRUE(
          sounds_in(word->reading, lesson.conventions).contains(said.sound))
          << made.about << ": " << said.word << " /" << said.sound << "/";
    }
    check_key_of_sounds(made, phonics);
    check_what_graphemes_say(made);
  }
  EXPECT_GE(lessons, 36);
}

TEST_F(Said, WeekTwoOfTheYearSaysShortO) {
  const Made made =
      make(workspace_, (project() / "lessons/year/02-short-o.yaml").string(),
           "week", "letter", {});
  ASSERT_NE(made.lesson, nullptr);
  const auto said = said_in_script(texts_of(made.packet.teacher));
  ASSERT_EQ(said.size(), 1U);
  EXPECT_EQ(said[0].word, "dog");
  EXPECT_EQ(said[0].sound, "o");
}

// The same with sounds that are parted or joined by a convention.
TEST_F(Said, EverySoundNamedStandsInTheKeyOfEveryConvention) {
  for (const char* conventions :
       {"{count: as-taught}", "{r-vowel: two, long-u: two, final-le: two}",
        "{r-vowel: two, cot-caught: merged}", "{nk: one, syllabic-n: one}",
        "{accent: scottish, r-vowel: two}",
        "{accent: british, syllabic-n: one}", "{notation: marks}",
        "{r-between-vowels: split}"}) {
    for (const char* id :
         {"x", "qu", "nk", "or", "aw", "ure", "on_final", "wor", "consonant_le",
          "u_e_yoo", "er_final", "al_walk"}) {
      const Made made = made_of(std::string("pattern: ") + id +
                                "\nconventions: " + conventions + "\n");
      ASSERT_NE(made.lesson, nullptr);
      const auto key = key_of_sounds(texts_of(made.packet.teacher));
      for (const PageText& text : texts_of(made.packet.teacher)) {
        for (const std::string& sound : sounds_named_in(text.text)) {
          EXPECT_TRUE(stands_in_key(key, sound))
              << made.about << "not in the key: /" << sound << "/";
        }
      }
    }
  }
}

// A pattern that is no one sound has steps of its own; each row is what only
// its kind says. Common practice, no source.
TEST_F(Said, ScriptHasStepsForEachKindOfPattern) {
  constexpr const char* kRows[][3] = {
      {"blend_l", "flag", "put up a finger for each of these sounds: /f/ /l/."},
      {"final_nasal", "lamp", "“Say lamp without /m/.”"},
      {"cvc", "ship", "touch each mark and say its sound: /sh/ /i/ /p/."},
      {"a_open", "baby", "baby in beats: “ba – by.”"},
      {"double_middle", "rabbit", "What does “rab” end in?"},
      {"ed_t", "jumped", "/t/ in jumped, /d/ in sailed, /id/ in landed"},
      {"tion", "station", "what these letters say: /sh/ /uh/ /n/."},
      {"ing_double", "hopping", "The last letter is written twice: hopping."},
      {"ed_yi", "cried", "The y turns to i: cried."},
      {"prefix_un", "unhappy", "Cover un: “What is left?” (happy)"},
      {"compound", "sunset", "Ask what it is made of: sun + set."},
      {"contraction", "don't", "Ask what it is made of: do not."},
      {"kn", "knee", "“Which letters of knee do I see and not hear?”"},
      {"ck", "duck", "The rule for you: ck right after a short vowel"},
      {"tch", "match", "Set it beside: ch after a consonant"},
  };
  for (const auto& row : kRows) {
    const Made made = made_of(
        std::string("pattern: ") + row[0] + "\nwords: [\"" + row[1] + "\"]\n",
        {"script"});
    ASSERT_NE(made.lesson, nullptr);
    std::string all;
    for (const PageText& text : texts_of(made.packet.teacher)) {
      all += text.text + "\n";
    }
    EXPECT_NE(all.find(row[2]), std::string::npos) << row[0] << "\n" << all;
  }
}

// Values from outside, written before the program's were looked at.
TEST_F(Said, CardAndScriptSayWhatIsExpected) {
  const std::string text =
      read(project() / "tests/data/phonics_said_sounds.tsv");
  int rows = 0;
  for (const TableRow& row : table_rows(text)) {
    ++rows;
    const std::string word(row.cell(2));
    const Made made =
        made_of("pattern: " + std::string(row.cell(1)) + "\nwords: " + word +
                    "\naccent: " + std::string(row.cell(0)) + "\n",
                {"sound-card", "script"});
    ASSERT_NE(made.lesson, nullptr);
    const auto cards = cards_of(texts_of(made.packet.learner));
    const auto said = said_in_script(texts_of(made.packet.teacher));
    ASSERT_EQ(cards.size(), 1U) << made.about;
    if (!pattern_card(made.lesson->analyzed, 0).is_sound()) {
      EXPECT_TRUE(said.empty()) << made.about;
      continue;
    }
    ASSERT_EQ(said.size(), 1U) << made.about;
    EXPECT_EQ(cards[0].word, word);
    ASSERT_NE(row.cell(3), "-") << made.about;
    EXPECT_EQ(cards[0].grapheme, row.cell(3)) << made.about;
    EXPECT_EQ(said[0].sound, row.cell(4)) << made.about;
  }
  EXPECT_EQ(rows, 144);
}

}  // namespace
}  // namespace sheaf::test
