#pragma once

#include <atomic>

#include "base/error.h"
#include "files/files.h"

namespace sheaf::testing_support {

/// Files of which one call fails: the one with the number `failing`, counted
/// from 0. With none, all go well and are counted.
class FaultyFiles final : public Files {
 public:
  static constexpr int kNone = -1;

  explicit FaultyFiles(Files& below, int failing = kNone)
      : below_(below), failing_(failing) {}
  int calls() const { return calls_; }

  FileStatus status(const FilePath& path) const override {
    count(path);
    return below_.status(path);
  }
  FileStatus own_status(const FilePath& path) const override {
    count(path);
    return below_.own_status(path);
  }
  std::string read(const FilePath& path, std::size_t limit) const override {
    count(path);
    return below_.read(path, limit);
  }
  std::unique_ptr<OpenFile> open(const FilePath& path) const override {
    count(path);
    return below_.open(path);
  }
  KeptBytes keep(const std::string& name) const override {
    count(name);
    return below_.keep(name);
  }
  std::vector<FilePath> list(const FilePath& folder) const override {
    count(folder);
    return below_.list(folder);
  }
  std::optional<FilePath> real(const FilePath& path) const override {
    count(path);
    return below_.real(path);
  }
  FilePath absolute(const FilePath& path) const override {
    return below_.absolute(path);
  }
  FilePath program() const override { return below_.program(); }
  std::unique_ptr<OutputFiles> write() override { return below_.write(); }
  bool remove_file(const FilePath& path) override {
    count(path);
    return below_.remove_file(path);
  }
  bool remove_folder(const FilePath& path) override {
    count(path);
    return below_.remove_folder(path);
  }

 private:
  void count(const FilePath& path) const {
    if (calls_++ != failing_) return;
    throw MachineError("the disk fails at " + path.string());
  }

  Files& below_;
  int failing_;
  mutable std::atomic<int> calls_ = 0;
};

}  // namespace sheaf::testing_support
