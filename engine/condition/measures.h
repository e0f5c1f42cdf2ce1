// Everything the pass measures, before it is judged.
#pragma once

#include <memory>
#include <optional>

#include "condition/banding.h"
#include "condition/blocking.h"
#include "condition/clipping.h"
#include "condition/compression.h"
#include "condition/condition.h"
#include "condition/cut_off.h"
#include "condition/levels.h"
#include "condition/noise.h"
#include "condition/sharpness.h"
#include "condition/tilt.h"

namespace proofleaf::condition {

enum class ProfileState { sound, from_exif, missing, unusable, odd };

struct Measures {
  uint64_t pixels = 0;
  Frame frame;
  Clipping clipping;
  Levels levels;
  Banding banding;
  Noise noise;
  Sharpness sharpness;
  Blocking blocking;
  std::vector<Spot> spots;
  bool sides_judged = false;  // large enough for cut_off
  std::vector<CutOff> cut_off;
  Tilt tilt;
  std::optional<Compression> compression;
  ProfileState profile = ProfileState::sound;
};

// Whether the profile is one to keep pictures in: a display or working space whose equal channels
// are neutral (a* and b* within 2 at a middle grey).
bool keeps_neutrals(const Profile& profile);

// Turns measures into the report's findings and the list of what cannot be said. The limits between
// good, look and act stand at the head of findings.cpp.
void judge(const Measures& measures, const MasterInfo& info, ConditionReport& report);

}  // namespace proofleaf::condition
