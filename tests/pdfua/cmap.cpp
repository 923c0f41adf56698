#include "pdfua/cmap.h"

#include <algorithm>
#include <cstdlib>
#include <set>
#include <vector>

#include <qpdf/QPDFTokenizer.hh>

namespace pdfua {

namespace {

using Token = QPDFTokenizer::Token;

std::vector<Token> tokens_of(const std::string& program) {
  std::vector<Token> tokens;
  QPDFTokenizer tokenizer;
  tokenizer.allowEOF();
  const auto take = [&] {
    Token token;
    bool unread = false;
    char c = 0;
    if (tokenizer.getToken(token, unread, c)) {
      if (token.getType() != QPDFTokenizer::tt_eof) tokens.push_back(token);
      if (unread) tokenizer.presentCharacter(c);
    }
  };
  for (const char c : program) {
    tokenizer.presentCharacter(c);
    take();
  }
  tokenizer.presentEOF();
  take();
  return tokens;
}

std::uint32_t number(const std::string& bytes) {
  std::uint32_t value = 0;
  for (const char c : bytes) {
    value = value << 8U | static_cast<unsigned char>(c);
  }
  return value;
}

std::u16string utf16(const std::string& bytes) {
  std::u16string text;
  for (std::size_t i = 0; i + 1 < bytes.size(); i += 2) {
    text += static_cast<char16_t>(number(bytes.substr(i, 2)));
  }
  return text;
}

class Reader {
 public:
  explicit Reader(const std::string& program) : tokens_(tokens_of(program)) {}

  CMap read() {
    for (at_ = 0; at_ < tokens_.size(); ++at_) {
      const std::string word = tokens_[at_].getValue();
      if (tokens_[at_].getType() == QPDFTokenizer::tt_name &&
          word == "/WMode" && at_ + 1 < tokens_.size()) {
        cmap_.writing_mode = std::atoi(value(at_ + 1).c_str());
      }
      if (tokens_[at_].getType() != QPDFTokenizer::tt_word) continue;
      if (word == "usecmap" && at_ > 0) {
        cmap_.used = value(at_ - 1).substr(1);
      } else if (word == "begincodespacerange" && at_ + 1 < tokens_.size()) {
        cmap_.code_bytes = static_cast<int>(value(at_ + 1).size());
      } else if (word == "begincidchar") {
        block(2, [&] { cmap_.cids[code(0)] = integer(1); });
      } else if (word == "begincidrange") {
        block(3, [&] {
          range([&](std::uint32_t code, std::uint32_t above) {
            cmap_.cids[code] = integer(2) + above;
          });
        });
      } else if (word == "beginbfchar") {
        block(2, [&] { cmap_.texts[code(0)] = utf16(value(at_ + 1)); });
      } else if (word == "beginbfrange") {
        block(3, [&] {
          range([&](std::uint32_t code, std::uint32_t above) {
            std::u16string text = utf16(value(at_ + 2));
            if (!text.empty()) {
              text.back() = static_cast<char16_t>(text.back() + above);
            }
            cmap_.texts[code] = text;
          });
        });
      }
    }
    return cmap_;
  }

 private:
  std::string value(std::size_t at) const { return tokens_[at].getValue(); }
  std::uint32_t code(std::size_t offset) const {
    return number(value(at_ + offset));
  }
  std::uint32_t integer(std::size_t offset) const {
    return static_cast<std::uint32_t>(std::atoi(value(at_ + offset).c_str()));
  }

  // Entries of `size` tokens up to the word that ends the block.
  template <typename Entry>
  void block(std::size_t size, Entry entry) {
    ++at_;
    while (at_ + size <= tokens_.size() &&
           tokens_[at_].getType() == QPDFTokenizer::tt_string) {
      entry();
      at_ += size;
    }
  }
  template <typename Set>
  void range(Set set) {
    const std::uint32_t first = code(0);
    const std::uint32_t last = std::min(code(1), first + 65535);
    for (std::uint32_t i = first; i <= last; ++i) set(i, i - first);
  }

  std::vector<Token> tokens_;
  std::size_t at_ = 0;
  CMap cmap_;
};

}  // namespace

CMap read_cmap(const std::string& program) { return Reader(program).read(); }

bool is_predefined_cmap(const std::string& name) {
  static const std::set<std::string> names = [] {
    std::set<std::string> all = {"83pv-RKSJ-H", "90pv-RKSJ-H", "KSCpc-EUC-H",
                                 "H", "V"};
    for (const char* stem :
         {"Identity",    "GB-EUC",         "GBpc-EUC",     "GBK-EUC",
          "GBKp-EUC",    "GBK2K",          "UniGB-UCS2",   "UniGB-UTF16",
          "B5pc",        "HKscs-B5",       "ETen-B5",      "ETenms-B5",
          "CNS-EUC",     "UniCNS-UCS2",    "UniCNS-UTF16", "90ms-RKSJ",
          "90msp-RKSJ",  "Add-RKSJ",       "EUC",          "Ext-RKSJ",
          "UniJIS-UCS2", "UniJIS-UCS2-HW", "UniJIS-UTF16", "KSC-EUC",
          "KSCms-UHC",   "KSCms-UHC-HW",   "UniKS-UCS2",   "UniKS-UTF16"}) {
      all.insert(std::string(stem) + "-H");
      all.insert(std::string(stem) + "-V");
    }
    return all;
  }();
  return names.count(name) > 0;
}

}  // namespace pdfua
