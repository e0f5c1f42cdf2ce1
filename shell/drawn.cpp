#include "drawn.h"

#include <cstring>

#include "imgui.h"

namespace proofleaf::shell {
namespace {

uint32_t changes = 0;

}  // namespace

void texture_changed() { ++changes; }
uint32_t texture_changes() { return changes; }

// Eight bytes at a time; the rest of the last ones is taken for zero.
void Drawn::add(const void* bytes, size_t count) {
  const auto* from = static_cast<const uint8_t*>(bytes);
  for (size_t at = 0; at < count; at += 8) {
    uint64_t word = 0;
    std::memcpy(&word, from + at, count - at < 8 ? count - at : 8);
    sum_ = (sum_ ^ word) * 0x100000001B3;
    sum_ ^= sum_ >> 29;  // the high bits reach the low ones, too
  }
}

void Drawn::add(const ImDrawData& data) {
  add_values(data.DisplayPos.x, data.DisplayPos.y, data.DisplaySize.x, data.DisplaySize.y,
             data.FramebufferScale.x, data.FramebufferScale.y);
  for (const ImDrawList* list : data.CmdLists) {
    add(list->VtxBuffer.Data, size_t(list->VtxBuffer.size_in_bytes()));
    add(list->IdxBuffer.Data, size_t(list->IdxBuffer.size_in_bytes()));
    for (const ImDrawCmd& command : list->CmdBuffer)
      add_values(command.ClipRect, command.TextureId, command.VtxOffset, command.IdxOffset,
                 command.ElemCount);
  }
}

}  // namespace proofleaf::shell
