#include "codec/jpeg_decoder.h"

#include <algorithm>
#include <utility>

extern "C" {
#include <jpegint.h>
}

namespace proofleaf {

namespace {

// A hostile progressive file can hold thousands of scans over a huge picture; encoders write about
// ten (common practice, no source).
constexpr int kMostScans = 200;

void create(jpeg_decompress_struct* cinfo, jpeg_source_mgr* source) {
  jpeg_create_decompress(cinfo);
  cinfo->src = source;
}

void read_header(jpeg_decompress_struct* cinfo, int) {
  jpeg_read_header(cinfo, TRUE);
  switch (cinfo->jpeg_color_space) {
    case JCS_GRAYSCALE:
      cinfo->out_color_space = JCS_GRAYSCALE;
      cinfo->out_color_components = 1;
      break;
    case JCS_RGB:
    case JCS_YCbCr:
      cinfo->out_color_space = JCS_RGB;
      cinfo->out_color_components = 3;
      break;
    case JCS_CMYK:
    case JCS_YCCK:
      cinfo->out_color_space = JCS_CMYK;
      cinfo->out_color_components = 4;
      break;
    default:
      ERREXIT(cinfo, JERR_CONVERSION_NOTIMPL);
  }
}

// Each block of 8 x 8 takes a code of at least one bit in the scan that first tells of it (ITU-T
// T.81 F.1.2, G.1.2.1). Arithmetic coding may take less on flat pictures, but no photograph is one.
uint64_t least_bytes(const jpeg_decompress_struct& cinfo) {
  uint64_t most = 0;
  for (int c = 0; c < cinfo.num_components; ++c) {
    const jpeg_component_info& component = cinfo.comp_info[c];
    most = std::max(most, uint64_t{component.width_in_blocks} * component.height_in_blocks);
  }
  return most / 8;
}

void skip_rows(jpeg_decompress_struct* cinfo, uint32_t rows) { jpeg_skip_scanlines(cinfo, rows); }

void read_one(jpeg_decompress_struct* cinfo, uint8_t* into) {
  JSAMPROW row = into;
  jpeg_read_scanlines(cinfo, &row, 1);
}

}  // namespace

JpegDecoder::JpegDecoder(std::shared_ptr<ByteSource> source)
    : reader_(std::move(source)), fault_{}, input_{}, patience_{}, markers_{}, cinfo_{} {}

JpegDecoder::~JpegDecoder() {
  if (created_) jpeg_destroy_decompress(&cinfo_);
}

boolean JpegDecoder::fill(j_decompress_ptr cinfo) {
  auto* input = reinterpret_cast<Input*>(cinfo->src);
  const size_t got = input->reader->read_at(input->offset, input->block, kReadBlock);
  if (got == 0) ERREXIT(cinfo, JERR_INPUT_EOF);
  input->offset += got;
  input->manager.next_input_byte = input->block;
  input->manager.bytes_in_buffer = got;
  return TRUE;
}

void JpegDecoder::pass_over(j_decompress_ptr cinfo, long count) {
  auto* input = reinterpret_cast<Input*>(cinfo->src);
  if (count <= 0) return;
  const auto wanted = static_cast<uint64_t>(count);
  if (wanted <= input->manager.bytes_in_buffer) {
    input->manager.next_input_byte += wanted;
    input->manager.bytes_in_buffer -= static_cast<size_t>(wanted);
  } else {
    input->offset += wanted - input->manager.bytes_in_buffer;
    input->manager.bytes_in_buffer = 0;
  }
}

boolean JpegDecoder::decode_mcu(j_decompress_ptr cinfo, JBLOCKROW* blocks) {
  auto* markers = static_cast<Markers*>(cinfo->client_data);
  const bool marked = markers->since == markers->interval;
  markers->since = marked ? 1 : markers->since + 1;
  cinfo->restart_interval = marked ? 1 : 0;
  const boolean decoded = markers->decode(cinfo, blocks);
  cinfo->restart_interval = markers->interval;
  return decoded;
}

void JpegDecoder::start_picture(j_decompress_ptr cinfo, uint32_t shrink) {
  auto* markers = static_cast<Markers*>(cinfo->client_data);
  cinfo->scale_num = 1;
  cinfo->scale_denom = shrink;
  cinfo->dct_method = JDCT_ISLOW;
  cinfo->do_fancy_upsampling = TRUE;
  if (cinfo->restart_interval == 0 || !in_one_huffman_scan(*cinfo)) {
    jpeg_start_decompress(cinfo);
    return;
  }
  markers->interval = std::exchange(cinfo->restart_interval, 0u);
  jpeg_start_decompress(cinfo);
  cinfo->restart_interval = markers->interval;
  markers->decode = std::exchange(cinfo->entropy->decode_mcu, decode_mcu);
}

void JpegDecoder::watch_scans(j_common_ptr cinfo) {
  if (!cinfo->is_decompressor) return;
  if (reinterpret_cast<j_decompress_ptr>(cinfo)->input_scan_number > kMostScans) {
    ERREXIT(cinfo, JERR_BAD_PROGRESSION);
  }
}

Error JpegDecoder::explain() const {
  const std::string& name = reader_.name();
  if (!reader_.failure().empty()) return Error{reader_.failure()};
  switch (fault_.code) {
    case JERR_INPUT_EOF:
    case JERR_INPUT_EMPTY:
    case JWRN_JPEG_EOF:
      if (!fault_.in_pixels) return Error{"{} ends too soon, before its picture begins.", name};
      if (next_row() == 0) return Error{"{} ends too soon; its picture is not complete.", name};
      return Error{"{} ends too soon; only the first {} of {} rows are there.", name, next_row(),
                   cinfo_.output_height};
    case JERR_BAD_PRECISION:
      return Error{"{} is a JPEG of more than 8 bits, which cannot be opened here.", name};
    case JERR_SOF_UNSUPPORTED:
      return Error{
          "{} is a rare kind of JPEG (lossless or hierarchical) that cannot be opened here.", name};
    case JERR_CONVERSION_NOTIMPL:
    case JERR_COMPONENT_COUNT:
      return Error{"{} has neither grey, RGB nor CMYK channels.", name};
    case JERR_OUT_OF_MEMORY:
    case JERR_NO_BACKING_STORE:
      return Error{
          "{} is a progressive JPEG too large to be opened here; save it as a baseline JPEG or a "
          "TIFF.",
          name};
    case JERR_IMAGE_TOO_BIG:
      return Error{"{} has a side longer than {} pixels.", name, kLongestSide};
    case JERR_EMPTY_IMAGE:
      return Error{"{} says that its picture has no size.", name};
    default:
      break;
  }
  if (!fault_.in_pixels) return Error{"{} is damaged: its headers make no sense.", name};
  if (next_row() == 0) return Error{"{} is damaged: its picture cannot be decoded.", name};
  return Error{"{} is damaged: only the first {} of {} rows are sound.", name, next_row(),
               cinfo_.output_height};
}

Status JpegDecoder::open() {
  block_.resize(kReadBlock);
  prepare(fault_);
  input_.reader = &reader_;
  input_.block = block_.data();
  input_.manager.init_source = fill_nothing;
  input_.manager.fill_input_buffer = fill;
  input_.manager.skip_input_data = pass_over;
  input_.manager.resync_to_restart = jpeg_resync_to_restart;
  input_.manager.term_source = fill_nothing;
  patience_.manager.progress_monitor = watch_scans;
  cinfo_.err = &fault_.manager;
  created_ = true;
  if (!guarded(fault_, create, &cinfo_, &input_.manager)) return explain();
  cinfo_.progress = &patience_.manager;
  cinfo_.client_data = &markers_;
  cinfo_.mem->max_memory_to_use = static_cast<long>(kProgressiveMemory);
  if (!guarded(fault_, read_header, &cinfo_, 0)) return explain();
  data_ = input_.offset - input_.manager.bytes_in_buffer;
  if (Status got = check_dimensions(reader_.name(), width(), height()); !got) return got;
  return check_length(reader_.name(), reader_.size(), least_bytes(cinfo_));
}

std::vector<JpegTable> JpegDecoder::tables() const {
  std::vector<JpegTable> tables;
  for (int c = 0; c < cinfo_.num_components; ++c) {
    const int number = cinfo_.comp_info[c].quant_tbl_no;
    if (number < 0 || number >= NUM_QUANT_TBLS) continue;
    const JQUANT_TBL* table = cinfo_.quant_tbl_ptrs[number];
    if (table == nullptr) continue;
    JpegTable values{};
    std::copy_n(table->quantval, values.size(), values.begin());
    if (std::find(tables.begin(), tables.end(), values) == tables.end()) tables.push_back(values);
  }
  return tables;
}

std::unique_ptr<JpegEighth> JpegDecoder::eighth() const {
  return JpegEighth::of(reader_, cinfo_, data_);
}

std::optional<JpegRestarts> JpegDecoder::restarts() const {
  return JpegRestarts::of(reader_, cinfo_, data_);
}

Status JpegDecoder::start(uint32_t shrink) {
  fault_.in_pixels = true;
  if (!guarded(fault_, start_picture, &cinfo_, shrink)) return explain();
  return done();
}

Status JpegDecoder::skip(uint32_t rows) {
  if (rows > 0 && !guarded(fault_, skip_rows, &cinfo_, rows)) return explain();
  return done();
}

Status JpegDecoder::read_row(uint8_t* into) {
  if (!guarded(fault_, read_one, &cinfo_, into)) return explain();
  return done();
}

}  // namespace proofleaf
