#include "pdf/deflate.h"

#include <cassert>
#include <limits>
#include <unordered_map>

#include "base/error.h"

#include <zlib.h>

namespace sheaf {

namespace {

// What is kept is given up when it grows beyond this: one document with many
// large drawings must not hold on to all of them.
constexpr std::size_t kMaxKept = 4U << 20;

}  // namespace

struct Deflater::Impl {
  z_stream stream{};
  std::string buffer;
  std::unordered_map<std::string, std::string> kept;  // by what was packed
  std::size_t kept_bytes = 0;
  Effort effort = Effort::thorough;
};

Deflater::Deflater() : impl_(std::make_unique<Impl>()) {
  if (deflateInit(&impl_->stream, static_cast<int>(impl_->effort)) != Z_OK) {
    throw MachineError("there is not enough memory to compress the pages");
  }
}

Deflater::~Deflater() { deflateEnd(&impl_->stream); }

std::string Deflater::deflate(std::string_view data, Effort effort) {
  z_stream& stream = impl_->stream;
  const uLong bound = deflateBound(&stream, data.size());
  if (bound > std::numeric_limits<uInt>::max()) {
    throw MachineError("a picture or a page is too large for a PDF");
  }
  if (impl_->buffer.size() < bound) impl_->buffer.resize(bound);
  deflateReset(&stream);
  if (effort != impl_->effort) {
    deflateParams(&stream, static_cast<int>(effort), Z_DEFAULT_STRATEGY);
    impl_->effort = effort;
  }
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(data.data()));
  stream.avail_in = static_cast<uInt>(data.size());
  stream.next_out = reinterpret_cast<Bytef*>(impl_->buffer.data());
  stream.avail_out = static_cast<uInt>(bound);
  [[maybe_unused]] const int state = ::deflate(&stream, Z_FINISH);
  assert(state == Z_STREAM_END);
  std::string result(impl_->buffer, 0, bound - stream.avail_out);
  // One large picture must not hold on to its memory for the whole document.
  if (impl_->buffer.size() > (1U << 20)) std::string().swap(impl_->buffer);
  return result;
}

const std::string& Deflater::deflate_recurring(std::string_view data) {
  std::string key(data);
  if (const auto found = impl_->kept.find(key); found != impl_->kept.end()) {
    return found->second;
  }
  if (impl_->kept_bytes > kMaxKept) {
    impl_->kept.clear();
    impl_->kept_bytes = 0;
  }
  std::string packed = deflate(data);
  const std::size_t bytes = key.size() + packed.size();
  const std::string& result =
      impl_->kept.emplace(std::move(key), std::move(packed)).first->second;
  impl_->kept_bytes += bytes;
  return result;
}

}  // namespace sheaf
