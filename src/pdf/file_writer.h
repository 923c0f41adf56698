#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "pdf/deflate.h"
#include "pdf/objects.h"

namespace sheaf {

/// The file itself: streams as they are, all other objects packed into object
/// streams, and a cross-reference stream at the end (ISO 32000-1, 7.5.7 and
/// 7.5.8). Tags are many small objects; packed they take a tenth of the room.
class FileWriter : public ObjectSink {
 public:
  /// `count` is how many numbers are given out already; the writer numbers its
  /// own objects after them.
  FileWriter(ObjectId count, Deflater& deflater);

  void stream(ObjectId id, std::string_view entries,
              std::string_view data) override;
  void plain(ObjectId id, std::string_view text) override;
  /// The same as `plain`, but the caller appends the text to what it gets
  /// before it asks for the next.
  std::string& begin_plain(ObjectId id);

  /// Ends the file and gives it up. Its identifier is a hash of all the rest.
  std::string finish(ObjectId catalog, ObjectId info);

 private:
  struct Entry {
    std::uint8_t type = 0;    // 0 unused, 1 in the file, 2 in an object stream
    std::uint32_t place = 0;  // offset, or number of the object stream
    std::uint16_t index = 0;  // within the object stream
  };
  Entry& entry(ObjectId id);
  void begin_object(ObjectId id);
  void flush_packed();
  std::string cross_references();
  void patch_identifier(std::size_t place);

  Deflater& deflater_;
  std::string file_;
  std::vector<Entry> entries_;
  // The object stream being filled.
  std::vector<ObjectId> packed_;
  std::vector<std::size_t> packed_begins_;
  std::string packed_text_;
};

}  // namespace sheaf
