#pragma once

#include <optional>

#include "phonics/word_record.h"

namespace sheaf {

/// A reading as an accent outside America has it, made from General American's
/// (or from one that the accent has already); nothing where it has the same.
/// From memory of the accents' common descriptions:
/// - dictionary, territory, cemetery: a weak vowel before the r of -ary, -ory
///   and -ery, where America has a full one; so in their forms, of which
///   necessarily is said with a full one too. Not where it alone has stress
///   (canary), nor in -story and -glory;
/// - organization: the i before -sation and -zation is long;
/// - version, excursion: /sh/ behind r (british, scottish).
std::optional<WordRecord> say_outside_america(const WordRecord& record,
                                              Accent accent,
                                              const Inventory& inventory);

}  // namespace sheaf
