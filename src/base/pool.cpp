#include "base/pool.h"

#include <algorithm>

#if defined(__wasm__) && !defined(_REENTRANT)  // as without -pthread
#define SHEAF_NO_THREADS
#else
#include <condition_variable>
#include <csignal>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>
#endif

namespace sheaf {

namespace {

void work_alone(std::size_t count,
                const std::function<void(int, std::size_t)>& work,
                const std::function<void(std::size_t)>& done) {
  for (std::size_t i = 0; i < count; ++i) {
    work(0, i);
    done(i);
  }
}

}  // namespace

#ifdef SHEAF_NO_THREADS

int cores() { return 1; }

void work_in_order(std::size_t count, int,
                   const std::function<void(int, std::size_t)>& work,
                   const std::function<void(std::size_t)>& done) {
  work_alone(count, work, done);
}

#else

namespace {

// Threads begun while it is there leave interrupts to the others.
class WithoutInterrupts {
 public:
  WithoutInterrupts() {
    sigset_t all;
    sigfillset(&all);
    ::pthread_sigmask(SIG_BLOCK, &all, &before_);
  }
  ~WithoutInterrupts() { ::pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
  WithoutInterrupts(const WithoutInterrupts&) = delete;
  WithoutInterrupts& operator=(const WithoutInterrupts&) = delete;

 private:
  sigset_t before_{};
};

class Pool {
 public:
  Pool(std::size_t count, std::size_t workers,
       const std::function<void(int, std::size_t)>& work)
      : count_(count), ahead_(workers * 2), work_(work), ended_(count) {
    threads_.reserve(workers);
    const WithoutInterrupts held;
    try {
      for (std::size_t i = 0; i < workers; ++i) {
        threads_.emplace_back([this, i] { run(static_cast<int>(i)); });
      }
    } catch (const std::exception&) {
      // The system has no more threads, or no memory for them: fewer will do.
    }
  }
  ~Pool() {
    {
      const std::lock_guard lock(lock_);
      begun_ = count_;
    }
    may_begin_.notify_all();
    for (std::thread& thread : threads_) thread.join();
  }
  Pool(const Pool&) = delete;
  Pool& operator=(const Pool&) = delete;

  bool has_workers() const { return !threads_.empty(); }

  void wait_for(std::size_t index) {
    std::unique_lock lock(lock_);
    has_ended_.wait(lock, [&] { return ended_[index].has_ended; });
    given_up_ = index + 1;
    may_begin_.notify_all();
    if (ended_[index].fault) std::rethrow_exception(ended_[index].fault);
  }

 private:
  struct End {
    bool has_ended = false;
    std::exception_ptr fault;
  };

  void run(int worker) {
    for (;;) {
      std::unique_lock lock(lock_);
      may_begin_.wait(lock, [&] {
        return begun_ >= count_ || begun_ < given_up_ + ahead_;
      });
      if (begun_ >= count_) return;
      const std::size_t index = begun_++;
      lock.unlock();
      std::exception_ptr fault;
      try {
        work_(worker, index);
      } catch (...) {
        fault = std::current_exception();
      }
      lock.lock();
      ended_[index] = {true, fault};
      has_ended_.notify_all();
    }
  }

  const std::size_t count_, ahead_;
  const std::function<void(int, std::size_t)>& work_;
  std::mutex lock_;
  std::condition_variable may_begin_, has_ended_;
  std::size_t begun_ = 0, given_up_ = 0;  // under the lock, as what follows
  std::vector<End> ended_;
  std::vector<std::thread> threads_;
};

}  // namespace

int cores() {
  return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

void work_in_order(std::size_t count, int workers,
                   const std::function<void(int, std::size_t)>& work,
                   const std::function<void(std::size_t)>& done) {
  const auto wanted = std::min<std::size_t>(
      static_cast<std::size_t>(std::max(workers, 1)), count);
  if (wanted <= 1) {
    work_alone(count, work, done);
    return;
  }
  Pool pool(count, wanted, work);
  if (!pool.has_workers()) {
    work_alone(count, work, done);
    return;
  }
  for (std::size_t i = 0; i < count; ++i) {
    pool.wait_for(i);
    done(i);
  }
}

#endif

}  // namespace sheaf
