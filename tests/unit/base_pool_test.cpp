#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <vector>

#include "base/pool.h"

namespace sheaf {
namespace {

TEST(Pool, GivesUpResultsInOrderWhateverTheWorkers) {
  for (const int workers : {0, 1, 2, 7, 300}) {
    std::vector<std::size_t> made(200), seen;
    work_in_order(
        made.size(), workers,
        [&](int, std::size_t i) {
          // The first of each ten take longest.
          volatile std::size_t sum = 0;
          for (std::size_t k = 0; k < (10 - i % 10) * 20000; ++k) sum = sum + k;
          made[i] = i * i;
        },
        [&](std::size_t i) { seen.push_back(made[i]); });
    ASSERT_EQ(seen.size(), made.size()) << workers;
    for (std::size_t i = 0; i < seen.size(); ++i) EXPECT_EQ(seen[i], i * i);
  }
}

TEST(Pool, AWorkerDoesOnePieceAtATime) {
  std::vector<std::atomic<int>> busy(4);
  bool twice = false;
  work_in_order(
      400, 4,
      [&](int worker, std::size_t) {
        auto& own = busy[static_cast<std::size_t>(worker)];
        if (own.fetch_add(1) != 0) twice = true;
        own.fetch_sub(1);
      },
      [](std::size_t) {});
  EXPECT_FALSE(twice);
}

TEST(Pool, WhatIsThrownComesInItsPlace) {
  for (const int workers : {1, 3}) {
    std::vector<std::size_t> seen;
    std::atomic<int> begun = 0;
    const auto run = [&] {
      work_in_order(
          1000, workers,
          [&](int, std::size_t i) {
            ++begun;
            if (i == 5) throw std::runtime_error("five");
          },
          [&](std::size_t i) { seen.push_back(i); });
    };
    EXPECT_THROW(run(), std::runtime_error);
    EXPECT_EQ(seen, (std::vector<std::size_t>{0, 1, 2, 3, 4}));
    EXPECT_LT(begun, 50);
  }
}

TEST(Pool, NothingToDoIsDone) {
  work_in_order(
      0, 4, [](int, std::size_t) { FAIL(); }, [](std::size_t) { FAIL(); });
  EXPECT_GE(cores(), 1);
}

}  // namespace
}  // namespace sheaf
