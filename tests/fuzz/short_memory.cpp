#include "short_memory.h"

#include <cstddef>

// Memory comes from malloc, so that the address and leak checks still see every
// piece of it.

namespace {

constexpr std::int64_t kNever = -1;
// Allocations to go before one fails.
thread_local std::int64_t left = kNever;
thread_local bool for_good = false;
thread_local bool has_failed = false;

bool is_refused() {
  if (left < 0) return false;
  if (left-- > 0) return false;
  has_failed = true;
  if (for_good) left = 0;
  return true;
}

void* take(std::size_t size) {
  if (is_refused()) return nullptr;
  return std::malloc(size == 0 ? 1 : size);
}

void* take(std::size_t size, std::align_val_t align) {
  if (is_refused()) return nullptr;
  const auto step = static_cast<std::size_t>(align);
  return std::aligned_alloc(step, (size + step - 1) / step * step);
}

template <typename... Align>
void* take_or_throw(std::size_t size, Align... align) {
  void* const piece = take(size, align...);
  if (piece == nullptr) throw std::bad_alloc();
  return piece;
}

}  // namespace

namespace sheaf::fuzz {

ShortMemory::ShortMemory(std::uint8_t byte) {
  has_failed = false;
  for_good = (byte & 1U) != 0;
  left = kNever;
  if (byte < 128) return;
  // Three bits of where between two powers of two, three of the power.
  const unsigned power = (byte >> 4U & 7U) * 2 + 1;
  left = ((std::int64_t{8} | (byte >> 1U & 7U)) << power) / 16;
}

ShortMemory::~ShortMemory() { left = kNever; }

bool ShortMemory::failed() { return has_failed; }

}  // namespace sheaf::fuzz

void* operator new(std::size_t size) { return take_or_throw(size); }
void* operator new[](std::size_t size) { return take_or_throw(size); }
void* operator new(std::size_t size, std::align_val_t align) {
  return take_or_throw(size, align);
}
void* operator new[](std::size_t size, std::align_val_t align) {
  return take_or_throw(size, align);
}
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  return take(size);
}
void* operator new[](std::size_t size, const std::nothrow_t&) noexcept {
  return take(size);
}
void* operator new(std::size_t size, std::align_val_t align,
                   const std::nothrow_t&) noexcept {
  return take(size, align);
}
void* operator new[](std::size_t size, std::align_val_t align,
                     const std::nothrow_t&) noexcept {
  return take(size, align);
}

void operator delete(void* piece) noexcept { std::free(piece); }
void operator delete[](void* piece) noexcept { std::free(piece); }
void operator delete(void* piece, std::size_t) noexcept { std::free(piece); }
void operator delete[](void* piece, std::size_t) noexcept { std::free(piece); }
void operator delete(void* piece, std::align_val_t) noexcept {
  std::free(piece);
}
void operator delete[](void* piece, std::align_val_t) noexcept {
  std::free(piece);
}
void operator delete(void* piece, std::size_t, std::align_val_t) noexcept {
  std::free(piece);
}
void operator delete[](void* piece, std::size_t, std::align_val_t) noexcept {
  std::free(piece);
}
void operator delete(void* piece, const std::nothrow_t&) noexcept {
  std::free(piece);
}
void operator delete[](void* piece, const std::nothrow_t&) noexcept {
  std::free(piece);
}
void operator delete(void* piece, std::align_val_t,
                     const std::nothrow_t&) noexcept {
  std::free(piece);
}
void operator delete[](void* piece, std::align_val_t,
                       const std::nothrow_t&) noexcept {
  std::free(piece);
}
