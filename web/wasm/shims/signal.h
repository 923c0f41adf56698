// wasi-libc has signals only on request, and without what a program would block
// or catch them with. Here nothing sends any: the types are enough.
#ifndef SHEAF_SIGNAL_H
#define SHEAF_SIGNAL_H

#ifndef _WASI_EMULATED_SIGNAL
#define _WASI_EMULATED_SIGNAL
#endif
#include_next <signal.h>

#define __NEED_sigset_t
#include <bits/alltypes.h>

struct sigaction {
  void (*sa_handler)(int);
  sigset_t sa_mask;
  int sa_flags;
};

#endif
