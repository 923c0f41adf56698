#include "base/fixes.h"

#include <algorithm>

namespace sheaf {

MendedText with_fixes(std::string_view text, std::vector<Fix> fixes) {
  std::ranges::stable_sort(fixes, {},
                           [](const Fix& fix) { return fix.span.begin; });
  MendedText mended;
  std::size_t done = 0;  // how much of the text has been taken over
  for (Fix& fix : fixes) {
    const std::size_t begin = fix.span.begin;
    const std::size_t end = fix.span.end;
    const bool together = !mended.put_in.empty() &&
                          mended.put_in.back().span.begin == fix.span.begin;
    if (begin < done || end < begin || end > text.size() || together) continue;
    mended.text += text.substr(done, begin - done);
    mended.text += fix.replacement;
    done = end;
    mended.put_in.push_back(std::move(fix));
  }
  mended.text += text.substr(done);
  return mended;
}

}  // namespace sheaf
