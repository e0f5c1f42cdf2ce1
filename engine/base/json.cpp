// The parser and the writer are compiled here alone: in every file that reads JSON they would take
// a second each.
#include "base/json.h"

namespace proofleaf {

Json parse_json(const std::string& text) { return Json::parse(text, nullptr, false); }

std::string dump_json(const Json& value, int indent) {
  return value.dump(indent, ' ', false, Json::error_handler_t::replace);
}

}  // namespace proofleaf
