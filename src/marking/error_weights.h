#pragma once

namespace sheaf {

/// How likely learners are to make an error where it can be made, beside
/// others, in thousandths. Ours; common practice tells their order.
namespace weight {
inline constexpr int kJoint = 600;  // hoping, makeing, babys
inline constexpr int kEndingBySound = 450;
inline constexpr int kApostrophe = 500;
inline constexpr int kNasalLost = 260;  // jup
inline constexpr int kBlendLost = 150;  // sop
inline constexpr int kLastOfBlendLost = 120;
inline constexpr int kShortNeighbour = 200;
inline constexpr int kBeforeR = 260;     // chrain
inline constexpr int kFronted = 220;     // fink
inline constexpr int kOneLetter = 200;   // ran, bot
inline constexpr int kSplitLost = 320;   // cak
inline constexpr int kTurned = 150;      // bish
inline constexpr int kOrder = 160;       // gril
inline constexpr int kSimpler = 500;     // duk
inline constexpr int kTakenApart = 400;  // siks, tabel
inline constexpr int kSchwa = 500;       // of the share
inline constexpr int kBaseLetter =
    800;  // an unusual place, but the sound's letter
inline constexpr int kUnusual = 200;
inline constexpr int kElsewhere = 200;  // cing; of the share
inline constexpr int kLeast = 20;
}  // namespace weight

}  // namespace sheaf
