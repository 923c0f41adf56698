#pragma once

#include "layout/block.h"
#include "marking/growth.h"

namespace sheaf {

/// Adds the probes as a plot for the teacher: letter sequences with trend and
/// goal line above, words below, so tall as the page has room, at least 60 mm;
/// then what it means. Where there are no probes it says what to do instead.
void add_growth(Composer& composer, const Growth& growth);

/// The words of the probes alone, for learner and parents: no lines but that
/// through the points. To be asked only where there are two probes or more.
void add_growth_picture(Composer& composer, const Growth& growth,
                        Length height);

}  // namespace sheaf
