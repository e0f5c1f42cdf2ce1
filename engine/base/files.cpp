#ifndef __EMSCRIPTEN__
#include "base/files.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <utility>

namespace proofleaf {

namespace {

std::string name_of(const std::string& path) {
  const size_t slash = path.find_last_of('/');
  return slash == std::string::npos ? path : path.substr(slash + 1);
}

std::string folder_of(const std::string& path) {
  const size_t slash = path.find_last_of('/');
  return slash == std::string::npos ? std::string() : path.substr(0, slash + 1);
}

std::string reason() { return std::string(" (") + std::strerror(errno) + ")."; }

// A descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  int get() const { return number_; }
  bool close() { return ::close(std::exchange(number_, -1)) == 0; }

 private:
  int number_;
};

class DiskSource final : public ByteSource {
 public:
  DiskSource(std::string name, int descriptor) : name_(std::move(name)), descriptor_(descriptor) {
    if (::fstat(descriptor, &opened_) != 0) opened_ = {};
  }

  bool is_file() const { return S_ISREG(opened_.st_mode); }

  const std::string& name() const override { return name_; }
  uint64_t size() const override { return static_cast<uint64_t>(opened_.st_size); }

  Result<size_t> read_at(uint64_t offset, std::span<uint8_t> into) override {
    if (offset >= size()) return size_t{0};
    const size_t wanted = static_cast<size_t>(std::min<uint64_t>(into.size(), size() - offset));
    size_t copied = 0;
    while (copied < wanted) {
      const ssize_t got = ::pread(descriptor_.get(), into.data() + copied, wanted - copied,
                                  static_cast<off_t>(offset + copied));
      if (got < 0 && errno == EINTR) continue;
      if (got < 0) return Error{"{} could not be read{}", name_, reason()};
      if (got == 0) return Error{"{} became shorter while it was being read.", name_};
      copied += static_cast<size_t>(got);
    }
    return copied;
  }

  Status unchanged() override {
    struct stat now {};
    if (::fstat(descriptor_.get(), &now) == 0 && now.st_size == opened_.st_size &&
        now.st_mtim.tv_sec == opened_.st_mtim.tv_sec &&
        now.st_mtim.tv_nsec == opened_.st_mtim.tv_nsec) {
      return done();
    }
    return Error{"{} was changed while it was being read. Please choose it again.", name_};
  }

 private:
  std::string name_;
  Descriptor descriptor_;
  struct stat opened_ {};
};

class DiskSink final : public FileSink {
 public:
  DiskSink(std::string path, std::string draft, int descriptor)
      : path_(std::move(path)), draft_(std::move(draft)), descriptor_(descriptor) {}
  DiskSink(const DiskSink&) = delete;
  DiskSink& operator=(const DiskSink&) = delete;
  ~DiskSink() override { ::unlink(draft_.c_str()); }

  Status write_at(uint64_t offset, ByteView bytes) override {
    const uint64_t end = offset + bytes.size();
    while (!bytes.empty()) {
      const ssize_t put =
          ::pwrite(descriptor_.get(), bytes.data(), bytes.size(), static_cast<off_t>(offset));
      if (put < 0 && errno == EINTR) continue;
      if (put <= 0) return Error{"{} could not be written{}", name_of(path_), reason()};
      offset += static_cast<uint64_t>(put);
      bytes = bytes.subspan(static_cast<size_t>(put));
    }
    size_ = std::max(size_, end);
    send_on();
    return done();
  }

  uint64_t size() const override { return size_; }

  Status commit() override {
    if (committed_) return done();
    if (::fsync(descriptor_.get()) != 0) {
      return Error{"{} could not be written to the end{}", name_of(path_), reason()};
    }
    if (!take_name()) {
      if (errno == EEXIST) return Error{"{} exists already; it was left as it is.", name_of(path_)};
      return Error{"{} could not be given its name{}", name_of(path_), reason()};
    }
    committed_ = true;
    if (!descriptor_.close()) return Error{"{} could not be closed{}", name_of(path_), reason()};
    return done();
  }

  Result<std::shared_ptr<ByteSource>> reopen() override {
    const int again = ::open((committed_ ? path_ : draft_).c_str(), O_RDONLY | O_CLOEXEC);
    if (again < 0) return Error{"{} could not be read back{}", name_of(path_), reason()};
    return std::shared_ptr<ByteSource>(std::make_shared<DiskSource>(name_of(path_), again));
  }

 private:
  // Has the system begin with what stands in its memory, so that commit() finds little left to wait
  // for.
  void send_on() {
#ifdef SYNC_FILE_RANGE_WRITE
    if (size_ < sent_on_ + kSentAtOnce) return;
    ::sync_file_range(descriptor_.get(), 0, 0, SYNC_FILE_RANGE_WRITE);
    sent_on_ = size_;
#endif
  }

  // A link fails where the name is taken, while a rename would replace the other file. Disks that
  // know no links (FAT) get an empty file of the final name first, which also fails if it is taken.
  bool take_name() {
    if (::link(draft_.c_str(), path_.c_str()) == 0) return true;
    if (errno != EPERM && errno != EOPNOTSUPP && errno != ENOSYS) return false;
    const Descriptor reserved(::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644));
    return reserved.get() >= 0 && ::rename(draft_.c_str(), path_.c_str()) == 0;
  }

  std::string path_;
  std::string draft_;
  Descriptor descriptor_;
  uint64_t size_ = 0;
  static constexpr uint64_t kSentAtOnce = 8u << 20;
  [[maybe_unused]] uint64_t sent_on_ = 0;
  bool committed_ = false;
};

}  // namespace

Result<std::shared_ptr<ByteSource>> open_file(const std::string& path) {
  const std::string name = name_of(path);
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (descriptor < 0) return Error{"{} could not be opened{}", name, reason()};
  auto source = std::make_shared<DiskSource>(name, descriptor);
  if (!source->is_file()) return Error{"{} is not a file.", name};
  return std::shared_ptr<ByteSource>(std::move(source));
}

Result<std::unique_ptr<FileSink>> create_file(const std::string& path) {
  struct stat facts {};
  if (::lstat(path.c_str(), &facts) == 0) {
    return Error{"{} exists already; it was left as it is.", name_of(path)};
  }
  std::string draft = folder_of(path) + ".proofleaf-XXXXXX";
  const int descriptor = ::mkostemp(draft.data(), O_CLOEXEC);
  if (descriptor < 0) return Error{"{} could not be started{}", name_of(path), reason()};
  ::fchmod(descriptor, 0644);
  return std::unique_ptr<FileSink>(std::make_unique<DiskSink>(path, draft, descriptor));
}

Result<Bytes> read_file(const std::string& path, uint64_t limit) {
  auto source = open_file(path);
  if (!source) return source.error();
  return read_all(*source.value(), limit);
}

Status write_new_file(const std::string& path, ByteView bytes) {
  auto sink = create_file(path);
  if (!sink) return sink.error();
  if (Status put = sink.value()->write_at(0, bytes); !put) return put;
  return sink.value()->commit();
}

}  // namespace proofleaf
#endif
