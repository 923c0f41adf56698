#include "fault/faults.h"

#include <dlfcn.h>
#include <sys/file.h>
#include <sys/prctl.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdarg>
#include <cstdlib>
#include <new>

// Under the sanitizers malloc is theirs, and only what C++ asks for can be made
// to fail; else everything can, the libraries' own memory too.
#if defined(__SANITIZE_ADDRESS__)
#define SHEAF_ONLY_NEW
#else
// The C library's own names.
// NOLINTBEGIN(bugprone-reserved-identifier)
extern "C" {
void* __libc_malloc(std::size_t size);
void* __libc_calloc(std::size_t count, std::size_t size);
void* __libc_realloc(void* old, std::size_t size);
}
// NOLINTEND(bugprone-reserved-identifier)
#endif

namespace sheaf::fault {

namespace {

// Threads of the program count together.
Point point;
std::atomic<bool> counting = false;
std::atomic<long> calls = 0, allocations = 0;
std::atomic<int> first_failed = -1;
AtPoint ask = nullptr;
Held held;
bool pretending = false, in_trial = false;

// What is done in between is not the program's.
void ask_at(Kind kind, long number, SystemCall call) {
  counting = false;
  ask(kind, number, call);
  counting = true;
}

bool is_hit(long number) {
  return point.for_good ? number >= point.number : number == point.number;
}

int fault_of(SystemCall call) {
  if (!counting) return 0;
  const long number = ++calls;
  if (ask != nullptr) ask_at(Kind::system_call, number, call);
  if (point.kind != Kind::system_call || !is_hit(number)) return 0;
  int none = -1;
  first_failed.compare_exchange_strong(none, static_cast<int>(call));
  return point.error;
}

bool allocation_fails() {
  if (!counting) return false;
  const long number = ++allocations;
  if (ask != nullptr) ask_at(Kind::allocation, number, SystemCall::open);
  return point.kind == Kind::allocation && is_hit(number);
}

}  // namespace

void set_point(const Point& next) {
  point = next;
  calls = allocations = 0;
  first_failed = -1;
  held = {};
  ask = nullptr;
  let_system_calls_fail(fault_of);
  counting = true;
}

void end_faults() {
  counting = false;
  let_system_calls_fail(nullptr);
}

long system_calls_made() { return calls; }
long allocations_made() { return allocations; }
SystemCall failed_call() {
  return static_cast<SystemCall>(first_failed.load());
}

bool own_call_fails(SystemCall call) {
  const int fault = fault_of(call);
  if (fault != 0) errno = fault;
  return fault != 0;
}

void ask_at_points(AtPoint next) { ask = next; }

void fail_at(const Point& next) {
  in_trial = true;
  point = next;
  first_failed = -1;
  ask = nullptr;
}

Held held_after() { return held; }
void pretend_to_hold() { pretending = true; }

NoFaults::NoFaults() : before_(counting) { counting = false; }
NoFaults::~NoFaults() { counting = before_; }

// What the program asks the kernel for by these is made here first.
namespace {

using Prctl = int (*)(int, ...);
using Syscall = long (*)(long, ...);
// Looked up before anything is counted.
const auto next_prctl = reinterpret_cast<Prctl>(::dlsym(RTLD_NEXT, "prctl"));
const auto next_close =
    reinterpret_cast<int (*)(int)>(::dlsym(RTLD_NEXT, "close"));
const auto next_syscall =
    reinterpret_cast<Syscall>(::dlsym(RTLD_NEXT, "syscall"));
constexpr long kRestrictFiles = 446;  // landlock_restrict_self

// The filter of calls is the last that is given up.
bool only_pretends(bool is_filter) {
  if (!counting) return false;
  if (is_filter) held = {calls, allocations};
  return pretending;
}

}  // namespace

}  // namespace sheaf::fault

extern "C" {
// Else the lock of a file would stay with the process that this one came from.
int close(int file) {
  if (sheaf::fault::in_trial) ::flock(file, LOCK_UN);
  return sheaf::fault::next_close(file);
}
int prctl(int option, ...) noexcept {
  va_list rest;
  va_start(rest, option);
  unsigned long values[4];
  for (unsigned long& value : values) value = va_arg(rest, unsigned long);
  va_end(rest);
  if (option == PR_SET_SECCOMP && sheaf::fault::only_pretends(true)) return 0;
  return sheaf::fault::next_prctl(option, values[0], values[1], values[2],
                                  values[3]);
}
long syscall(long number, ...) noexcept {
  va_list rest;
  va_start(rest, number);
  long values[6];
  for (long& value : values) value = va_arg(rest, long);
  va_end(rest);
  if (number == sheaf::fault::kRestrictFiles &&
      sheaf::fault::only_pretends(false)) {
    return 0;
  }
  return sheaf::fault::next_syscall(number, values[0], values[1], values[2],
                                    values[3], values[4], values[5]);
}
}

#ifdef SHEAF_ONLY_NEW

void* operator new(std::size_t size) {
  void* bytes = sheaf::fault::allocation_fails()
                    ? nullptr
                    : std::malloc(size == 0 ? 1 : size);
  if (bytes == nullptr) throw std::bad_alloc();
  return bytes;
}
void* operator new[](std::size_t size) { return operator new(size); }
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  return sheaf::fault::allocation_fails() ? nullptr
                                          : std::malloc(size == 0 ? 1 : size);
}
void* operator new[](std::size_t size, const std::nothrow_t& none) noexcept {
  return operator new(size, none);
}
void operator delete(void* bytes) noexcept { std::free(bytes); }
void operator delete[](void* bytes) noexcept { std::free(bytes); }
void operator delete(void* bytes, std::size_t) noexcept { std::free(bytes); }
void operator delete[](void* bytes, std::size_t) noexcept { std::free(bytes); }
void operator delete(void* bytes, const std::nothrow_t&) noexcept {
  std::free(bytes);
}
void operator delete[](void* bytes, const std::nothrow_t&) noexcept {
  std::free(bytes);
}

#else

namespace {

// As the C library says it.
bool lacks_memory() {
  if (!sheaf::fault::allocation_fails()) return false;
  errno = ENOMEM;
  return true;
}

}  // namespace

extern "C" {
void* malloc(std::size_t size) {
  return lacks_memory() ? nullptr : __libc_malloc(size);
}
void* calloc(std::size_t count, std::size_t size) {
  return lacks_memory() ? nullptr : __libc_calloc(count, size);
}
void* realloc(void* old, std::size_t size) {
  return lacks_memory() ? nullptr : __libc_realloc(old, size);
}
}

#endif
