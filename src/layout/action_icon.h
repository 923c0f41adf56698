#pragma once

#include "layout/block.h"

namespace sheaf {

/// What a learner is to do, as a small picture beside the direction, for those
/// who cannot read yet.
enum class Action { none, look, listen, say, tap, write, read, cut };

/// Draws it into a square of `side` with its top left corner at `at`, as
/// decoration: the direction says the same in words.
void draw_action(Block& block, Action action, Point at, Length side,
                 ElementId element = kDecoration);

/// A small ear where a learner hears a word that no picture shows, heard as
/// "an ear: listen for the word".
void draw_ear(Composer& composer, Block& block, Point at, Length side,
              ElementId parent);

}  // namespace sheaf
