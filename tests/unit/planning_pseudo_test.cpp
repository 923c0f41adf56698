// Made-up words: which patterns have some, and what they must not be.

#include <gtest/gtest.h>

#include <set>

#include "phonics/alike.h"
#include "planning/block_list.h"
#include "planning/pseudo_words.h"
#include "planning/sound_groups.h"
#include "planning/word_search.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

const Conventions kUsual;
const Taught kNothingKnown;

const SearchGround& ground() {
  static const SearchGround source{
      shared_phonics(), kUsual, kNothingKnown, nullptr, {}};
  return source;
}

PatternId pattern(std::string_view id) {
  const Pattern* found = shared_phonics().patterns().by_id(id);
  EXPECT_NE(found, nullptr) << id;
  return shared_phonics().patterns().id_of(*found);
}

const std::vector<PseudoWord>& made(PatternId id) {
  static std::map<PatternId, std::vector<PseudoWord>> all;
  auto [entry, is_new] = all.try_emplace(id);
  if (is_new) entry->second = pseudo_words(ground(), id, 60);
  return entry->second;
}

// The spelling patterns of one beat of the catalogue; written from it, before
// looking. Where English leaves little room, since nearly all that sounds so is
// a word (air, ore), a few will do, and the program says that they are few.
TEST(PseudoWords, PatternsOfOneBeatAreServed) {
  for (const char* id :
       {"short_a", "short_e", "short_i",     "short_o", "short_u", "cvc",
        "ccvc",    "cvcc",    "blend_l",     "blend_r", "blend_s", "blend_3",
        "blend_w", "final_l", "final_nasal", "final_s", "sh",      "ch",
        "ck",      "tch",     "ng",          "nk",      "qu",      "x",
        "dge",     "a_e",     "i_e",         "o_e",     "u_e_oo",  "ai",
        "ee",      "ea_long", "ea_short",    "igh",     "oa",      "ow_oh",
        "ow_ow",   "ou_ow",   "oi",          "oy",      "oo_long", "oo_short",
        "ew",      "aw",      "au",          "ar",      "or",      "er",
        "ir",      "ur",      "kn",          "wr",      "gn",      "gu",
        "soft_c",  "soft_g",  "j",           "k_eiy",   "o_ld",    "al_all",
        "al_walk", "mb",      "ph"}) {
    EXPECT_GE(made(pattern(id)).size(), 10U) << id;
  }
  for (const char* id : {"ay", "y_eye", "oe", "wa", "wh", "ore", "air", "are",
                         "ear_eer", "eer", "i_nd"}) {
    EXPECT_GE(made(pattern(id)).size(), 2U) << id;
  }
  // Nothing tells a reader that these letters say what they say in the pattern.
  for (const char* id : {"s_z", "ch_sh", "gh_f"}) {
    EXPECT_TRUE(made(pattern(id)).empty()) << id;
  }
}

TEST(PseudoWords, HaveTheirPattern) {
  for (const Pattern& p : shared_phonics().patterns().all()) {
    for (const PseudoWord& w : made(pattern(p.id))) {
      std::vector<HandUnit> parts;
      for (const Unit& unit : w.units) parts.push_back({unit.grapheme, {}});
      const HandReading reading =
          shared_phonics().read_by_hand(w.word, parts, kUsual);
      EXPECT_EQ(reading.fault, "") << w.word;
    }
  }
}

// What `sheaf word` says of them is what they are made of, graphemes and
// sounds, whatever the pattern and however many there are of it.
TEST(PseudoWords, AreReadAsTheyAreMade) {
  int all = 0;
  for (const Pattern& p : shared_phonics().patterns().all()) {
    for (const PseudoWord& w : pseudo_words(ground(), pattern(p.id), 5000)) {
      const Reading read = shared_phonics().read(w.word, kUsual).front();
      const bool alike = std::ranges::equal(
          read.units, w.units, [](const Unit& a, const Unit& b) {
            return a.grapheme == b.grapheme && a.phonemes == b.phonemes;
          });
      EXPECT_TRUE(alike) << w.word << " for " << p.id;
      ++all;
    }
  }
  std::cout << all << " made-up words in all\n";
  EXPECT_GT(all, 5000);
}

TEST(PseudoWords, NoneIsRudeOrLikeIt) {
  const BlockList& shipped = BlockList::shipped();
  for (const Pattern& p : shared_phonics().patterns().all()) {
    for (const PseudoWord& w : made(pattern(p.id))) {
      const auto sounds = listed_sounds(w.units);
      EXPECT_FALSE(shipped.blocks_part_of(w.word, sounds)) << w.word;
      EXPECT_FALSE(shipped.is_near_rude(w.word, sounds)) << w.word;
    }
  }
}

// Every one-letter and one-sound step, with a word that is not rude at all.
TEST(PseudoWords, WhatIsOneStepFromARudeWordIsFound) {
  const std::vector<std::string> rude = {"plash"};
  BlockList list;
  for (const std::string& part : blocked_parts(rude, shared_phonics(), true)) {
    EXPECT_EQ(part.find("plash"), std::string::npos);
    list.add(part);
  }
  const auto near = [&](std::string_view word) {
    return list.is_near_rude(word, {});
  };
  for (const char* word : {"plash", "plush", "splash", "plas", "lash", "palsh",
                           "plashy", "plalsh", "plasp"}) {
    EXPECT_TRUE(near(word)) << word;
  }
  for (const char* word : {"plus", "slush", "pal", "splashy", "lass"}) {
    EXPECT_FALSE(near(word)) << word;
  }
  using P = Phoneme;
  const auto said = [&](const std::vector<P>& sounds) {
    return list.is_near_rude("zzzzzzzz", sounds);
  };
  EXPECT_TRUE(said({P::p, P::l, P::ae, P::ch}));
  EXPECT_TRUE(said({P::p, P::ae, P::sh}));
  EXPECT_FALSE(said({P::p, P::ey, P::ch}));
  EXPECT_FALSE(BlockList().is_near_rude("plash", {}));
  // The shipped list marks rude words; nothing like `duck` may be made up.
  EXPECT_TRUE(BlockList::shipped().is_near_rude("duck", {}));
  EXPECT_FALSE(BlockList::shipped().is_near_rude("boat", {}));
}

TEST(PseudoWords, ConsonantsStandTogetherAsInEnglish) {
  const SoundGroups groups(shared_phonics());
  using P = Phoneme;
  EXPECT_TRUE(groups.is_english(std::vector{P::s, P::t, P::r, P::ih, P::ng}));
  EXPECT_TRUE(groups.is_english(std::vector{P::k, P::y, P::uw, P::b}));
  EXPECT_TRUE(groups.is_english(std::vector{P::f, P::eh, P::l, P::p}));
  // wixth, whifth, glidth, shrort
  EXPECT_FALSE(groups.is_english(std::vector{P::w, P::ih, P::k, P::s, P::th}));
  EXPECT_FALSE(groups.is_english(std::vector{P::w, P::ih, P::f, P::th}));
  EXPECT_FALSE(groups.is_english(std::vector{P::g, P::l, P::ih, P::d, P::th}));
  EXPECT_FALSE(groups.is_english(std::vector{P::sh, P::r, P::ao, P::r, P::t}));
  EXPECT_FALSE(groups.is_english(std::vector{P::t, P::l, P::ae, P::t}));
  EXPECT_FALSE(groups.is_english(std::vector{P::s, P::t}));
}

}  // namespace
}  // namespace sheaf
