#include "phonics/near_sounds.h"

#include <algorithm>

namespace sheaf {

namespace {

struct NearSounds {
  Phoneme a, b;
};

constexpr NearSounds kNear[] = {
    {Phoneme::sh, Phoneme::ch},  {Phoneme::sh, Phoneme::s},
    {Phoneme::sh, Phoneme::zh},  {Phoneme::sh, Phoneme::jh},
    {Phoneme::s, Phoneme::z},    {Phoneme::s, Phoneme::th},
    {Phoneme::z, Phoneme::zh},   {Phoneme::z, Phoneme::dh},
    {Phoneme::th, Phoneme::f},   {Phoneme::th, Phoneme::dh},
    {Phoneme::dh, Phoneme::v},   {Phoneme::dh, Phoneme::d},
    {Phoneme::f, Phoneme::v},    {Phoneme::b, Phoneme::p},
    {Phoneme::b, Phoneme::d},    {Phoneme::d, Phoneme::t},
    {Phoneme::g, Phoneme::k},    {Phoneme::ch, Phoneme::jh},
    {Phoneme::ch, Phoneme::t},   {Phoneme::jh, Phoneme::zh},
    {Phoneme::m, Phoneme::n},    {Phoneme::n, Phoneme::ng},
    {Phoneme::l, Phoneme::r},    {Phoneme::l, Phoneme::w},
    {Phoneme::r, Phoneme::w},    {Phoneme::eh, Phoneme::ih},
    {Phoneme::eh, Phoneme::ae},  {Phoneme::eh, Phoneme::ey},
    {Phoneme::ih, Phoneme::iy},  {Phoneme::ae, Phoneme::ah},
    {Phoneme::aa, Phoneme::ah},  {Phoneme::aa, Phoneme::ao},
    {Phoneme::aa, Phoneme::ow},  {Phoneme::ah, Phoneme::uh},
    {Phoneme::uh, Phoneme::uw},  {Phoneme::ey, Phoneme::ay},
    {Phoneme::ey, Phoneme::iy},  {Phoneme::ay, Phoneme::oy},
    {Phoneme::ow, Phoneme::uw},  {Phoneme::ow, Phoneme::ao},
    {Phoneme::ow, Phoneme::aw},  {Phoneme::ao, Phoneme::oy},
    {Phoneme::er, Phoneme::r},   {Phoneme::axr, Phoneme::r},
    {Phoneme::er, Phoneme::axr}, {Phoneme::oh, Phoneme::ah},
    {Phoneme::oh, Phoneme::ao},  {Phoneme::oh, Phoneme::aa},
    {Phoneme::oh, Phoneme::ow},
};

}  // namespace

bool are_near(Phoneme a, Phoneme b) {
  return std::ranges::any_of(kNear, [&](const NearSounds& p) {
    return (p.a == a && p.b == b) || (p.a == b && p.b == a);
  });
}

}  // namespace sheaf
