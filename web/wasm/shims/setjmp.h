// wasi-libc has no setjmp. The compiler turns both calls into WebAssembly's
// exceptions, with the help of the functions in setjmp.c.
#ifndef SHEAF_SETJMP_H
#define SHEAF_SETJMP_H

#ifdef __cplusplus
extern "C" {
#endif

typedef struct sheaf_jump {
  void* call;      // the call of the function that setjmp stands in
  unsigned place;  // which setjmp of it
  struct {
    void* jump;
    int value;
  } thrown;
} jmp_buf[1];

int setjmp(jmp_buf jump) __attribute__((returns_twice));
void longjmp(jmp_buf jump, int value) __attribute__((noreturn));

#define setjmp setjmp

#ifdef __cplusplus
}
#endif

#endif
