// Files on disk, for the native command and the tests. The page has its own source and sink.
#pragma once

#include <memory>
#include <string>

#include "base/bytes.h"

namespace proofleaf {

// Opens a file for reading by position. Error: it is not there, is a folder, or may not be read.
Result<std::shared_ptr<ByteSource>> open_file(const std::string& path);

// A file being written. It carries a temporary name in the same folder until commit(), and is
// removed if commit() never comes, so that no half-written file has a final name.
class FileSink : public ByteSink {
 public:
  // Gives the file its final name. Error: a file of that name exists already, or the disk refuses.
  virtual Status commit() = 0;
  // Opens what was written so far for reading, before or after commit().
  virtual Result<std::shared_ptr<ByteSource>> reopen() = 0;
};

// Starts a new file. Error: the name is taken (nothing is ever overwritten), or the folder refuses.
Result<std::unique_ptr<FileSink>> create_file(const std::string& path);

// Reads / writes a whole small file. write_new_file never overwrites.
Result<Bytes> read_file(const std::string& path, uint64_t limit);
Status write_new_file(const std::string& path, ByteView bytes);

}  // namespace proofleaf
