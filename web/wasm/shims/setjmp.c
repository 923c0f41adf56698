// What clang 19 calls for setjmp and longjmp with -wasm-enable-sjlj. The names,
// and that the object thrown with the tag of longjmp begins with the jump and
// its value, are an agreement with the compiler
// (llvm/lib/Target/WebAssembly/WebAssemblyLowerEmscriptenEHSjLj.cpp).
#include <setjmp.h>

void __wasm_setjmp(struct sheaf_jump* jump, unsigned place, void* call) {
  jump->call = call;
  jump->place = place;
}

// Which setjmp of this call a jump goes to; 0 where it goes further out.
unsigned __wasm_setjmp_test(struct sheaf_jump* jump, void* call) {
  return jump->call == call ? jump->place : 0;
}

void __wasm_longjmp(struct sheaf_jump* jump, int value) {
  jump->thrown.jump = jump;
  jump->thrown.value = value == 0 ? 1 : value;
  enum { kTagOfLongjmp = 1 };
  __builtin_wasm_throw(kTagOfLongjmp, &jump->thrown);
}
