// Words with an apostrophe or a hyphen, made from their parts.

#include "lexicon/derived_words.h"
#include "phonics/derive.h"

namespace sheaf {

// girl's, and twenty-one part by part.
WordDeriver::Records WordDeriver::with_sign(const std::string& word,
                                            int depth) {
  constexpr std::string_view kPossessive = "'s";
  if (word.ends_with(kPossessive)) {
    const std::string base = word.substr(0, word.size() - kPossessive.size());
    const Records* bases = known(base, depth);
    Records made;
    for (std::size_t i = 0; bases != nullptr && i < bases->size(); ++i) {
      auto record = derive_record(word, base + "s",
                                  {Ending::possessive, Joint::plain, base},
                                  (*bases)[i], label_((*bases)[i]), inventory_);
      if (record) made.push_back(std::move(*record));
    }
    return made;
  }
  const std::size_t hyphen = word.find('-');
  if (hyphen == std::string::npos) return {};
  // Prefixes stand in the supplement with their hyphen: co-.
  const Records* first = find_(word.substr(0, hyphen + 1));
  const bool prefix = first != nullptr;
  if (!prefix) first = known(word.substr(0, hyphen), depth);
  const std::string behind = word.substr(hyphen + 1);
  const Records* rest = known(behind, depth);
  if (rest == nullptr) {
    const Records& made = make(behind, depth + 1);
    if (!made.empty()) rest = &made;
  }
  if (first == nullptr || rest == nullptr) return {};
  WordRecord begin = first->front();
  if (prefix) begin.spelling = word.substr(0, hyphen);
  WordRecord record = join_records(begin, rest->front(), word, inventory_);
  record.label = 0;
  return {record};
}

}  // namespace sheaf
