#include "pdf/deflate.h"

#include <atomic>
#include <cassert>
#include <cstdint>
#include <limits>
#include <unordered_map>

#include "base/error.h"

#include <libdeflate.h>

namespace sheaf {

namespace {

// What is kept is given up when it grows beyond this: one document with many
// large drawings must not hold on to all of them.
constexpr std::size_t kMaxKept = 4U << 20;

// What a PDF can state as a length without doubt.
constexpr std::size_t kMaxStream = std::numeric_limits<std::int32_t>::max();

}  // namespace

struct Deflater::Impl {
  struct Free {
    void operator()(libdeflate_compressor* c) const {
      libdeflate_free_compressor(c);
    }
  };
  using Compressor = std::unique_ptr<libdeflate_compressor, Free>;

  explicit Impl(Effort effort)
      : compressor(libdeflate_alloc_compressor(static_cast<int>(effort))) {
    if (compressor == nullptr) {
      throw MachineError("there is not enough memory to compress the pages");
    }
  }

  Compressor compressor;
  std::string buffer;
};

struct Deflater::Kept {
  std::unordered_map<std::string, std::string> by_key;
  std::size_t bytes = 0;
};

Deflater::Deflater()
    : thorough_(std::make_unique<Impl>(Effort::thorough)),
      quick_(std::make_unique<Impl>(Effort::quick)),
      kept_(std::make_unique<Kept>()) {}

Deflater::~Deflater() = default;

std::string Deflater::deflate(std::string_view data, Effort effort) {
  Impl& impl = effort == Effort::quick ? *quick_ : *thorough_;
  if (data.size() > kMaxStream) {
    throw MachineError("a picture or a page is too large for a PDF");
  }
  const std::size_t bound =
      libdeflate_zlib_compress_bound(impl.compressor.get(), data.size());
  if (impl.buffer.size() < bound) impl.buffer.resize(bound);
  const std::size_t size =
      libdeflate_zlib_compress(impl.compressor.get(), data.data(), data.size(),
                               impl.buffer.data(), bound);
  assert(size > 0);
  std::string result(impl.buffer, 0, size);
  // One large picture must not hold on to its memory for the whole document.
  if (impl.buffer.size() > (1U << 20)) std::string().swap(impl.buffer);
  return result;
}

const std::string& Deflater::deflate_recurring(std::string_view data) {
  return deflate_recurring(std::string(data),
                           [data] { return std::string(data); });
}

const std::string& Deflater::deflate_recurring(
    std::string key, const std::function<std::string()>& make) {
  auto& kept = kept_->by_key;
  if (const auto found = kept.find(key); found != kept.end()) {
    return found->second;
  }
  if (kept_->bytes > kMaxKept) {
    kept.clear();
    kept_->bytes = 0;
  }
  std::string packed = deflate(make());
  const std::size_t bytes = key.size() + packed.size();
  const std::string& result =
      kept.emplace(std::move(key), std::move(packed)).first->second;
  kept_->bytes += bytes;
  return result;
}

std::array<std::uint32_t, 4> checksums(std::string_view data) {
  const auto crc = [](std::string_view part) {
    return libdeflate_crc32(0, part.data(), part.size());
  };
  const std::size_t half = data.size() / 2;
  return {crc(data), libdeflate_adler32(1, data.data(), data.size()),
          crc(data.substr(0, half)), crc(data.substr(half))};
}

namespace {

// Those that no document has now; more than there are threads. Left to the end
// of the process.
std::array<std::atomic<Deflater*>, 64> idle_deflaters{};

}  // namespace

LentDeflater::LentDeflater() : deflater_(nullptr) {
  for (std::atomic<Deflater*>& idle : idle_deflaters) {
    deflater_ = idle.exchange(nullptr);
    if (deflater_ != nullptr) return;
  }
  deflater_ = new Deflater;
}

LentDeflater::~LentDeflater() {
  for (std::atomic<Deflater*>& idle : idle_deflaters) {
    Deflater* none = nullptr;
    if (idle.compare_exchange_strong(none, deflater_)) return;
  }
  delete deflater_;
}

}  // namespace sheaf
