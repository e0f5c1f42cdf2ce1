#include <cmath>

#include "codec/containers.h"
#include "codec/jpeg_decoder.h"
#include "codec/jpeg_markers.h"
#include "codec/samples.h"
#include "raster/orient.h"

namespace proofleaf {

namespace {

constexpr uint32_t kFar = 512;  // rows that are worth a look through the file for a nearer start

// Rows as they lie in the file. Going back starts the picture again from its top.
class JpegRows final : public RowSource {
 public:
  JpegRows(std::shared_ptr<ByteSource> source, uint32_t shrink)
      : source_(std::move(source)), shrink_(shrink) {}

  // Must say yes before anything else is asked.
  Status start() {
    decoder_ = std::make_unique<JpegDecoder>(source_);
    above_ = 0;
    eighth_.reset();
    Status got = decoder_->open();
    if (got && shrink_ == 8) eighth_ = decoder_->eighth();
    if (got && !eighth_) got = decoder_->start(shrink_);
    if (!got) {
      decoder_.reset();
      return got;
    }
    format_ = eighth_
                  ? RowFormat{eighth_->width(), eighth_->height(), decoder_->channels()}
                  : RowFormat{decoder_->out_width(), decoder_->out_height(), decoder_->channels()};
    row_.resize(format_.row_samples());
    return done();
  }

  RowFormat format() const override { return format_; }

  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    Status got = done();
    for (uint32_t y = 0; got && y < count; ++y) {
      got = read8(first + y, 1, row_);
      if (got) widen(row_.data(), into.data() + y * row_.size(), row_.size());
    }
    return got;
  }

  Status read_pixels(uint32_t first, uint32_t count, Pixels& into) override {
    return read8(first, count, into.eight(count * row_.size()));
  }

 private:
  Status read8(uint32_t first, uint32_t count, std::span<uint8_t> into) {
    if (!decoder_ || first < next_row()) {
      if (Status got = start(); !got) return got;
    }
    if (count == 0) return done();
    if (first - next_row() >= kFar) go_near(first);
    Status got = skip(first - next_row());
    for (uint32_t y = 0; got && y < count; ++y) {
      got = read_row(into.data() + y * row_.size());
    }
    if (!got) {
      const bool from_top = above_ == 0;
      decoder_.reset();
      eighth_.reset();
      if (from_top) return got;
      restarts_.reset();  // the whole file's decoder knows how much of it is sound
      return read8(first, count, into);
    }
    if (decoder_->inverted_ink()) invert(into.data(), count * row_.size());
    return done();
  }

  uint32_t next_row() const {
    return eighth_ ? eighth_->next_row() : above_ + decoder_->next_row();
  }

  // Begins anew at a restart marker not far above the row, where there is one.
  void go_near(uint32_t row) {
    if (shrink_ != 1) return;
    if (!looked_) restarts_ = decoder_->restarts();
    looked_ = true;
    const auto part = restarts_ ? restarts_->part_above(row, source_) : std::nullopt;
    if (!part || part->first_row <= next_row()) return;
    auto decoder = std::make_unique<JpegDecoder>(part->file);
    if (!decoder->open() || !decoder->start(shrink_)) return;
    decoder_ = std::move(decoder);
    above_ = part->first_row;
  }

  Status skip(uint32_t rows) {
    if (!eighth_) return decoder_->skip(rows);
    Status got = done();
    for (uint32_t y = 0; got && y < rows; ++y) got = read_row(row_.data());
    return got;
  }

  Status read_row(uint8_t* into) {
    if (eighth_ && eighth_->read_row(into)) return done();
    if (eighth_) {  // something is wrong: libjpeg finds out what
      const uint32_t next = eighth_->next_row();
      eighth_.reset();
      Status got = decoder_->start(shrink_);
      if (got) got = decoder_->skip(next);
      if (!got) return got;
    }
    return decoder_->read_row(into);
  }

  std::shared_ptr<ByteSource> source_;
  uint32_t shrink_;
  std::unique_ptr<JpegDecoder> decoder_;
  uint32_t above_ = 0;                  // rows that the decoder's own file leaves out
  std::unique_ptr<JpegEighth> eighth_;  // while it goes the quicker way
  std::optional<JpegRestarts> restarts_;
  bool looked_ = false;  // for restarts
  RowFormat format_;
  std::vector<uint8_t> row_;
};

class JpegMaster final : public Master {
 public:
  JpegMaster(std::shared_ptr<ByteSource> source, MasterInfo info)
      : source_(std::move(source)), info_(std::move(info)) {}

  const MasterInfo& info() const override { return info_; }

  Result<std::unique_ptr<RowSource>> open_rows(uint32_t shrink) override {
    const bool known = shrink == 1 || shrink == 2 || shrink == 4 || shrink == 8;
    auto rows = std::make_unique<JpegRows>(source_, known ? shrink : 1);
    if (Status got = rows->start(); !got) return got.error();
    return orient_rows(std::move(rows), info_.orientation);
  }

 private:
  std::shared_ptr<ByteSource> source_;
  MasterInfo info_;
};

void take_markers(JpegMarkers markers, MasterInfo& info) {
  const ExifTree tree = read_exif(markers.exif);
  info.ppi = markers.ppi;
  take_exif(tree, info);
  const auto exif_ppi = exif_facts(tree).ppi;
  if (markers.ppi && exif_ppi && std::abs(*markers.ppi - *exif_ppi) > 0.5) {
    info.notes.push_back(
        said("It states two different resolutions; the one of its JFIF header is used."));
  }
  if (markers.icc_incomplete) {
    info.notes.push_back(said("Its embedded colour profile is not complete and was left aside."));
  }
  info.exif = std::move(markers.exif);
  info.icc = std::move(markers.icc);
}

}  // namespace

Result<std::unique_ptr<Master>> open_jpeg(std::shared_ptr<ByteSource> source) {
  JpegDecoder decoder(source);
  if (Status got = decoder.open(); !got) return got.error();
  MasterInfo info;
  info.container = Container::jpeg;
  info.width = decoder.width();
  info.height = decoder.height();
  info.model = decoder.channels() == 1   ? ColourModel::grey
               : decoder.channels() == 3 ? ColourModel::rgb
                                         : ColourModel::cmyk;
  info.jpeg_tables = decoder.tables();
  BlockReader reader(source);
  take_markers(read_markers(reader), info);
  stand_upright(info);
  return std::unique_ptr<Master>(std::make_unique<JpegMaster>(std::move(source), std::move(info)));
}

}  // namespace proofleaf
