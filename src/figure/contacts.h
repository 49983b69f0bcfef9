// SPDX-License-Identifier: MIT
// Contacts of a pose to goals for the solver.
// Shapes: a contact gives counted goals (missed by more than 2 mm is an error) and guides that only
// help.
#pragma once

#include <string>
#include <vector>

#include "figure/authored.h"
#include "figure/room.h"

namespace tickleaf::figure {

/// A contact and, where it was there in the pose before, the body it is carried over from.
struct ActiveContact {
    Contact contact;
    bool carried = false;
};

/// Adds what a pose's contacts ask of the body to the problem: goals, base of support, flesh that
/// touches. `before` is the body of the pose before (nullptr for the first pose).
void add_contacts(Problem& problem, const std::vector<ActiveContact>& contacts,
                  const std::vector<Prop>& props, const Body* before);

/// "right heel on floor"; `right_is_right` is false where the drawing is mirrored.
std::string contact_name(const Contact& contact, bool right_is_right);

/// Usual arm angles for a hand on a place, used as the start and the wish where the file says
/// nothing.
std::vector<Setting> usual_arm(const Contact& contact, const std::vector<Prop>& props);

} // namespace tickleaf::figure
