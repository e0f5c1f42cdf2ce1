#include "fit/fit_json.h"

#include <algorithm>
#include <map>
#include <optional>

#include "fit/fields.h"

namespace proofleaf {
namespace {

// "bands.red.turn" as a place in JSON.
Json::json_pointer place_of(std::string path) {
  std::replace(path.begin(), path.end(), '.', '/');
  return Json::json_pointer("/" + path);
}

struct Field {
  double* value;
  double low, high;
};
using Fields = std::map<std::string, Field>;

Error not_a_group(const std::string& whose, const std::string& path) {
  const char* what = said(whose.c_str());
  if (path.empty()) return Error{"The {} must be a group of named values.", what};
  return Error{"The {}'s {} must be a group of named values.", what, path};
}

bool is_group(const Fields& fields, const std::string& path) {
  const auto next = fields.lower_bound(path + ".");
  return next != fields.end() && next->first.starts_with(path + ".");
}

// Reads all numbers below `json`, whose own path is `path`; skip names what is read elsewhere.
std::optional<Error> read_numbers(const Json& json, const std::string& path,
                                  const std::string& whose, const char* skip,
                                  const Fields& fields) {
  if (!json.is_object()) return not_a_group(whose, path);
  for (const auto& [key, value] : json.items()) {
    if (path.empty() && key == skip) continue;
    std::string here = path;
    if (!path.empty()) here.push_back('.');
    here.append(key);
    const bool known = key.find('.') == std::string::npos;  // dots part the names of groups
    if (const auto field = fields.find(here); known && field != fields.end()) {
      const auto& [number, low, high] = field->second;
      if (!value.is_number()) return out_of_range(whose, here, low, high);
      *number = value.get<double>();
      if (!(*number >= low && *number <= high)) return out_of_range(whose, here, low, high);
    } else if (known && is_group(fields, here)) {
      if (auto error = read_numbers(value, here, whose, skip, fields)) return error;
    } else {
      return Error{"The {} has a value named {} that this version does not know.",
                   said(whose.c_str()), here};
    }
  }
  return std::nullopt;
}

std::optional<Error> read_curve(const Json& json, std::vector<TonePoint>& curve) {
  const Error error = Error{
      "The correction's curve must be a list of points, each of two numbers between 0 and 100."};
  if (!json.is_array()) return error;
  for (const Json& point : json) {
    if (!point.is_array() || point.size() != 2) return error;
    if (!point[0].is_number() || !point[1].is_number()) return error;
    curve.push_back({point[0].get<double>(), point[1].get<double>()});
  }
  return std::nullopt;
}

template <class Each>
Fields fields_of(const Each& each) {
  Fields fields;
  each([&](const std::string& path, double& value, double low, double high) {
    fields[path] = {&value, low, high};
  });
  return fields;
}

}  // namespace

Json json_of(const Correction& correction) {
  Json json = Json::object(), curve = Json::array();
  for (const TonePoint& point : correction.curve) {
    curve.push_back(Json::array({point.in, point.out}));
  }
  json["curve"] = curve;
  each_correction_number(correction, [&](const std::string& path, double value, double, double) {
    json[place_of(path)] = value;
  });
  return json;
}

Json json_of(const Monochrome& monochrome) {
  Json json{{"on", monochrome.on}};
  each_monochrome_number(monochrome, [&](const std::string& path, double value, double, double) {
    json[place_of(path)] = value;
  });
  return json;
}

Result<Correction> correction_from_json(const Json& json) {
  Correction correction;
  const Fields fields =
      fields_of([&](const auto& use) { each_correction_number(correction, use); });
  if (auto error = read_numbers(json, "", phrase("correction"), "curve", fields)) return *error;
  if (const Json* curve = member(json, "curve")) {
    if (auto error = read_curve(*curve, correction.curve)) return *error;
  }
  if (auto sound = check(correction); !sound) return sound.error();
  return correction;
}

Result<Monochrome> monochrome_from_json(const Json& json) {
  Monochrome monochrome;
  const Fields fields =
      fields_of([&](const auto& use) { each_monochrome_number(monochrome, use); });
  if (auto error = read_numbers(json, "", phrase("monochrome"), "on", fields)) return *error;
  if (const Json* on = member(json, "on")) {
    if (!on->is_boolean()) return Error{"The monochrome's on must be true or false."};
    monochrome.on = on->get<bool>();
  }
  if (auto sound = check(monochrome); !sound) return sound.error();
  return monochrome;
}

}  // namespace proofleaf
