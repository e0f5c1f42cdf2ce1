#include "job/returned_work.h"

#include <algorithm>
#include <cmath>

#include "colour/lcms.h"
#include "fit/master_space.h"
#include "job/opening.h"
#include "job/read_back_work.h"
#include "print/proofing_json.h"
#include "proof/words.h"
#include "raster/picture_rows.h"
#include "sheet/seen.h"

namespace proofleaf {
namespace {

using returned::Corners;
using returned::Plane;
using returned::Point;

constexpr uint64_t kShownPixels = 1'000'000;  // of the photo on the screen

// [x, y], both from -1 to 2 so that a corner may lie beside the photo.
std::optional<Point> point_from(const Json& json) {
  if (!json.is_array() || json.size() != 2 || !json[0].is_number() || !json[1].is_number()) {
    return std::nullopt;
  }
  const Point p{json[0].get<double>(), json[1].get<double>()};
  const bool near = p.x >= -1 && p.y >= -1 && p.x <= 2 && p.y <= 2;
  return near ? std::optional(p) : std::nullopt;
}

Result<returned::Settings> settings_of(const Json& request) {
  returned::Settings settings;
  settings.refine = flag_of(request, "refine", true);
  settings.scan = flag_of(request, "scan", false);
  settings.mark_mm = number_of(request, "mark_mm", settings.mark_mm);
  if (!(settings.mark_mm >= 0.2 && settings.mark_mm <= 50)) {
    return Error{"mark_mm must be a number between 0.2 and 50 mm."};
  }
  if (const Json* neutral = member(request, "neutral"); neutral != nullptr && !neutral->is_null()) {
    settings.neutral = point_from(*neutral);
    if (!settings.neutral) return Error{"The neutral place must be a place in the photo."};
  }
  const Json* list = member(request, "corners");
  if (list == nullptr || list->is_null()) return settings;
  Corners corners;
  for (size_t i = 0; i < corners.size(); ++i) {
    const auto corner =
        list->is_array() && list->size() == corners.size() ? point_from((*list)[i]) : std::nullopt;
    if (!corner) return Error{"The print's corners must be four places in the photo."};
    corners[i] = *corner;
  }
  settings.corners = corners;
  return settings;
}

Result<returned::Promise> promise_from(const Json& request, const WorkFiles& files,
                                       const Watch& watch) {
  auto opened = open_on_paper(request, files);
  if (!opened) return opened.error();
  auto picture = read_preview_picture(request, files);
  if (!picture) return picture.error();
  auto recipe = recipe_of(request);
  if (!recipe) return recipe.error();
  const MasterOnPaper& on = opened.value();
  return returned::promise_of(picture.value(), on.master, side_of(request, "master_width"),
                              side_of(request, "master_height"), recipe.value(),
                              number_of(request, "ppi", 300), on.paper, on.print, watch);
}

// L*a*b*, row by row, as R, G, B, A of the screen.
template <class LabAt>
Result<Bytes> on_screen(const Json& request, uint32_t width, uint32_t height, const LabAt& lab_at) {
  const auto screen = screen_of(text_of(request, "screen", "srgb"));
  if (!screen) return Error{"There is no screen of that kind."};
  auto space = MasterSpace::make(standard_profile(word_for(*screen)).take());
  if (!space) return space.error();
  Bytes rgba(size_t{width} * height * 4);
  std::vector<Lab> row(width);
  std::vector<float> codes(size_t{width} * 3);
  for (uint32_t y = 0; y < height; ++y) {
    for (uint32_t x = 0; x < width; ++x) row[x] = lab_at(x, y);
    space.value()->codes(row, codes);
    uint8_t* out = &rgba[size_t{y} * width * 4];
    for (size_t i = 0; i < width; ++i) {
      for (size_t c = 0; c < 3; ++c) out[i * 4 + c] = uint8_t(codes[i * 3 + c] * 255 + 0.5f);
      out[i * 4 + 3] = 255;
    }
  }
  return rgba;
}

struct ShownPhoto {
  uint32_t width = 0, height = 0;
  Bytes rgba;
};

Result<ShownPhoto> shown(const Json& request, const returned::Photo& photo) {
  const uint32_t factor = shrink_factor(photo.width(), photo.height(), kShownPixels);
  ShownPhoto small{photo.width() / factor, photo.height() / factor, {}};
  std::array<Plane, 3> xyz;
  for (size_t c = 0; c < 3; ++c) xyz[c] = returned::shrunk(photo.xyz[c], small.width, small.height);
  auto rgba = on_screen(request, small.width, small.height, [&](uint32_t x, uint32_t y) {
    return lab_from_xyz({xyz[0].at(x, y), xyz[1].at(x, y), xyz[2].at(x, y)});
  });
  if (!rgba) return rgba.error();
  small.rgba = rgba.take();
  return small;
}

// The print laid flat, on the paper's own white where that is shown.
Result<Bytes> shown(const Json& request, const returned::Seen& seen, const Lab& paper_white) {
  const XYZ white = xyz_from_lab(paper_white);
  const bool own = flag_of(request, "paper_white", true);
  return on_screen(request, seen.l.width, seen.l.height, [&](uint32_t x, uint32_t y) {
    const Lab lab{std::max(0.f, seen.l.at(x, y)), seen.a.at(x, y), seen.b.at(x, y)};
    if (!own) return lab;
    const XYZ c = xyz_from_lab(lab);
    return lab_from_xyz({c.x * white.x / kD50.x, c.y * white.y, c.z * white.z / kD50.z});
  });
}

Json corners_json(const returned::Homography& place) {
  Json corners = Json::array();
  for (const Point& p : place.corners()) corners.push_back({p.x, p.y});
  return corners;
}

Json front_json(const returned::Promise& promise) {
  const print::Crop& crop = promise.crop;
  return {{"width_mm", promise.width_mm},
          {"height_mm", promise.height_mm},
          {"picture", {promise.left, promise.top, promise.right, promise.bottom}},
          {"crop", {crop.x, crop.y, crop.width, crop.height}}};
}

// What the file says of its resolution, in the pixels of the photo as it was read.
std::optional<double> ppi_of(const MasterInfo& info, const returned::Photo& photo) {
  if (!info.ppi || info.width == 0) return std::nullopt;
  return *info.ppi * photo.width() / info.width;
}

// Device values 0..1 of a patch; as tables have them: inks and RGB up to 100 in per cent, RGB past
// 100 up to 255.
std::vector<float> device_values(const print::Readings& readings, const Paper& paper) {
  const print::DeviceKind kind = print::device_kind(readings);
  const bool inks = kind == print::DeviceKind::cmyk && paper.model == ColourModel::cmyk;
  const bool light = kind == print::DeviceKind::rgb && paper.model == ColourModel::rgb;
  if (!inks && !light) return {};
  const std::vector<size_t> columns =
      inks ? readings.columns({"CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K"})
           : readings.columns({"RGB_R", "RGB_G", "RGB_B"});
  double most = 0;
  for (size_t i = 0; i < readings.patches(); ++i) {
    for (const size_t column : columns) most = std::max(most, readings.at(i, column));
  }
  const double top = light && most > 100 ? 255 : 100;
  std::vector<float> values;
  for (size_t i = 0; i < readings.patches(); ++i) {
    for (const size_t column : columns) {
      const double value = readings.at(i, column) / top;
      if (!(value >= 0 && value <= 1.001)) return {};
      values.push_back(static_cast<float>(std::min(1.0, value)));
    }
  }
  return values;
}

// What the paper's profile says that its device values measure, absolute L*a*b* D50.
Result<std::vector<print::PatchAim>> device_aims(const print::Readings& readings,
                                                 const Paper& paper, std::vector<float> device) {
  const Transform to_colour = to_lab(paper.profile, INTENT_ABSOLUTE_COLORIMETRIC);
  if (!to_colour) return Error{"The paper's profile does not say what its colours measure."};
  const float top = float_scale(paper.profile.colour_space());
  for (float& value : device) value *= top;
  std::vector<float> lab(readings.patches() * 3);
  cmsDoTransform(to_colour.get(), device.data(), lab.data(), cmsUInt32Number(readings.patches()));
  std::vector<print::PatchAim> aims;
  for (size_t i = 0; i < readings.patches(); ++i) {
    aims.push_back({readings.names[i], {lab[i * 3], lab[i * 3 + 1], lab[i * 3 + 2]}});
  }
  return aims;
}

}  // namespace

Result<Answer> returned_work(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto settings = settings_of(request);
  if (!settings) return settings.error();
  auto promise =
      promise_from(request, files, [&](double share) { return keep_going(watch, 0.15 * share); });
  if (!promise) return promise.error();
  auto opened = open_with_colour(request, files);
  if (!opened) return opened.error();
  auto picture = read_preview(opened.value(), returned::kMostPhotoPixels,
                              [&](double share) { return keep_going(watch, 0.15 + 0.2 * share); });
  if (!picture) return picture.error();
  auto photo = returned::photo_of(picture.value(), opened.value().colour.profile, watch);
  if (!photo) return photo.error();
  picture = Error{""};  // its memory is needed
  const MasterInfo& info = opened.value().master->info();
  settings.value().photo_ppi = ppi_of(info, photo.value());
  auto compared =
      returned::compare(promise.value(), photo.value(), settings.value(),
                        [&](double share) { return keep_going(watch, 0.4 + 0.55 * share); });
  if (!compared) return compared.error();
  const returned::Comparison& found = compared.value();
  const bool is_found = found.match >= returned::kFound;

  auto small = shown(request, photo.value());
  if (!small) return small.error();
  Json tones = Json::array();
  for (const auto& tone : found.tones) tones.push_back({tone.l, tone.off});
  Json json{{"kind", "returned"},
            {"name", opened.value().file->name()},
            {"width", small.value().width},
            {"height", small.value().height},
            {"scan_ppi", info.ppi ? Json(*info.ppi) : Json()},
            {"profile", opened.value().colour.title},
            {"assumed", opened.value().colour.assumed},
            {"corners", corners_json(found.print_to_photo)},
            {"match", found.match},
            {"found", is_found},
            {"refined", found.refined},
            {"light_falls", found.light_falls},
            {"bend", found.bend},
            {"print_width", found.seen.l.width},
            {"print_height", found.seen.l.height},
            {"front", front_json(promise.value())},
            {"seen", nullptr},
            {"tones", tones},
            {"mixed_light", found.cast.mixed_light},
            {"shadow_place", found.shadow.place ? Json(*found.shadow.place) : Json()}};
  Answer answer{"", {{"photo", std::move(small.value().rgba)}}};
  if (is_found) {
    json["seen"] = json_of(JobSeen{opened.value().file->name(), settings.value().scan, found.match,
                                   found.size, found.cast, found.shadow, found.marks});
    auto print = shown(request, found.seen, promise.value().paper_white);
    if (!print) return print.error();
    answer.buffers.push_back({"print", print.take()});
  }
  answer.json = dump_json(json);
  return answer;
}

Result<Answer> returned_readings_work(const Json& request, const WorkFiles& files) {
  if (!files.readings) return Error{"No measurements were given."};
  auto paper = open_paper(request, files);
  if (!paper) return paper.error();
  auto bytes = read_all(*files.readings, print::kLargestReadings);
  if (!bytes) return bytes.error();
  const std::string& name = files.readings->name();
  auto readings = print::read_readings(bytes.value(), name);
  if (!readings) return readings.error();
  std::vector<float> device = device_values(readings.value(), paper.value());
  if (device.empty()) {
    const Json* patches = member(request, "patches");
    if (patches != nullptr && patches->is_array() && !patches->empty()) {
      return read_back_work(request, files);
    }
    return Error{
        "{} does not say which device values of this paper its patches were printed with, and no "
        "test strip was made here that they could be of.",
        name};
  }
  auto aims = device_aims(readings.value(), paper.value(), std::move(device));
  if (!aims) return aims.error();
  auto back = print::read_back(aims.value(), readings.value(), name);
  if (!back) return back.error();
  Json json = print::to_json(back.value());
  json["kind"] = "read_back";
  json["correction"] = nullptr;
  return Answer{dump_json(json), {}};
}

}  // namespace proofleaf
