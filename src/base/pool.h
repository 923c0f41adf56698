#pragma once

#include <cstddef>
#include <functional>

namespace sheaf {

/// The cores of the machine, at least 1; 1 where there are no threads.
int cores();

/// Does `count` pieces of work, some at the same time, and gives up their
/// results in their order.
///
/// `work(worker, index)` runs on one of `workers` threads, numbered from 0; no
/// two of one number run at once, so that each may have things of its own. The
/// pieces are begun in order. `done(index)` runs on the calling thread, in
/// order, as soon as that piece and those before it are done; little more is
/// worked ahead than is needed to keep the workers busy. What `work` throws is
/// thrown again in place of `done`, on the calling thread, and nothing more is
/// begun. With one worker all of it runs on the calling thread, piece by piece.
///
/// Interrupts go to the calling thread only.
void work_in_order(std::size_t count, int workers,
                   const std::function<void(int, std::size_t)>& work,
                   const std::function<void(std::size_t)>& done);

}  // namespace sheaf
