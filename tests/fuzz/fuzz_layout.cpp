#include "fuzz_checks.h"
#include "input/layout_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  return sheaf::fuzz::run(data, size, sheaf::read_layout_file);
}
