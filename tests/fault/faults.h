#pragma once

#include <cstddef>

#include "files/system_calls.h"

namespace sheaf::fault {

/// What may fail: a call of the system, or memory that is asked for.
enum class Kind { none, system_call, allocation };

/// One point at which a run meets a fault: the call with this number, counted
/// from 1, and with `for_good` all calls after it.
struct Point {
  Kind kind = Kind::none;
  long number = 0;
  bool for_good = false;
  int error = 0;  ///< of a system call, as in errno
};

/// From now on calls are counted anew and fail as the point says.
void set_point(const Point& point);
/// From now on no call fails; they are counted no more.
void end_faults();
/// How many calls of each kind there were since the point was set.
long system_calls_made();
long allocations_made();
/// What the call was that failed first.
SystemCall failed_call();
/// Counts a call that the tests make for the program (what it prints), and
/// whether it is to fail; errno says why.
bool own_call_fails(SystemCall call);

/// Asked at every call of the system and every allocation before it is made:
/// whether this is a point to be tried in a process of its own. Of an
/// allocation, `call` says nothing. See one_run.h.
using AtPoint = void (*)(Kind kind, long number, SystemCall call);
void ask_at_points(AtPoint ask);
/// The calling process meets this fault, and is asked no more; its calls are
/// counted on.
void fail_at(const Point& point);

/// How many calls there were when the verb had given up what it does not need
/// (see files/confine.h); 0 where it never did.
struct Held {
  long system_calls = 0, allocations = 0;
};
Held held_after();
/// From now on the kernel is not asked to hold this process to anything, so
/// that it can begin others. Nothing else is different.
void pretend_to_hold();

/// Faults wait while one lives: what a test does in between is its own.
class NoFaults {
 public:
  NoFaults();
  ~NoFaults();
  NoFaults(const NoFaults&) = delete;
  NoFaults& operator=(const NoFaults&) = delete;

 private:
  bool before_;
};

}  // namespace sheaf::fault
