#include "pdf/deflate.h"

#include <cassert>
#include <limits>

#include "base/error.h"

#include <zlib.h>

namespace sheaf {

struct Deflater::Impl {
  z_stream stream{};
  std::string buffer;
};

Deflater::Deflater() : impl_(std::make_unique<Impl>()) {
  if (deflateInit(&impl_->stream, 6) != Z_OK) {
    throw MachineError("there is not enough memory to compress the pages");
  }
}

Deflater::~Deflater() { deflateEnd(&impl_->stream); }

std::string Deflater::deflate(std::string_view data) {
  z_stream& stream = impl_->stream;
  const uLong bound = deflateBound(&stream, data.size());
  if (bound > std::numeric_limits<uInt>::max()) {
    throw MachineError("a picture or a page is too large for a PDF");
  }
  if (impl_->buffer.size() < bound) impl_->buffer.resize(bound);
  deflateReset(&stream);
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

}  // namespace sheaf
