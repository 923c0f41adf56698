#pragma once

// The checks of the debug build for lost memory begin a process when this one
// ends, which traces it and reads /proc. No other build does that, so what
// would keep them from it is left out there alone.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define SHEAF_CHECKED
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define SHEAF_CHECKED
#endif
#endif

namespace sheaf {

#ifdef SHEAF_CHECKED
inline constexpr bool kHasChecks = true;
#else
inline constexpr bool kHasChecks = false;
#endif

/// Has the kernel refuse all calls to it that no verb needs (seccomp), for this
/// process and the threads that it begins. False where it cannot. See
/// confine.h, which is the way to it.
bool refuse_calls();

}  // namespace sheaf
