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
  explicit FileWriter(Deflater& deflater);

  /// Says that all numbers up to `last` are given out. The writer numbers its
  /// own objects after them, so this comes before the first plain object.
  void reserve(ObjectId last);

  void stream(ObjectId id, std::string_view entries,
              std::string_view data) override;
  void plain(ObjectId id, std::string_view text) override;
  /// As `plain`, but not packed: it can be read where it stands.
  void unpacked(ObjectId id, std::string_view text);
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
  std::size_t size() const { return full_size_ + file_.size(); }
  std::string joined();

  Deflater& deflater_;
  // The file: full blocks, one behind the other, and the one being filled. One
  // long string would need thrice its room when it grows.
  std::vector<std::string> full_;
  std::size_t full_size_ = 0;
  std::string file_;
  std::vector<Entry> entries_;
  // The object stream being filled.
  std::vector<ObjectId> packed_;
  std::vector<std::size_t> packed_begins_;
  std::string packed_text_;
};

}  // namespace sheaf
