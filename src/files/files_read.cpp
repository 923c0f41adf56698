#include "files/files_read.h"

#include "base/shuffle.h"

namespace sheaf {

void FilesRead::add(const std::string& path, std::string_view bytes) {
  add_known(path, text_hash(bytes));
}

void FilesRead::add_known(const std::string& path, std::uint64_t digest) {
  known_[path] = digest;
  fresh_.insert(path);
}

void FilesRead::add_missing(const std::string& path) {
  known_[path] = std::nullopt;
  fresh_.insert(path);
}

std::vector<FilesRead::Entry> FilesRead::take() {
  std::vector<Entry> taken;
  for (const std::string& path : fresh_) taken.push_back({path, known_[path]});
  fresh_.clear();
  return taken;
}

void FilesRead::add_all(const FilesRead& others) {
  known_.insert(others.known_.begin(), others.known_.end());
}

std::set<std::string> FilesRead::all() const {
  std::set<std::string> paths;
  for (const auto& [path, digest] : known_) {
    if (digest) paths.insert(path);
  }
  return paths;
}

}  // namespace sheaf
