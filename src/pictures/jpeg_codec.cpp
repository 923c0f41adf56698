#include "pictures/jpeg_codec.h"

#include <cstdlib>

#include <jerror.h>

namespace sheaf {

namespace {

// More than any picture of an allowed size needs.
constexpr long kMaxMemory = 160L << 20;

JpegErrors& errors_of(j_common_ptr codec) {
  // The first member of a standard-layout struct has its address.
  return *reinterpret_cast<JpegErrors*>(codec->err);
}

[[noreturn]] void on_error(j_common_ptr codec) {
  std::longjmp(errors_of(codec).jump, 1);
}

// libjpeg goes on after damage and fills in grey; here that ends it.
void on_message(j_common_ptr codec, int level) {
  if (level >= 0) return;
  switch (codec->err->msg_code) {
    case JWRN_EXTRANEOUS_DATA:
    case JWRN_JFIF_MAJOR:
    case JWRN_ADOBE_XFORM:
    case JWRN_TOO_MUCH_DATA:
      errors_of(codec).odd = true;
      return;
    default:
      on_error(codec);
  }
}

void silent(j_common_ptr) {}

jpeg_error_mgr* set_up(JpegErrors& errors) {
  jpeg_error_mgr* base = jpeg_std_error(&errors.base);
  base->error_exit = on_error;
  base->emit_message = on_message;
  base->output_message = silent;
  return base;
}

// Runs calls of libjpeg; false where one of them jumped out. What is called
// may own nothing that needs an end.
template <typename Calls>
bool guarded(JpegErrors& errors, const Calls& calls) {
  if (setjmp(errors.jump)) return false;
  calls();
  return true;
}

class JpegEncoder {
 public:
  JpegEncoder() {
    encoder_.err = set_up(errors_);
    created_ = guarded(errors_, [&] { jpeg_create_compress(&encoder_); });
  }
  ~JpegEncoder() {
    if (created_) jpeg_destroy_compress(&encoder_);
    std::free(buffer_);
  }
  JpegEncoder(const JpegEncoder&) = delete;
  JpegEncoder& operator=(const JpegEncoder&) = delete;

  bool encode(std::span<const std::uint8_t> pixels, int width, int height,
              int channels, int quality) {
    return created_ && guarded(errors_, [&] {
             jpeg_mem_dest(&encoder_, &buffer_, &size_);
             encoder_.image_width = static_cast<JDIMENSION>(width);
             encoder_.image_height = static_cast<JDIMENSION>(height);
             encoder_.input_components = channels;
             encoder_.in_color_space = channels == 1 ? JCS_GRAYSCALE : JCS_RGB;
             jpeg_set_defaults(&encoder_);
             jpeg_set_quality(&encoder_, quality, TRUE);
             encoder_.dct_method = JDCT_ISLOW;
             encoder_.optimize_coding = TRUE;
             jpeg_start_compress(&encoder_, TRUE);
             for (int y = 0; y < height; ++y) {
               // libjpeg only reads it, but does not say so.
               JSAMPROW row = const_cast<JSAMPLE*>(
                   pixels.data() +
                   static_cast<std::size_t>(y) *
                       static_cast<std::size_t>(width * channels));
               jpeg_write_scanlines(&encoder_, &row, 1);
             }
             jpeg_finish_compress(&encoder_);
           });
  }
  std::string_view bytes() const {
    return {reinterpret_cast<const char*>(buffer_), size_};
  }

 private:
  JpegErrors errors_;
  jpeg_compress_struct encoder_{};
  unsigned char* buffer_ = nullptr;
  unsigned long size_ = 0;
  bool created_ = false;
};

}  // namespace

JpegDecoder::JpegDecoder() { decoder_.err = set_up(errors_); }

JpegDecoder::~JpegDecoder() { jpeg_destroy_decompress(&decoder_); }

bool JpegDecoder::open(std::string_view bytes) {
  return guarded(errors_, [&] {
    jpeg_create_decompress(&decoder_);
    decoder_.mem->max_memory_to_use = kMaxMemory;
    jpeg_mem_src(&decoder_,
                 reinterpret_cast<const unsigned char*>(bytes.data()),
                 bytes.size());
    jpeg_read_header(&decoder_, TRUE);
  });
}

bool JpegDecoder::start(unsigned divided_by) {
  return guarded(errors_, [&] {
    switch (decoder_.jpeg_color_space) {
      case JCS_GRAYSCALE:
        decoder_.out_color_space = JCS_GRAYSCALE;
        break;
      case JCS_CMYK:
      case JCS_YCCK:
        decoder_.out_color_space = JCS_CMYK;
        break;
      default:
        decoder_.out_color_space = JCS_RGB;
    }
    decoder_.scale_num = 1;
    decoder_.scale_denom = divided_by;
    decoder_.dct_method = JDCT_ISLOW;
    jpeg_start_decompress(&decoder_);
  });
}

bool JpegDecoder::read_row(std::span<std::uint8_t> row) {
  return guarded(errors_, [&] {
    JSAMPROW start = row.data();
    if (jpeg_read_scanlines(&decoder_, &start, 1) != 1) {
      on_error(reinterpret_cast<j_common_ptr>(&decoder_));
    }
  });
}

bool JpegDecoder::finish() {
  return guarded(errors_, [&] { jpeg_finish_decompress(&decoder_); });
}

std::string encode_jpeg(std::span<const std::uint8_t> pixels, int width,
                        int height, int channels, int quality) {
  JpegEncoder encoder;
  if (!encoder.encode(pixels, width, height, channels, quality)) return {};
  return std::string(encoder.bytes());
}

}  // namespace sheaf
