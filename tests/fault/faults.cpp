#include "fault/faults.h"

#include <atomic>
#include <cerrno>
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
std::atomic<bool> writing = false;
AtAllocation ask = nullptr;

bool is_hit(long number) {
  return point.for_good ? number >= point.number : number == point.number;
}

int fault_of(SystemCall call) {
  if (!counting) return 0;
  if (call == SystemCall::make || call == SystemCall::mkdir) writing = true;
  const long number = ++calls;
  if (point.kind != Kind::system_call || !is_hit(number)) return 0;
  int none = -1;
  first_failed.compare_exchange_strong(none, static_cast<int>(call));
  return point.error;
}

bool allocation_fails() {
  if (!counting) return false;
  const long number = ++allocations;
  if (ask != nullptr && !writing) {
    counting = false;
    ask(number);
    counting = true;
  }
  return point.kind == Kind::allocation && is_hit(number);
}

}  // namespace

void set_point(const Point& next) {
  point = next;
  calls = allocations = 0;
  first_failed = -1;
  writing = false;
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

void ask_at_allocations(AtAllocation next) { ask = next; }

void fail_now(bool for_good) {
  point = {Kind::allocation, allocations, for_good, 0};
  ask = nullptr;
}

bool began_to_write() { return writing; }

NoFaults::NoFaults() : before_(counting) { counting = false; }
NoFaults::~NoFaults() { counting = before_; }

}  // namespace sheaf::fault

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
