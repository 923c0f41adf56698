// All patterns, as somebody looks for one who knows it by another name.

#include <algorithm>

#include "phonics/pattern_terms.h"
#include "phonics/pattern_text.h"
#include "service/service.h"

namespace sheaf {

std::vector<PatternEntry> Service::patterns() {
  const auto all = ground_->phonics().patterns().all();
  std::vector<std::string_view> families;
  for (const Pattern& p : all) {
    if (std::ranges::find(families, p.family) == families.end()) {
      families.push_back(p.family);
    }
  }
  std::vector<PatternEntry> entries;
  for (const std::string_view family : families) {
    for (const Pattern& p : all) {
      if (p.family != family) continue;
      std::string terms;
      for (const PatternTerm& term : pattern_terms()) {
        if (std::ranges::find(term.ids, p.id) == term.ids.end()) continue;
        for (const std::string_view name : term.terms) {
          terms += (terms.empty() ? "" : ", ") + std::string(name);
        }
      }
      const PatternText* const text = find_pattern_text(p.id);
      entries.push_back({std::string(p.id), std::string(p.name),
                         std::string(p.family), std::string(p.remark),
                         std::move(terms),
                         text == nullptr ? "" : std::string(text->teacher)});
    }
  }
  return entries;
}

}  // namespace sheaf
