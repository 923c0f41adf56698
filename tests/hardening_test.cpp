// What the compiler and the linker were to put into the program
// (cmake/hardening.cmake), read from its ELF file (System V ABI, chapters 4 and
// 5, and the GNU additions to them).

#include <elf.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cstring>
#include <string>
#include <string_view>
#include <vector>

#include "support/run_program.h"

namespace sheaf {
namespace {

/// The program's file, for machines of 64 bits.
class Elf {
 public:
  explicit Elf(const std::string& path)
      : bytes_(testing_support::file_bytes(path)) {
    head_ = at<Elf64_Ehdr>(0);
    for (std::size_t i = 0; i < head_.e_phnum; ++i) {
      parts_.push_back(at<Elf64_Phdr>(head_.e_phoff + i * head_.e_phentsize));
    }
    for (std::size_t i = 0; i < head_.e_shnum; ++i) {
      sections_.push_back(
          at<Elf64_Shdr>(head_.e_shoff + i * head_.e_shentsize));
    }
  }

  bool is_elf() const {
    return bytes_.starts_with(std::string_view(ELFMAG, SELFMAG)) &&
           bytes_[EI_CLASS] == ELFCLASS64;
  }
  const Elf64_Ehdr& head() const { return head_; }
  const std::vector<Elf64_Phdr>& parts() const { return parts_; }
  const Elf64_Phdr* part(std::uint32_t type) const {
    const auto found = std::ranges::find(parts_, type, &Elf64_Phdr::p_type);
    return found == parts_.end() ? nullptr : &*found;
  }
  /// A value of the dynamic section; 0 where there is none.
  std::uint64_t dynamic(std::int64_t tag) const {
    const Elf64_Phdr* part = this->part(PT_DYNAMIC);
    if (part == nullptr) return 0;
    for (std::uint64_t i = 0; i < part->p_filesz / sizeof(Elf64_Dyn); ++i) {
      const auto entry = at<Elf64_Dyn>(part->p_offset + i * sizeof(Elf64_Dyn));
      if (entry.d_tag == tag) return entry.d_un.d_val;
    }
    return 0;
  }
  /// What the program takes from libraries, or gives to them.
  std::vector<std::string> symbols() const {
    std::vector<std::string> names;
    for (const Elf64_Shdr& section : sections_) {
      if (section.sh_type != SHT_DYNSYM) continue;
      const Elf64_Shdr& text = sections_.at(section.sh_link);
      for (std::uint64_t i = 0; i < section.sh_size / sizeof(Elf64_Sym); ++i) {
        const auto symbol =
            at<Elf64_Sym>(section.sh_offset + i * sizeof(Elf64_Sym));
        names.emplace_back(bytes_.data() + text.sh_offset + symbol.st_name);
      }
    }
    return names;
  }

 private:
  template <typename T>
  T at(std::uint64_t place) const {
    T value{};
    if (place + sizeof(T) <= bytes_.size()) {
      std::memcpy(&value, bytes_.data() + place, sizeof(T));
    }
    return value;
  }

  std::string bytes_;
  Elf64_Ehdr head_{};
  std::vector<Elf64_Phdr> parts_;
  std::vector<Elf64_Shdr> sections_;
};

class Hardening : public testing::Test {
 protected:
  void SetUp() override { ASSERT_TRUE(program_.is_elf()); }
  const Elf program_{SHEAF_PROGRAM};
};

TEST_F(Hardening, LiesElsewhereInEachRun) {
  EXPECT_EQ(program_.head().e_type, ET_DYN);
  EXPECT_TRUE(program_.dynamic(DT_FLAGS_1) & DF_1_PIE);
}

TEST_F(Hardening, IsBoundBeforeItBegins) {
  EXPECT_NE(program_.part(PT_GNU_RELRO), nullptr);
  EXPECT_TRUE(program_.dynamic(DT_FLAGS_1) & DF_1_NOW);
}

TEST_F(Hardening, HasNothingToWriteThatCanBeRun) {
  const Elf64_Phdr* stack = program_.part(PT_GNU_STACK);
  ASSERT_NE(stack, nullptr);
  EXPECT_FALSE(stack->p_flags & PF_X);
  for (const Elf64_Phdr& part : program_.parts()) {
    if (part.p_type != PT_LOAD) continue;
    EXPECT_FALSE((part.p_flags & PF_W) && (part.p_flags & PF_X));
  }
}

TEST_F(Hardening, GuardsItsStackAndItsCopies) {
  const std::vector<std::string> symbols = program_.symbols();
  const auto has = [&](std::string_view name) {
    return std::ranges::find(symbols, name) != symbols.end();
  };
  EXPECT_TRUE(has("__stack_chk_fail"));
  const bool checks_copies =
      std::ranges::any_of(symbols, [](const std::string& name) {
        return name.starts_with("__") && name.ends_with("_chk");
      });
  EXPECT_TRUE(checks_copies);
}

}  // namespace
}  // namespace sheaf
