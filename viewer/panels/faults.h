// What is wrong with a unit's files: all of it, each with its place.
#pragma once

#include "scene/quantity/complaint.h"
#include "viewer/panels/style.h"
#include "viewer/panels/wish.h"

#include <string>
#include <vector>

namespace lugline {

/// folder: as the person named it. can_leave: a unit is open beneath.
Wishes faults_panel(const std::vector<Complaint>& complaints, const std::string& folder,
                    bool can_leave, const PanelArea& area, const PanelStyle& style);

} // namespace lugline
