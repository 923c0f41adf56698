// How sounds are made: every sound has its row, and the rows say what phonetics
// says of places and manners. The lists were written before the table was.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "phonics/pattern_text.h"
#include "phonics/sound_making.h"
#include "phonics/tables.h"

namespace sheaf {
namespace {

using P = Phoneme;
using Lips = SoundMaking::Lips;
using Tongue = SoundMaking::Tongue;
using Air = SoundMaking::Air;

Phoneme phoneme(int i) { return static_cast<Phoneme>(i); }

TEST(SoundMaking, EveryPhonemeHasOneRowWithItsSource) {
  std::string fault;
  const auto rows = read_sound_making(sound_making_table(), fault);
  EXPECT_EQ(fault, "");
  std::set<Phoneme> found;
  for (const SoundMaking& row : rows) {
    EXPECT_TRUE(found.insert(row.phoneme).second) << phoneme_name(row.phoneme);
    EXPECT_NE(row.source.find("from memory"), row.source.npos)
        << phoneme_name(row.phoneme);
    EXPECT_FALSE(row.beside.empty()) << phoneme_name(row.phoneme);
    for (const Phoneme beside : row.beside) EXPECT_NE(beside, row.phoneme);
  }
  for (int i = 0; i < kPhonemeCount; ++i) {
    EXPECT_TRUE(found.contains(phoneme(i))) << phoneme_name(phoneme(i));
    EXPECT_EQ(making_of(phoneme(i)).phoneme, phoneme(i));
  }
}

TEST(SoundMaking, PairsDifferInVoiceOnly) {
  constexpr std::pair<P, P> kPairs[] = {
      {P::p, P::b},   {P::t, P::d}, {P::k, P::g},   {P::f, P::v},
      {P::th, P::dh}, {P::s, P::z}, {P::sh, P::zh}, {P::ch, P::jh}};
  for (const auto& [quiet, loud] : kPairs) {
    const SoundMaking& a = making_of(quiet);
    const SoundMaking& b = making_of(loud);
    EXPECT_FALSE(a.voice) << phoneme_name(quiet);
    EXPECT_TRUE(b.voice) << phoneme_name(loud);
    EXPECT_EQ(a.lips, b.lips) << phoneme_name(quiet);
    EXPECT_EQ(a.jaw, b.jaw) << phoneme_name(quiet);
    EXPECT_EQ(a.tongue, b.tongue) << phoneme_name(quiet);
    EXPECT_EQ(a.air, b.air) << phoneme_name(quiet);
    EXPECT_EQ(a.end, b.end) << phoneme_name(quiet);
  }
}

TEST(SoundMaking, OnlyTheseHaveNoVoice) {
  const std::set<P> quiet = {P::p, P::t,  P::k,  P::f,  P::th,
                             P::s, P::sh, P::ch, P::hh, P::hw};
  for (int i = 0; i < kPhonemeCount; ++i) {
    EXPECT_EQ(!making_of(phoneme(i)).voice, quiet.contains(phoneme(i)))
        << phoneme_name(phoneme(i));
  }
}

TEST(SoundMaking, PlaceAndMannerOfConsonants) {
  const std::set<P> nose = {P::m, P::n, P::ng};
  const std::set<P> stops = {P::p, P::b, P::t, P::d, P::k, P::g};
  const std::set<P> rushes = {P::ch, P::jh};
  const std::set<P> rubs = {P::f, P::v,  P::th, P::dh, P::s,
                            P::z, P::sh, P::zh, P::hw};
  const std::set<P> shut = {P::p, P::b, P::m};
  const std::set<P> ridge = {P::t, P::d, P::n, P::l};
  const std::set<P> back = {P::k, P::g, P::ng};
  for (int i = 0; i < kPhonemeCount; ++i) {
    const P p = phoneme(i);
    const SoundMaking& m = making_of(p);
    const auto name = phoneme_name(p);
    EXPECT_EQ(m.air == Air::nose, nose.contains(p)) << name;
    EXPECT_EQ(m.air == Air::stop, stops.contains(p)) << name;
    EXPECT_EQ(m.air == Air::rush, rushes.contains(p)) << name;
    EXPECT_EQ(m.air == Air::rub, rubs.contains(p)) << name;
    EXPECT_EQ(m.air == Air::sides, p == P::l) << name;
    EXPECT_EQ(m.lips == Lips::shut, shut.contains(p)) << name;
    EXPECT_EQ(m.lips == Lips::teeth, p == P::f || p == P::v) << name;
    EXPECT_EQ(m.tongue == Tongue::teeth, p == P::th || p == P::dh) << name;
    EXPECT_EQ(m.tongue == Tongue::ridge, ridge.contains(p)) << name;
    EXPECT_EQ(m.tongue == Tongue::back, back.contains(p)) << name;
    if (is_vowel(p)) {
      EXPECT_EQ(m.air, Air::free) << name;
    }
  }
}

// What the script says of a sound by itself agrees with how it is drawn.
TEST(SoundMaking, AgreesWithHowSoundsAreSaid) {
  for (int i = 0; i < kPhonemeCount; ++i) {
    const SoundMaking& m = making_of(phoneme(i));
    const SoundWay& way = way_of(phoneme(i));
    const auto name = phoneme_name(phoneme(i));
    const bool stops = m.air == Air::stop || m.air == Air::rush;
    EXPECT_EQ(way.way == SoundWay::Way::quick, stops) << name;
    if (m.air == Air::nose || m.air == Air::sides) {
      EXPECT_EQ(way.way, SoundWay::Way::hold) << name;
    }
    EXPECT_EQ(way.how.find("through the nose") != way.how.npos,
              m.air == Air::nose)
        << name;
    if (way.how.find("no voice") != way.how.npos) {
      EXPECT_FALSE(m.voice) << name;
    }
    if (way.how.starts_with("lips shut")) {
      EXPECT_EQ(m.lips, Lips::shut) << name;
    }
  }
}

TEST(SoundMaking, VowelsOpenAsTheyShould) {
  // From the most open to the closest, front and back.
  const auto jaw = [](P p) { return making_of(p).jaw; };
  EXPECT_GT(jaw(P::ae), jaw(P::eh));
  EXPECT_GT(jaw(P::eh), jaw(P::ih));
  EXPECT_EQ(jaw(P::aa), 3);
  EXPECT_EQ(making_of(P::iy).lips, Lips::spread);
  for (const P p : {P::uw, P::ow, P::ao, P::oh, P::oy}) {
    EXPECT_EQ(making_of(p).lips, Lips::round) << phoneme_name(p);
  }
  // Those that move, and where to.
  for (const P p : {P::ey, P::ay, P::oy}) EXPECT_EQ(making_of(p).end, P::ih);
  for (const P p : {P::ow, P::aw}) EXPECT_EQ(making_of(p).end, P::uh);
  for (const P p : {P::ia, P::ea, P::ua}) EXPECT_EQ(making_of(p).end, P::ax);
  for (const P p : {P::iy, P::uw, P::ae, P::er}) EXPECT_FALSE(making_of(p).end);
}

TEST(SoundMaking, WordsAreShortAndWhole) {
  for (int i = 0; i < kPhonemeCount; ++i) {
    const SoundMaking& m = making_of(phoneme(i));
    for (const std::string_view told :
         {told_lips(m), told_tongue(m), told_air(m), told_voice(m)}) {
      EXPECT_TRUE(told.ends_with('.')) << told;
      EXPECT_LE(std::ranges::count(told, ' '), 8) << told;
    }
  }
}

TEST(SoundMaking, FaultsNameTheirLine) {
  const auto fault_of = [](std::string_view text) {
    std::string fault;
    read_sound_making(text, fault);
    return fault;
  };
  EXPECT_EQ(fault_of("zz\topen\t1\trest\tfree\ton\t-\tb\tx"),
            "line 1: no such phoneme");
  EXPECT_EQ(fault_of("b\topen\t4\trest\tfree\ton\t-\tp\tx"), "line 1: jaw");
  EXPECT_EQ(fault_of("b\topen\t1\tgone\tfree\ton\t-\tp\tx"),
            "line 1: lips, tongue or air");
  EXPECT_EQ(fault_of("b\topen\t1\trest\tfree\ton\t-\tp\t"),
            "line 1: no source");
}

}  // namespace
}  // namespace sheaf
