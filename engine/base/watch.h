// How long work tells its progress and is asked to stop.
#pragma once

#include <functional>

#include "base/result.h"

namespace proofleaf {

// Called with the share done so far [0..1], often enough to redraw a bar; returns false to stop.
// An empty Watch means: never stop, nobody looks.
using Watch = std::function<bool(double share)>;

inline bool keep_going(const Watch& watch, double share) { return !watch || watch(share); }
inline Error stopped() { return Error{"Stopped, as asked; nothing was changed."}; }

}  // namespace proofleaf
