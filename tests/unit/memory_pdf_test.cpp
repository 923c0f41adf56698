// A program of its own: it takes the place of malloc, for Sheaf and for the
// libraries alike, and lets chosen calls fail.

#include <gtest/gtest.h>

#include <cstdlib>
#include <new>
#include <string>

#include "base/error.h"
#include "pdf/pdf_writer.h"
#include "support/sample_document.h"
#include "support/small_font.h"

// The C library's own names.
// NOLINTBEGIN(bugprone-reserved-identifier)
extern "C" {
void* __libc_malloc(std::size_t size);
void* __libc_calloc(std::size_t count, std::size_t size);
void* __libc_realloc(void* old, std::size_t size);
}
// NOLINTEND(bugprone-reserved-identifier)

namespace {

// Which calls fail: none, one, or all from one on.
enum class Failing { none, one, all_after };
Failing failing = Failing::none;
long calls = 0;
long failing_call = 0;

bool call_fails() {
  if (failing == Failing::none) return false;
  ++calls;
  return failing == Failing::one ? calls == failing_call
                                 : calls >= failing_call;
}

}  // namespace

extern "C" {
void* malloc(std::size_t size) {
  return call_fails() ? nullptr : __libc_malloc(size);
}
void* calloc(std::size_t count, std::size_t size) {
  return call_fails() ? nullptr : __libc_calloc(count, size);
}
void* realloc(void* old, std::size_t size) {
  return call_fails() ? nullptr : __libc_realloc(old, size);
}
}

namespace sheaf {
namespace {

enum class End { written, clear_failure, bare_bad_alloc, other_bytes };

class Memory : public testing::Test {
 protected:
  Memory() : document(maker.one_of_everything()) {
    // A font with CFF outlines besides.
    std::string why;
    const testing_support::SmallFont blocks{.splits_e_acute = true};
    const Font* font =
        maker.library().add("Blocks", FontRole::regular, blocks.file(), why);
    GlyphRun apart = maker.run(*font, "caf\u00E9", 20);
    apart.tracking = Length::from_pt(2);
    document.pages[0].marks.push_back(
        GlyphMark{apart, {Length::from_pt(40), Length::from_pt(600)}});
    whole = write_pdf(document);
    failing = Failing::one;
    failing_call = 0;
    calls = 0;
    write_pdf(document);
    failing = Failing::none;
    needed = calls;
  }

  End write(Failing how, long call) {
    End end = End::written;
    std::string bytes;
    calls = 0;
    failing_call = call;
    failing = how;
    try {
      bytes = write_pdf(document);
    } catch (const MachineError&) {
      end = End::clear_failure;
    } catch (const std::bad_alloc&) {
      end = End::bare_bad_alloc;
    }
    failing = Failing::none;
    if (end == End::written && bytes != whole) end = End::other_bytes;
    return end;
  }

  testing_support::DocumentMaker maker{SHEAF_FONTS};
  Document document;
  std::string whole;
  long needed = 0;
};

// Some libraries can do without what they asked for; then the file must be the
// same. Never may a part of it come out.
TEST_F(Memory, RunningOutOnceEndsInOneClearFailure) {
  ASSERT_GT(needed, 1000);
  int failures = 0;
  for (long call = 1; call <= needed; ++call) {
    const End end = write(Failing::one, call);
    ASSERT_TRUE(end == End::written || end == End::clear_failure)
        << "call " << call << " of " << needed;
    if (end == End::clear_failure) ++failures;
  }
  EXPECT_GT(failures, needed / 2);
}

TEST_F(Memory, RunningOutForGoodEndsInOneClearFailure) {
  for (long call = 1; call <= needed; ++call) {
    ASSERT_EQ(write(Failing::all_after, call), End::clear_failure)
        << "call " << call << " of " << needed;
  }
}

}  // namespace
}  // namespace sheaf
