/* What libjpeg-turbo is told of the compiler. */
#define BUILD ""
#define INLINE inline __attribute__((always_inline))
#define THREAD_LOCAL
#define PACKAGE_NAME "libjpeg-turbo"
#define VERSION "2.1.5"
#define SIZEOF_SIZE_T 4
#define HAVE_BUILTIN_CTZL
#define FALLTHROUGH __attribute__((fallthrough));
