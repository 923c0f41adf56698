// The words of the form of files about learners are known where it is decided
// what of them may be shown.

#include <gtest/gtest.h>

#include "base/private_text.h"
#include "input/class_file.h"
#include "input/record_file.h"

namespace sheaf {
namespace {

TEST(PrivateKeys, AreAllShown) {
  for (const auto& keys :
       {class_keys(), learner_keys(), learner_own_keys(), record_keys()}) {
    for (const KeyNote& key : keys) {
      EXPECT_TRUE(is_form_word(key.name)) << key.name;
    }
  }
  for (const char* key : {"learners", "groups", "records", "sheaf"}) {
    EXPECT_TRUE(is_form_word(key)) << key;
  }
}

}  // namespace
}  // namespace sheaf
