#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "lexicon/derived_words.h"
#include "lexicon/word_table.h"

namespace sheaf {

/// Takes out of the lists what they have of irregular words made regular
/// (mouses, knifes, payed): teachers take it for a mistake. Words that are
/// right for another reason stay: leaded, seed.
void drop_wrong_forms(LexiconSources& sources);

/// Calls with the records of each word of the lists that is not known yet and
/// is a known word with an ending, put on by the rules of ending_rules.h; then
/// with the plurals of our own words that no list has. With this the program
/// itself never has to make a form to know it. `known` has all records so far.
void each_listed_form(
    const LexiconSources& sources, const Inventory& inventory,
    std::map<std::string, WordDeriver::Records> known,
    const WordDeriver::Label& label,
    const std::function<void(const WordDeriver::Records&)>& call);

}  // namespace sheaf
