#include <cmath>

#include "codec/containers.h"
#include "codec/jpeg_decoder.h"
#include "codec/jpeg_markers.h"
#include "codec/samples.h"
#include "raster/orient.h"

namespace proofleaf {

namespace {

// Rows as they lie in the file. Going back starts the picture again from its top.
class JpegRows final : public RowSource {
 public:
  JpegRows(std::shared_ptr<ByteSource> source, uint32_t shrink)
      : source_(std::move(source)), shrink_(shrink) {}

  // Must say yes before anything else is asked.
  Status start() {
    decoder_ = std::make_unique<JpegDecoder>(source_);
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
    if (!decoder_ || first < next_row()) {
      if (Status got = start(); !got) return got;
    }
    if (count == 0) return done();
    Status got = skip(first - next_row());
    for (uint32_t y = 0; got && y < count; ++y) {
      got = read_row();
      if (got) widen(row_.data(), into.data() + y * row_.size(), row_.size());
    }
    if (!got) {
      decoder_.reset();
      eighth_.reset();
      return got;
    }
    if (decoder_->inverted_ink()) invert(into.data(), count * row_.size());
    return done();
  }

 private:
  uint32_t next_row() const { return eighth_ ? eighth_->next_row() : decoder_->next_row(); }

  Status skip(uint32_t rows) {
    if (!eighth_) return decoder_->skip(rows);
    Status got = done();
    for (uint32_t y = 0; got && y < rows; ++y) got = read_row();
    return got;
  }

  Status read_row() {
    if (eighth_ && eighth_->read_row(row_.data())) return done();
    if (eighth_) {  // something is wrong: libjpeg finds out what
      const uint32_t next = eighth_->next_row();
      eighth_.reset();
      Status got = decoder_->start(shrink_);
      if (got) got = decoder_->skip(next);
      if (!got) return got;
    }
    return decoder_->read_row(row_.data());
  }

  std::shared_ptr<ByteSource> source_;
  uint32_t shrink_;
  std::unique_ptr<JpegDecoder> decoder_;
  std::unique_ptr<JpegEighth> eighth_;  // while it goes the quicker way
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
