// SPDX-License-Identifier: MIT
// Where safety texts that no qualified translator has reviewed stand on a page outside the safety
// page, that page says so too, in English and the booklet's languages. Used by compose() only.
#pragma once

#include "content/booklet.h"
#include "content/voice.h"

namespace tickleaf::content {

/// Puts "not yet checked" into every frame of the part that holds such a text, and under every
/// heading of one.
void mark_unreviewed(Voice& voice, Part& part);
/// Into the frames only.
void mark_unreviewed_frames(Voice& voice, Part& part);

} // namespace tickleaf::content
