#include "job/parcel_work.h"

#include "base/json.h"
#include "paper/parcel.h"

namespace proofleaf {

Result<Answer> unpack_work(const WorkFiles& files, const Watch& watch) {
  if (!files.paper) return Error{"No parcel was given."};
  auto parcel = open_parcel(*files.paper, watch);
  if (!parcel) return parcel.error();
  Json names = Json::array();
  Answer answer;
  for (ParcelProfile& each : parcel.value().profiles) {
    answer.buffers.push_back({std::to_string(names.size()), std::move(each.bytes)});
    names.push_back(each.name);
  }
  answer.json =
      dump_json({{"kind", "unpacked"}, {"names", names}, {"notes", parcel.value().notes}});
  return answer;
}

}  // namespace proofleaf
