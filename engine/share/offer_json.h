// An offer as JSON, for the client's page and for requests.
#pragma once

#include "base/json.h"
#include "share/offer.h"

namespace proofleaf {

// A checksum as people may compare it: eight hexadecimal digits.
std::string hex_of(uint32_t checksum);

// {"title","note","sizes":[{"size","price","width_mm","height_mm"},..],"papers":[{"name",
//  "description","white":[L,a,b],"black":[L,a,b]},..],"expires":"2026-12-31"|"","expired",
//  "checksum","space"}; a size's millimetres only where it gives them. today: days from 1970-01-01.
Json json_of(const Offer& offer, uint32_t today);

}  // namespace proofleaf
