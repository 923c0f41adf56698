// Run once when the libraries are built: whether what the browser edition leans
// on works, before three minutes are spent on Sheaf. Prints what does not and
// ends with 1.

#include <fmt/format.h>

#include <charconv>
#include <csetjmp>
#include <cstdio>
#include <limits>
#include <mutex>
#include <stdexcept>
#include <string>
#include <string_view>

namespace {

int faults = 0;

void expect(bool holds, const char* what) {
  if (holds) return;
  std::printf("%s\n", what);
  ++faults;
}

struct Ended {
  explicit Ended(int& count) : count_(count) {}
  ~Ended() { ++count_; }
  int& count_;
};

void exceptions() {
  int ended = 0;
  std::string caught;
  try {
    try {
      const Ended inner(ended);
      throw std::runtime_error("thrown");
    } catch (const std::logic_error&) {
      caught = "another kind";
    }
  } catch (const std::exception& fault) {
    caught = fault.what();
  }
  expect(caught == "thrown" && ended == 1, "exceptions are not caught");
}

std::jmp_buf jump;
[[gnu::noinline]] void leap(int value) { std::longjmp(jump, value); }

void jumps() {
  volatile int calls = 0;
  const int came = setjmp(jump);
  calls = calls + 1;
  if (came < 3) leap(came + 1);
  expect(came == 3 && calls == 4, "setjmp and longjmp do not work");
}

struct Number {
  std::string_view text;
  std::chars_format format;
  std::size_t read;  // characters
  double value;
  std::errc fault;
};

void numbers() {
  constexpr auto kFixed = std::chars_format::fixed;
  constexpr auto kGeneral = std::chars_format::general;
  constexpr auto kScientific = std::chars_format::scientific;
  constexpr double kUntouched = 7;
  const Number numbers[] = {
      {"12.25mm", kFixed, 5, 12.25, {}},
      {"-.5", kFixed, 3, -0.5, {}},
      {"5.", kGeneral, 2, 5, {}},
      {"0.1", kGeneral, 3, 0.1, {}},
      {"1e5", kGeneral, 3, 1e5, {}},
      {"1e5", kFixed, 1, 1, {}},
      {"1e+", kGeneral, 1, 1, {}},
      {"0x10", kGeneral, 1, 0, {}},
      {"0e-999", kGeneral, 6, 0, {}},
      {"1.5", kScientific, 0, kUntouched, std::errc::invalid_argument},
      {"+1", kFixed, 0, kUntouched, std::errc::invalid_argument},
      {" 1", kFixed, 0, kUntouched, std::errc::invalid_argument},
      {"-.", kFixed, 0, kUntouched, std::errc::invalid_argument},
      {"", kFixed, 0, kUntouched, std::errc::invalid_argument},
      {"1e999", kGeneral, 5, kUntouched, std::errc::result_out_of_range},
      {"1e-999", kGeneral, 6, kUntouched, std::errc::result_out_of_range},
      {"-inf", kFixed, 4, -std::numeric_limits<double>::infinity(), {}},
  };
  for (const auto& [text, format, read, value, fault] : numbers) {
    double found = kUntouched;
    const auto result = std::from_chars(text.data(), text.data() + text.size(),
                                        found, format);
    const bool holds = result.ec == fault && found == value &&
                       result.ptr == text.data() + read;
    expect(holds, fmt::format("\"{}\" is not read as a number should be, but "
                              "as {}", text, found).c_str());
  }
}

}  // namespace

int main() {
  exceptions();
  jumps();
  numbers();
  std::mutex lock;
  const std::lock_guard held(lock);
  return faults == 0 ? 0 : 1;
}
