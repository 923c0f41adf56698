// Where one thread is all there is, what it keeps ends with the program.

extern "C" int __cxa_atexit(void (*end)(void*), void* object, void* module);

extern "C" int __cxa_thread_atexit(void (*end)(void*), void* object,
                                   void* module) {
  return __cxa_atexit(end, object, module);
}
