#include "files/memory_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/error.h"
#include "base/shuffle.h"

namespace sheaf {

namespace {

// No disk has it, so that no file of a disk is taken for one of these.
constexpr std::uint64_t kDevice = ~std::uint64_t{0};

bool is_below(const FilePath& path, const FilePath& folder) {
  return std::mismatch(folder.begin(), folder.end(), path.begin(), path.end())
                 .first == folder.end() &&
         path != folder;
}

class OpenText final : public OpenFile {
 public:
  explicit OpenText(std::shared_ptr<const std::string> text)
      : text_(std::move(text)) {}
  std::uint64_t size() const override { return text_->size(); }
  std::string read(std::uint64_t begin, std::size_t most) const override {
    return begin < text_->size() ? text_->substr(begin, most) : std::string();
  }

 private:
  std::shared_ptr<const std::string> text_;
};

// The set is put into memory when it is finished.
class MemoryOutput final : public OutputFiles {
 public:
  explicit MemoryOutput(MemoryFiles& files) : files_(files) {}

  void check(const FilePath& target, const OwnForm& form,
             std::string_view way_out) override {
    check(target, InTheWay{form, {}, std::string(way_out)});
  }
  void add(const FilePath& target, std::string_view bytes, const OwnForm& form,
           std::string_view way_out) override {
    put({target, std::string(bytes), {form, {}, std::string(way_out)}});
  }
  void add_new(const FilePath& target, std::string_view bytes) override {
    put({target, std::string(bytes), {}});
  }
  void rewrite(const FilePath& target, std::string_view bytes,
               std::string before) override {
    put({target, std::string(bytes), {{}, std::move(before), {}}});
  }
  void finish() override {
    for (const Pending& one : pending_) check(one.target, one.allowed);
    for (Pending& one : pending_) {
      files_.put(one.target, std::move(one.bytes));
      ++placed_;
    }
    pending_.clear();
  }
  std::size_t placed() const override { return placed_; }

 private:
  struct Pending {
    FilePath target;
    std::string bytes;
    InTheWay allowed;
  };

  void check(const FilePath& target, const InTheWay& allowed) const {
    const Standing kind = files_.status(target).kind;
    if (kind == Standing::folder) {
      fail_to_write(target, "there is a folder of that name");
    }
    check_in_the_way(target, allowed, kind != Standing::none,
                     files_.open(target).get());
  }
  void put(Pending pending) {
    check(pending.target, pending.allowed);
    pending_.push_back(std::move(pending));
  }

  MemoryFiles& files_;
  std::vector<Pending> pending_;
  std::size_t placed_ = 0;
};

}  // namespace

FilePath MemoryFiles::absolute(const FilePath& path) const {
  return below_ != nullptr ? below_->absolute(path) : "/" / path;
}

FilePath MemoryFiles::program() const {
  return below_ != nullptr ? below_->program() : FilePath("/sheaf");
}

FilePath MemoryFiles::key(const FilePath& path) const {
  if (below_ != nullptr) {
    if (auto real = below_->real(path)) return *real;
    const FilePath parent = path.parent_path();
    const auto folder = below_->real(parent.empty() ? "." : parent);
    if (folder && path.has_filename()) return *folder / path.filename();
  }
  FilePath whole = absolute(path).lexically_normal();
  // "folder/" is the folder.
  if (!whole.has_filename() && whole.has_relative_path()) {
    whole = whole.parent_path();
  }
  return whole;
}

const MemoryFiles::Bytes* MemoryFiles::find(const FilePath& path) const {
  const auto found = files_.find(key(path));
  return found == files_.end() ? nullptr : &found->second;
}

bool MemoryFiles::has_folder(const FilePath& key) const {
  return std::ranges::any_of(files_, [&](const auto& file) {
    return file.second != nullptr && is_below(file.first, key);
  });
}

void MemoryFiles::put(const FilePath& path, std::string bytes) {
  files_[key(path)] = std::make_shared<const std::string>(std::move(bytes));
}

void MemoryFiles::forget(const FilePath& path) { files_.erase(key(path)); }

std::map<std::string, MemoryFiles::Bytes> MemoryFiles::all() const {
  std::map<std::string, Bytes> all;
  for (const auto& [path, bytes] : files_) {
    if (bytes != nullptr) all[path.string()] = bytes;
  }
  return all;
}

FileStatus MemoryFiles::status(const FilePath& path) const {
  const FilePath name = key(path);
  const auto found = files_.find(name);
  if (found != files_.end()) {
    if (found->second == nullptr) return {};
    return {Standing::file, kDevice, text_hash(name.string()), 1};
  }
  if (has_folder(name)) {
    return {Standing::folder, kDevice, text_hash(name.string()), 1};
  }
  return below_ != nullptr ? below_->status(path) : FileStatus();
}

FileStatus MemoryFiles::own_status(const FilePath& path) const {
  if (below_ == nullptr || find(path) != nullptr) return status(path);
  const FileStatus own = below_->own_status(path);
  return own.kind == Standing::none ? status(path) : own;
}

std::string MemoryFiles::read(const FilePath& path, std::size_t limit) const {
  const Bytes* bytes = find(path);
  if (bytes == nullptr && below_ != nullptr) return below_->read(path, limit);
  if (bytes == nullptr || *bytes == nullptr) {
    throw MachineError(fmt::format("cannot read {}: it is not {}",
                                   path.string(),
                                   has_folder(key(path)) ? "a file" : "there"));
  }
  return (*bytes)->substr(0, limit + 1);
}

std::unique_ptr<OpenFile> MemoryFiles::open(const FilePath& path) const {
  const Bytes* bytes = find(path);
  if (bytes == nullptr) {
    return below_ != nullptr ? below_->open(path) : nullptr;
  }
  if (*bytes == nullptr) return nullptr;
  return std::make_unique<OpenText>(*bytes);
}

KeptBytes MemoryFiles::keep(const std::string& name) const {
  const Bytes* bytes = find(name);
  if (bytes == nullptr && below_ != nullptr) return below_->keep(name);
  if (bytes == nullptr || *bytes == nullptr) {
    throw MachineError(fmt::format("cannot read {}: it is not there", name));
  }
  return {*bytes, **bytes};
}

std::vector<FilePath> MemoryFiles::list(const FilePath& folder) const {
  std::set<FilePath> found;
  if (below_ != nullptr && status(folder).kind == Standing::folder) {
    for (const FilePath& path : below_->list(folder)) {
      if (status(path).kind != Standing::none) found.insert(path);
    }
  }
  const FilePath whole = key(folder.empty() ? FilePath(".") : folder);
  for (const auto& [path, bytes] : files_) {
    if (bytes == nullptr || !is_below(path, whole)) continue;
    found.insert(folder / *path.lexically_relative(whole).begin());
  }
  return {found.begin(), found.end()};
}

std::optional<FilePath> MemoryFiles::real(const FilePath& path) const {
  if (status(path).kind == Standing::none) return std::nullopt;
  return key(path);
}

std::unique_ptr<OutputFiles> MemoryFiles::write() {
  return std::make_unique<MemoryOutput>(*this);
}

bool MemoryFiles::remove_file(const FilePath& path) {
  if (status(path).kind != Standing::file) return false;
  const FilePath name = key(path);
  files_.erase(name);
  const bool hides =
      below_ != nullptr && below_->status(path).kind != Standing::none;
  if (hides) files_[name] = nullptr;
  return true;
}

// A folder is there as far as something is in it.
bool MemoryFiles::remove_folder(const FilePath&) { return false; }

}  // namespace sheaf
